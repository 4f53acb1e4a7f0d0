import { HAND_ROUNDED } from '../../model/tolerance.js';
import { clothRoom } from '../../join/fasteners/strainer-frame.js';
import { inMm, named } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const strainerTooLarge: Rule = {
  code: 'drain/strainer-too-large',
  severity: 'warning',
  *check({ tub, shape }) {
    for (const outlet of tub.outlets) {
      const { name, strainer, panel } = outlet;
      // The frame of a bolted one is judged as a whole.
      if (!strainer || strainer.bolted) continue;
      const room = clothRoom(shape(), outlet, strainer.size);
      if (room === undefined || room >= -HAND_ROUNDED) continue;
      const [wide, deep] = strainer.size;
      const face = tub.panels[panel];
      yield {
        message: `Strainer of ${named(name)} is ${inMm(wide)} by ${inMm(deep)} and reaches ${inMm(-room, 0)} past ${named(face.name)}; it needs to lie on it`,
        at: strainer.at,
        about: [name, face.name],
        related: [
          { at: face.at, message: 'The panel it lies on; its middle lies on the outlet, its first side level' },
        ],
        values: { width_mm: wide, depth_mm: deep, over_mm: -room },
        measure: { has: -room, needs: 0, better: 'less' },
      };
    }
  },
};
