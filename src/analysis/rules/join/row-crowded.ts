import { NOISE } from '../../geometry/tolerance.js';
import { rowPitchesOf } from '../../join/fasteners/row-room.js';
import { worstOfSeams } from '../../join/seam/worst-of-seams.js';
import { inMm, named } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const rowCrowded: Rule = {
  code: 'join/row-crowded',
  severity: 'warning',
  *check({ tub, joints }) {
    const near = rowPitchesOf(tub, joints()).filter(({ has, needs }) => has < needs - NOISE);
    for (const { fastener, has, needs } of worstOfSeams(near)) {
      const { seam: name, at } = fastener;
      yield {
        message: `${fastener.fastener.kind === 'rivet' ? 'Rivets' : 'Screws'} of seam ${named(name)} stand ${inMm(has, needs)} apart; they need at least ${inMm(needs, has)}`,
        at,
        about: [name],
        values: { pitch_mm: has, needed_mm: needs },
        measure: { has, needs, better: 'more' },
      };
    }
  },
};
