import { balanceOf } from '../../water/outlet/tank-share.js';
import { named, plain } from '../../model/wording.js';
import type { Rule } from '../rule.js';

/** Part of the working volume that has to stay over the pump; common practice, no source. */
const LEAST_LEFT = 0.2;

export const tankRunsDry: Rule = {
  code: 'drain/tank-runs-dry',
  severity: 'error',
  *check({ tub, water }) {
    for (const tank of tub.tanks) {
      const { working, drainBack, pools, leftWhileRunning } = balanceOf(tub, water(), tank);
      if (leftWhileRunning >= LEAST_LEFT * working) continue;
      const kept = Math.max(0, leftWhileRunning);
      const needs = LEAST_LEFT * working;
      const litres = (mm3: number, against?: number): string =>
        `${plain(mm3 / 1e6, 2, against === undefined ? undefined : against / 1e6)} L`;
      yield {
        message: `Tank ${named(tank.name)} keeps ${litres(kept, needs)} of ${litres(working)} while it runs; the pump needs ${litres(needs, kept)}`,
        at: tank.at,
        about: [tank.name],
        related: [
          {
            at: tank.at,
            message: `${litres(drainBack)} runs over the tub and ${litres(pools)} stands in its pools; a fifth is common practice, no source`,
          },
        ],
        values: {
          left_L: leftWhileRunning / 1e6,
          needed_L: (LEAST_LEFT * working) / 1e6,
          working_L: working / 1e6,
          out_L: (drainBack + pools) / 1e6,
        },
        measure: { has: leftWhileRunning / 1e6, needs: (LEAST_LEFT * working) / 1e6, better: 'more' },
      };
    }
  },
};
