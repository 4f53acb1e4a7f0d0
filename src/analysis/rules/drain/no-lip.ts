import { inMm, named } from '../../model/wording.js';
import { overflowOutlets } from '../../water/outlet/overflow-outlets.js';
import type { Rule } from '../rule.js';

/** mm. Shorter spouts let water turn under the sheet; common practice, no source. */
const LEAST_LIP = 10;

export const noLip: Rule = {
  code: 'drain/no-lip',
  severity: 'warning',
  *check({ tub, water }) {
    if (tub.outlets.every(({ lip, opening, weir }) => opening === undefined || weir || lip >= LEAST_LIP)) return;
    const overflows = overflowOutlets(tub, water());
    for (const [outlet, { name, at, lip, opening, weir }] of tub.outlets.entries()) {
      if (opening === undefined || weir || lip >= LEAST_LIP || overflows.has(outlet)) continue;
      const has = lip > 0 ? `has a lip of ${inMm(lip, LEAST_LIP)}` : 'is a bare hole';
      yield {
        message: `Outlet ${named(name)} ${has}; it needs a turned-down lip of at least ${inMm(LEAST_LIP, lip)} so that water does not cling`,
        at,
        about: [name],
        related: [
          {
            at,
            message:
              'Water that clings to the underside travels along it and drips elsewhere; common practice, no source',
          },
        ],
        values: { lip_mm: lip, needed_mm: LEAST_LIP },
        measure: { has: lip, needs: LEAST_LIP, better: 'more' },
      };
    }
  },
};
