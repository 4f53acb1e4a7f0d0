import { overlappingOpenings } from '../../shape/opening-gap.js';
import { ROUND_OFF } from '../../geometry/tolerance.js';
import { inMm, named } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const openingsOverlap: Rule = {
  code: 'shape/openings-overlap',
  severity: 'error',
  *check({ tub, shape }) {
    for (const face of shape().faces) {
      for (const { openings, overlap } of overlappingOpenings(face)) {
        if (overlap <= ROUND_OFF) continue;
        const [first, second] = openings.map(({ opening }) => tub.openings[opening]);
        yield {
          message: `${named(second.name)} overlaps ${named(first.name)} by ${inMm(overlap, 0)}; each opening needs metal all around it`,
          at: second.at,
          about: [second.name, first.name],
          related: [
            {
              at: first.at,
              message: 'Move one of them, or draw both as one opening: two cuts that cross drop a loose piece',
            },
          ],
          values: { overlap_mm: overlap },
          measure: { has: overlap, needs: 0, better: 'less' },
        };
      }
    }
  },
};
