import { isMade } from '../../model/around/roles.js';
import { depthInBox } from '../../shape/depth-in-box.js';
import { SAME_POINT } from '../../geometry/tolerance.js';
import { inMm, named } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const keepoutEntered: Rule = {
  code: 'shape/keepout-entered',
  severity: 'error',
  *check({ tub, shape }) {
    for (const keepout of tub.keepouts) {
      for (const face of shape().faces) {
        if (!isMade(tub, face.panel)) continue;
        const depth = face.usable ? depthInBox(face, keepout.box) : 0;
        if (depth <= SAME_POINT) continue;
        yield {
          message: `${named(face.name)} reaches into keepout ${named(keepout.name)} by ${inMm(depth, 0)}; it must stay out`,
          at: tub.panels[face.panel].at,
          about: [face.name, keepout.name],
          related: [{ at: keepout.at, message: 'The room to keep free' }],
          values: { depth_mm: depth },
          measure: { has: depth, needs: 0, better: 'less' },
        };
      }
    }
  },
};
