import type { Tub } from '../../model/tub.js';
import type { Stray } from '../../water/flow/route/paths.js';
import { named, plain } from '../../model/wording.js';
import type { Rule } from '../rule.js';

/** Shares below a hundredth are left out: the corner of a panel, not its way. */
const NOTABLE = 0.01;

export const pathLeft: Rule = {
  code: 'drain/path-left',
  severity: 'warning',
  *check({ tub, water }) {
    for (const steps of water().paths()) {
      for (const { from, to, share, strays } of steps) {
        if (share >= 1 - NOTABLE) continue;
        yield {
          message: `${plain(share * 100, 1)} % of the water on ${named(from.name)} goes on to ${named(to.name)}; the path says all of it does`,
          at: to.at,
          about: [from.name, to.name],
          related: strays
            .filter((stray) => stray.share >= NOTABLE)
            .map((stray) => ({
              at: placeOf(tub, stray) ?? from.at,
              message: `${plain(stray.share * 100, 1)} % ${wayOf(tub, stray)}`,
            })),
          values: { share_percent: share * 100 },
          measure: { has: share * 100, needs: (1 - NOTABLE) * 100, better: 'more' },
        };
      }
    }
  },
};

const wayOf = (tub: Tub, stray: Stray): string => {
  if (stray.kind === 'face') return `runs onto ${named(tub.panels[stray.face].name)} first`;
  if (stray.kind === 'opening') return `runs into ${named(tub.openings[stray.opening].name)}`;
  return stray.kind === 'rim'
    ? `leaves over the edge of ${named(tub.panels[stray.face].name)}`
    : 'stays in standing water';
};

const placeOf = (tub: Tub, stray: Stray): number | undefined => {
  if (stray.kind === 'opening') return tub.openings[stray.opening].at;
  return stray.kind === 'pool' ? undefined : tub.panels[stray.face].at;
};
