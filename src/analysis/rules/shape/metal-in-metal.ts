import { atPoint, inMm, named } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const metalInMetal: Rule = {
  code: 'shape/metal-in-metal',
  severity: 'error',
  *check({ tub, sharedRoom }) {
    for (const { faces, depth, point } of sharedRoom()) {
      const [a, b] = faces.map((face) => tub.panels[face]);
      yield {
        message: `${named(a.name)} and ${named(b.name)} take the same room near ${atPoint(point)}, ${inMm(depth, 0)} deep; their metal must be clear`,
        at: b.at,
        about: [b.name, a.name],
        related: [
          { at: a.at, message: `${named(a.name)} is there as well; move or trim one, or cut an opening for it` },
        ],
        values: { depth_mm: depth, x_mm: point[0], y_mm: point[1], z_mm: point[2] },
        measure: { has: depth, needs: 0, better: 'less' },
      };
    }
  },
};
