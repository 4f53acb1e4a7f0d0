import { toldBody } from '../../model/around/roles.js';
import { atPoint, inDeg, inMm } from '../../model/wording.js';
import { truenessOf } from '../../join/seam/seam-gap.js';
import type { Rule } from '../rule.js';

export const notClear: Rule = {
  code: 'shape/not-clear',
  severity: 'warning',
  worst: 'error',
  *check({ tub, clears }) {
    const { bends, marks } = truenessOf(tub.shop);
    for (const { clear, nearest, worst } of clears()) {
      yield undefined;
      if (worst.gap >= clear.least) continue;
      const isDrawn = nearest.gap < clear.least;
      const { gap, points } = isDrawn ? nearest : worst;
      const [one, other] = clear.bodies.map((body) => toldBody(tub, body));
      const trueness = `bends ± ${inDeg(bends)} and marks ± ${inMm(marks)}`;
      const where = `near ${atPoint(points[0])}`;
      const need = `they need at least ${inMm(clear.least, gap)}`;
      const left = gap < 0 ? `take the same room by ${inMm(-gap)}` : `have ${inMm(gap, clear.least)} between them`;
      yield {
        message: isDrawn
          ? `${capital(one)} and ${other} ${left} ${where}; ${need}`
          : `${capital(one)} and ${other} are ${inMm(nearest.gap)} apart as drawn, but ${left} at worst, with ${trueness}, ${where}; ${need}`,
        at: clear.at,
        about: clear.bodies.flatMap((body) => (body === -1 ? [] : [tub.groups![body].name])),
        related: isDrawn
          ? [
              {
                at: clear.at,
                message: `At worst, with ${trueness}: ${inMm(worst.gap)} near ${atPoint(worst.points[0])}`,
              },
            ]
          : [],
        values: {
          apart_mm: nearest.gap,
          at_worst_mm: worst.gap,
          needs_mm: clear.least,
          x_mm: points[0][0],
          y_mm: points[0][1],
          z_mm: points[0][2],
        },
        measure: { has: gap, needs: clear.least, better: 'more' },
        ...(isDrawn && { severity: 'error' as const }),
      };
    }
  },
};

const capital = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);
