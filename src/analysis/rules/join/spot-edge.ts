import { NOISE } from '../../geometry/tolerance.js';
import { spotRowsOf } from '../../join/spots/spot-plan.js';
import { worstOfSeams } from '../../join/seam/worst-of-seams.js';
import { inMm, named } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const spotEdge: Rule = {
  code: 'join/spot-edge',
  severity: 'warning',
  *check({ tub, joints }) {
    const rows = spotRowsOf(tub, joints()).flatMap(({ seam, limits, edge, spots }) =>
      // A contact that is too narrow across the seam is told as overlap.
      limits && edge < limits.edge - NOISE && spots.some((spot) => spot.edge < spot.across)
        ? [{ seam, has: edge, needs: limits.edge, source: limits.source }]
        : [],
    );
    for (const { seam, has, needs, source } of worstOfSeams(rows)) {
      const { name, at } = tub.seams[seam];
      yield {
        message: `Spots of seam ${named(name)} stand ${inMm(has, needs)} from the edge of the tab or lap; they need at least ${inMm(needs, has)}`,
        at,
        about: [name],
        related: [{ at, message: `Half the least contacting overlap: ${source}` }],
        values: { edge_mm: has, needed_mm: needs },
        measure: { has, needs, better: 'more' },
      };
    }
  },
};
