import { spotRowsOf } from '../../join/spots/spot-plan.js';
import { SPOT_RATIO } from '../../join/spots/spot-table.js';
import { worstOfSeams } from '../../join/seam/worst-of-seams.js';
import { inMm, named, plain } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const spotRatio: Rule = {
  code: 'join/spot-ratio',
  severity: 'warning',
  *check({ tub, joints }) {
    const rows = spotRowsOf(tub, joints()).flatMap(({ seam, stack }) => {
      const ratio = Math.max(...stack) / Math.min(...stack);
      return ratio > SPOT_RATIO ? [{ seam, has: -ratio, needs: -SPOT_RATIO, stack }] : [];
    });
    for (const { seam, has, stack } of worstOfSeams(rows)) {
      const { name, at } = tub.seams[seam];
      yield {
        message: `Seam ${named(name)} spots ${inMm(Math.max(...stack))} to ${inMm(Math.min(...stack))}, ${plain(-has, 1, SPOT_RATIO)} to 1; more than ${SPOT_RATIO} to 1 heats the thin sheet only`,
        at,
        about: [name],
        values: { ratio: -has, thickest_mm: Math.max(...stack), thinnest_mm: Math.min(...stack) },
        measure: { has: -has, needs: SPOT_RATIO, better: 'less' },
      };
    }
  },
};
