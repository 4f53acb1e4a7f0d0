import { strainerFilling } from '../../water/outlet/strainer-filling.js';
import { named, plain } from '../../model/wording.js';
import type { Rule } from '../rule.js';

/** Cleaning more often than once in a shift of this many hours is a nuisance; common practice, no source. */
const SHIFT_H = 8;

export const strainerFills: Rule = {
  code: 'drain/strainer-fills',
  severity: 'warning',
  *check({ tub, water }) {
    for (const { outlet, untilOverflow, cleanEvery, blockedAt } of strainerFilling(tub, water())) {
      const { name, strainer, at } = tub.outlets[outlet];
      const [hours, every] = [untilOverflow / 3600, cleanEvery / 3600];
      if (every >= SHIFT_H) continue;
      yield {
        message: `Strainer of ${named(name)} is full after ${plain(hours, 2)} h and needs cleaning every ${plain(every, 2, SHIFT_H)} h; once in ${SHIFT_H} h is practical`,
        at: strainer?.at ?? at,
        about: [name],
        related: [
          {
            at,
            message: `The tub runs over when ${plain(blockedAt * 100, 0)} % of it is blocked; layer and interval are common practice, no source`,
          },
        ],
        values: { until_overflow_h: hours, clean_every_h: every, blocked_at_percent: blockedAt * 100 },
        measure: { has: every, needs: SHIFT_H, better: 'more' },
      };
    }
  },
};
