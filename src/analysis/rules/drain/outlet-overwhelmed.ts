import { inMm, named, plain } from '../../model/wording.js';
import { limits } from '../../model/limits.js';
import type { Rule } from '../rule.js';

export const outletOverwhelmed: Rule = {
  code: 'drain/outlet-overwhelmed',
  severity: 'error',
  *check({ tub, water }) {
    for (const state of water().outlets()) {
      const { outlet, comesMm3S, capacityMm3S, floodLevel, headNeeded: head, lip, pipe } = state;
      if (capacityMm3S === undefined || comesMm3S <= capacityMm3S) continue;
      const { name, at, strainer } = tub.outlets[outlet];
      const [has, needs] = [(comesMm3S * 60) / 1e6, (capacityMm3S * 60) / 1e6];
      yield {
        message: `Outlet ${named(name)} gets ${plain(has, 2, needs)} L/min; it takes ${plain(needs, 2, has)} L/min before the tub runs over`,
        at,
        about: [name],
        related: [
          {
            at,
            message: `${plain(has, 2)} L/min needs ${headText(head)}, the rim leaves ${inMm(floodLevel - lip)}`,
          },
          ...(pipe?.limits === 'pipe'
            ? [{ at: tub.outlets[outlet].pipe?.at ?? at, message: 'The pipe below it limits, not the outlet itself' }]
            : []),
          ...(strainer
            ? [{ at: strainer.at, message: `With ${plain(strainer.blocked * 100, 0)} % of the strainer blocked` }]
            : []),
        ],
        values: {
          inflow_L_min: has,
          capacity_L_min: needs,
          ...(isTold(head) ? { head_mm: head, water_level_mm: lip + head } : {}),
          flood_level_mm: floodLevel,
        },
        measure: { has, needs, better: 'less' },
      };
    }
  },
};

/** A head beyond the longest length of a tub is no length to build for. */
const isTold = (head: number): boolean => head <= limits.length.atMost;

const headText = (head: number): string => (isTold(head) ? `${inMm(head)} of head` : 'more head than any tub has');
