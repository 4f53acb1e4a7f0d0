import { inMm, named } from '../../model/wording.js';
import type { Rule } from '../rule.js';

/** Sheet gapes between rivets or screws farther apart than this many thicknesses. Common practice, no source. */
const THICKNESSES = 20;

export const rivetPitch: Rule = {
  code: 'join/rivet-pitch',
  severity: 'warning',
  *check({ tub, joints }) {
    for (const { seam, runs, method } of joints().seams) {
      const { name, fasteners } = tub.seams[seam];
      if (!fasteners || runs.length === 0 || method.closing !== 'sealant') continue;
      const thickness = Math.min(...runs.flatMap(({ run }) => run.sides.map((side) => side.thickness)));
      const needs = THICKNESSES * thickness;
      const { at, every } = fasteners;
      if (every <= needs) continue;
      yield {
        message: `${fasteners.kind === 'rivet' ? 'Rivets' : 'Screws'} of seam ${named(name)} stand every ${inMm(every, needs)}; to press sealant between sheet of ${inMm(thickness)} they stand at most ${inMm(needs, every)} apart`,
        at,
        about: [name],
        values: { pitch_mm: every, needed_mm: needs, thickness_mm: thickness },
        measure: { has: every, needs, better: 'less' },
      };
    }
  },
};
