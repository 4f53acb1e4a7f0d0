import { NOISE } from '../../geometry/tolerance.js';
import { spotRowsOf } from '../../join/spots/spot-plan.js';
import { worstOfSeams } from '../../join/seam/worst-of-seams.js';
import { inMm, named } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const spotOverlap: Rule = {
  code: 'join/spot-overlap',
  severity: 'warning',
  *check({ tub, joints }) {
    const rows = spotRowsOf(tub, joints()).flatMap(({ seam, limits, overlap }) =>
      limits && overlap < limits.overlap - NOISE
        ? [{ seam, has: overlap, needs: limits.overlap, source: limits.source }]
        : [],
    );
    for (const { seam, has, needs, source } of worstOfSeams(rows)) {
      const { name, at } = tub.seams[seam];
      yield {
        message: `Sheets of seam ${named(name)} lie ${inMm(has, needs)} on each other under the spots; they need at least ${inMm(needs, has)}`,
        at,
        about: [name],
        related: [{ at, message: `Least contacting overlap: ${source}` }],
        values: { overlap_mm: has, needed_mm: needs },
        measure: { has, needs, better: 'more' },
      };
    }
  },
};
