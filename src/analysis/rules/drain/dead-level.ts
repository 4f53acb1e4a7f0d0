import { leastFallOf } from '../../water/standing/thresholds.js';
import { SAME_DIRECTION } from '../../geometry/tolerance.js';
import { inDeg, named, toDeg } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const deadLevel: Rule = {
  code: 'drain/dead-level',
  severity: 'warning',
  *check({ tub, shape, water }) {
    const { panels, within, wetted } = water();
    for (const { face, inclination } of panels()) {
      if (inclination >= SAME_DIRECTION || !wetted().has(face)) continue;
      const { angle, source } = leastFallOf(tub, face);
      const { name, at } = tub.panels[face];
      yield {
        message: `${named(name)} is dead level and stays wet; it needs a fall of at least ${inDeg(angle + within)}`,
        at,
        about: [name],
        related: [{ at, message: `Water on it does not run anywhere; least fall: ${source}` }],
        values: { inclination_deg: 0, needed_deg: toDeg(angle + within), area_mm2: shape().faces[face].area, source },
        measure: { has: 0, needs: toDeg(angle + within), better: 'more' },
      };
    }
  },
};
