import { distance } from '../../geometry/vec.js';
import { ROUND_OFF } from '../../geometry/tolerance.js';
import { inMm, named, plain } from '../../model/wording.js';
import type { Outlet, OutletPipe } from '../../model/tub.js';
import type { Rule, RuleFinding } from '../rule.js';

/** Least fall of a drain pipe, 1/4 in per ft. Source: International Plumbing Code, table 704.1, up to 2 1/2 in (from memory). */
const LEAST_FALL = 1 / 48;

export const pipeFlat: Rule = {
  code: 'drain/pipe-flat',
  severity: 'warning',
  worst: 'error',
  *check({ tub }) {
    for (const outlet of tub.outlets) {
      const { pipe } = outlet;
      if (pipe) yield* judged(outlet, pipe);
    }
  },
};

function* judged({ name, at, center }: Outlet, pipe: OutletPipe): Iterable<RuleFinding> {
  const apart = distance(center, pipe.to);
  const common = { at: pipe.at, about: [name], related: [{ at, message: 'The outlet it is fitted to' }] };
  if (apart > pipe.length + ROUND_OFF) {
    yield {
      ...common,
      severity: 'error',
      message: `The pipe of ${named(name)} is ${inMm(pipe.length, apart)} long and ends ${inMm(apart, pipe.length)} away; it needs to be as long as that at least`,
      values: { length_mm: pipe.length, apart_mm: apart },
      measure: { has: pipe.length, needs: apart, better: 'more' },
    };
    return;
  }
  const falls = (center[2] - pipe.to[2]) / pipe.length;
  if (falls >= LEAST_FALL) return;
  const has =
    falls <= 0 ? `ends ${inMm(pipe.to[2] - center[2], 0)} above its outlet` : `falls ${plain(falls * 100, 2)} %`;
  yield {
    ...common,
    ...(falls <= 0 ? { severity: 'error' } : {}),
    message: `The pipe of ${named(name)} ${has}; it needs to fall at least ${plain(LEAST_FALL * 100, 2)} % to drain`,
    values: { fall_percent: falls * 100, needed_percent: LEAST_FALL * 100 },
    measure: { has: falls * 100, needs: LEAST_FALL * 100, better: 'more' },
  };
}
