import { balanceOf } from '../../water/outlet/tank-share.js';
import { named, plain } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const tankOverfull: Rule = {
  code: 'drain/tank-overfull',
  severity: 'error',
  *check({ tub, water }) {
    for (const tank of tub.tanks) {
      const balance = balanceOf(tub, water(), tank);
      if (balance.needed <= tank.capacityMm3) continue;
      const litres = (mm3: number, against?: number): string =>
        `${plain(mm3 / 1e6, 2, against === undefined ? undefined : against / 1e6)} L`;
      yield {
        message: `Tank ${named(tank.name)} holds ${litres(tank.capacityMm3, balance.needed)}; topped up to its working volume in use it needs ${litres(balance.needed, tank.capacityMm3)} when the pump stops`,
        at: tank.at,
        about: [tank.name],
        related: [
          {
            at: tank.at,
            message: `${litres(balance.working)} to the mark, ${litres(balance.drainBack)} drains back from the tub; ${litres(balance.pools)} stays in its pools`,
          },
        ],
        values: {
          capacity_L: tank.capacityMm3 / 1e6,
          needed_L: balance.needed / 1e6,
          working_L: balance.working / 1e6,
          drain_back_L: balance.drainBack / 1e6,
          pools_L: balance.pools / 1e6,
        },
        measure: { has: tank.capacityMm3 / 1e6, needs: balance.needed / 1e6, better: 'more' },
      };
    }
  },
};
