import { NOISE } from '../../geometry/tolerance.js';
import { spotRowsOf } from '../../join/spots/spot-plan.js';
import { worstOfSeams } from '../../join/seam/worst-of-seams.js';
import { inMm, named } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const spotPitch: Rule = {
  code: 'join/spot-pitch',
  severity: 'warning',
  *check({ tub, joints }) {
    const rows = spotRowsOf(tub, joints()).flatMap((row) =>
      row.limits && row.pitch !== undefined && row.pitch < row.limits.pitch - NOISE
        ? [{ seam: row.seam, has: row.pitch, needs: row.limits.pitch, source: row.limits.source, stack: row.stack }]
        : [],
    );
    for (const { seam, has, needs, source, stack } of worstOfSeams(rows)) {
      const { name, at } = tub.seams[seam];
      yield {
        message: `Spots of seam ${named(name)} stand ${inMm(has, needs)} apart; sheet of ${inMm(Math.min(...stack))} needs at least ${inMm(needs, has)}`,
        at,
        about: [name],
        related: [{ at, message: `Nearer, the current runs through the neighbour: ${source}` }],
        values: { pitch_mm: has, needed_mm: needs, thickness_mm: Math.min(...stack) },
        measure: { has, needs, better: 'more' },
      };
    }
  },
};
