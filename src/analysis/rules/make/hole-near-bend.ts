import { holesNearBends } from '../../making/hole-distance.js';
import { placeOfBend } from '../../making/making.js';
import { inMm, named } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const holeNearBend: Rule = {
  code: 'make/hole-near-bend',
  severity: 'warning',
  *check({ tub, shape, making }) {
    for (const { flat } of making().pieces) {
      for (const { hole, bend, distance, needs } of holesNearBends(flat)) {
        if (bend.isMade) continue;
        const opening = tub.openings[hole.opening!];
        yield {
          message: `Opening ${named(opening.name)} is ${inMm(distance, needs)} from where bend ${named(bend.name)} begins; it needs ${inMm(needs, distance)} to keep its shape`,
          at: opening.at,
          about: [opening.name, bend.name],
          related: [
            {
              at: placeOfBend(tub, shape(), flat, bend),
              message: 'Nearer to the bend the hole is drawn out of round; cut it after bending, or move it',
            },
          ],
          values: { distance_mm: distance, needed_mm: needs },
          measure: { has: distance, needs, better: 'more' },
        };
      }
    }
  },
};
