import { inMm, named } from '../../model/wording.js';
import { bowedSeamsOf } from '../../seal/bowed-seams.js';
import type { Rule, RuleFinding } from '../rule.js';

export const bowOpens: Rule = {
  code: 'seal/bow-opens',
  severity: 'warning',
  *check({ tub, wetShape, water, joints }): Iterable<RuleFinding> {
    for (const { joint, face, opens, closes, pitch, depth } of bowedSeamsOf(tub, wetShape(), water(), joints())) {
      if (opens <= closes) continue;
      const isSeam = joint.kind === 'seam';
      const { name, at } = isSeam ? tub.seams[joint.index] : tub.faceJoints![joint.index];
      const wall = tub.panels[face];
      const held =
        pitch === undefined
          ? 'where nothing but sealant holds it'
          : `between ${isSeam ? 'what holds it' : 'its screws'} ${inMm(pitch)} apart`;
      const closer = isSeam
        ? `its sealant closes ${inMm(closes, opens)}`
        : `its gasket is pressed by ${inMm(closes, opens)}`;
      yield {
        message: `Full, the liquid bows ${named(wall.name)} off seam ${named(name)} by up to ${inMm(opens, closes)}, ${held}; ${closer}`,
        at,
        about: [name, wall.name],
        related: [{ at: wall.at, message: `The liquid stands ${inMm(depth)} over the lowest place of the seam` }],
        values: {
          opens_mm: opens,
          closes_mm: closes,
          depth_mm: depth,
          ...(pitch === undefined ? {} : { pitch_mm: pitch }),
        },
        measure: { has: opens, needs: closes, better: 'less' },
      };
    }
  },
};
