import { lowEnd } from '../../shape/account/edge-account.js';
import { lowEdgesOf } from '../../seal/low-edges.js';
import { atPoint, inMm, named } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const lowFreeEdge: Rule = {
  code: 'seal/low-free-edge',
  severity: 'warning',
  *check({ tub, wetShape, watertight }) {
    for (const { entry, rim } of lowEdgesOf(tub, wetShape(), watertight().account)) {
      const { name, at } = tub.panels[entry.stretch.face];
      const point = lowEnd(entry.stretch);
      yield {
        message: `A free edge of ${named(name)} lies ${inMm(point[2])} high, ${inMm(rim - point[2], 0)} below the rim; water runs off over it`,
        at,
        about: [name],
        related: [
          {
            at,
            message: `Its lowest point is at ${atPoint(point)}. Where an edge is meant to be a low rim, say so with \`rim\``,
          },
        ],
        values: {
          x_mm: point[0],
          y_mm: point[1],
          z_mm: point[2],
          height_mm: point[2],
          rim_mm: rim,
          length_mm: entry.length,
        },
        measure: { has: point[2], needs: rim, better: 'more' },
      };
    }
  },
};
