import { inDeg, inMm, named, toDeg } from '../../model/wording.js';
import type { Rule } from '../rule.js';

/** rad. From here on lengths are given to the tangent line; common practice, no source. */
const FARTHEST_SHARP_CORNER = (150 * Math.PI) / 180;

export const sharpCornerFar: Rule = {
  code: 'bend/sharp-corner-far',
  severity: 'warning',
  *check({ tub, shape }) {
    for (const bend of shape().bends) {
      if (bend.angle <= FARTHEST_SHARP_CORNER) continue;
      yield {
        message: `Bend ${named(bend.name)} turns ${inDeg(bend.angle, FARTHEST_SHARP_CORNER)}; beyond ${inDeg(FARTHEST_SHARP_CORNER, bend.angle)} the sharp corner runs ${inMm(bend.setback)} away from the metal`,
        at: bend.at,
        about: [bend.name, ...bend.faces.map((face) => tub.panels[face].name)],
        related: [
          { at: bend.at, message: 'Measure such a leg to its tangent line in the flat pattern, or make it a hem' },
        ],
        values: { angle_deg: toDeg(bend.angle), setback_mm: bend.setback },
        measure: { has: toDeg(bend.angle), needs: toDeg(FARTHEST_SHARP_CORNER), better: 'less' },
      };
    }
  },
};
