import { inMm, named } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const frameTooLarge: Rule = {
  code: 'join/frame-too-large',
  severity: 'error',
  *check({ tub, joints }) {
    for (const { outlet, outer, room, under, face } of joints().frames) {
      if (room >= 0) continue;
      const { name, strainer, at } = tub.outlets[outlet];
      const panel = tub.panels[face].name;
      yield {
        message: `The strainer frame over ${named(name)} is ${inMm(outer[0])} by ${inMm(outer[1])} outside and reaches ${inMm(-room, 0)} past the flat of ${named(panel)}; it must lie wholly on it`,
        at: strainer?.at ?? at,
        about: [name, panel],
        related: [
          {
            at: tub.panels[face].at,
            message: `Frames are made under size: ${inMm(outer[0])} by ${inMm(outer[1])}, +0 / -${inMm(under)}`,
          },
        ],
        values: { width_mm: outer[0], depth_mm: outer[1], over_mm: -room },
        measure: { has: room, needs: 0, better: 'more' },
      };
    }
  },
};
