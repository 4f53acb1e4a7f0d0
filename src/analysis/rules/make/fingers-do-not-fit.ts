import { placeOfBend } from '../../making/making.js';
import { stuckSides } from '../../making/ring-of-sides.js';
import { inMm, named } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const fingersDoNotFit: Rule = {
  code: 'make/fingers-do-not-fit',
  severity: 'warning',
  *check({ tub, shape, making }) {
    const { pieces, shop } = making();
    for (const { flat, bends } of pieces) {
      for (const { check, made, needs, machine } of stuckSides(bends, shop)) {
        if (check.bend.isMade) continue;
        yield {
          message: `Bend ${named(check.bend.name)} of ${inMm(needs, made)} lies between standing sides; the fingers of ${named(machine)} make up ${inMm(made, needs)}`,
          at: placeOfBend(tub, shape(), flat, check.bend),
          about: [check.bend.name],
          related: [
            {
              at: tub.at,
              message:
                'The side that is bent last has its neighbours standing at both ends: another finger, another length, or a seam instead of one bend',
            },
          ],
          values: { made_up_mm: made, length_mm: needs, machine },
          measure: { has: made, needs, better: 'more' },
        };
      }
    }
  },
};
