import { pumpStates } from '../../water/pump/pumps.js';
import { named, plain } from '../../model/wording.js';
import type { Rule } from '../rule.js';

/** m/s. Above it a hose whistles, shakes and eats the pump's head; common practice, no source. */
const MOST_SPEED = 3;

export const hoseFast: Rule = {
  code: 'pump/hose-fast',
  severity: 'warning',
  *check({ tub, water }) {
    if (tub.inflows.every(({ pump }) => !pump)) return;
    for (const { inflow, pump, speed } of pumpStates(tub, water())) {
      const has = speed / 1000;
      if (has <= MOST_SPEED) continue;
      const { name } = tub.inflows[inflow];
      yield {
        message: `The liquid of ${named(name)} runs ${plain(has, 2, MOST_SPEED)} m/s in its hose; it needs to stay under ${MOST_SPEED} m/s`,
        at: pump.at,
        about: [name],
        related: [{ at: pump.at, message: 'A wider hose takes less of the head; common practice, no source' }],
        values: { speed_m_s: has },
        measure: { has, needs: MOST_SPEED, better: 'less' },
      };
    }
  },
};
