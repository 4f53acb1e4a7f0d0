import { inMm, named } from '../../model/wording.js';
import type { Rule } from '../rule.js';

/** Sheet gapes between rivets farther apart than this many thicknesses. Common practice, no source. */
const THICKNESSES = 20;

export const rivetPitch: Rule = {
  code: 'join/rivet-pitch',
  severity: 'warning',
  *check({ tub, joints }) {
    for (const { seam, runs, method } of joints().seams) {
      const { name, at, rivets } = tub.seams[seam];
      if (rivets === undefined || runs.length === 0 || method.closing !== 'sealant') continue;
      const thickness = Math.min(...runs.flatMap(({ run }) => run.sides.map((side) => side.thickness)));
      const needs = THICKNESSES * thickness;
      if (rivets <= needs) continue;
      yield {
        message: `Rivets of seam ${named(name)} stand every ${inMm(rivets, needs)}; to press sealant between sheet of ${inMm(thickness)} they stand at most ${inMm(needs, rivets)} apart`,
        at,
        about: [name],
        values: { pitch_mm: rivets, needed_mm: needs, thickness_mm: thickness },
        measure: { has: rivets, needs, better: 'less' },
      };
    }
  },
};
