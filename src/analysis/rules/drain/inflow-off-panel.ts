import { distanceToSegment, isInside } from '../../geometry/polygon.js';
import { heightOver, toPlane } from '../../geometry/frame.js';
import { OFF_PLANE } from '../../model/tolerance.js';
import { inMm, named } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const inflowOffPanel: Rule = {
  code: 'drain/inflow-off-panel',
  severity: 'warning',
  *check({ tub, shape }) {
    for (const { name, at, panel, point } of tub.inflows) {
      const face = shape().faces[panel];
      if (!point || !face?.usable) continue;
      const on = toPlane(face.frame, point);
      const beyond = isInside(on, face.outline)
        ? 0
        : Math.min(
            ...face.outline.map((corner, i) =>
              distanceToSegment(on, corner, face.outline[(i + 1) % face.outline.length]),
            ),
          );
      const off = Math.hypot(beyond, heightOver(face.frame, point));
      if (off <= OFF_PLANE) continue;
      yield {
        message: `Inflow ${named(name)} lands ${inMm(off, 0)} off ${named(face.name)}; it needs to lie on it, and is taken at the nearest place`,
        at,
        about: [name, face.name],
        related: [{ at: tub.panels[panel].at, message: 'The panel named' }],
        values: { off_mm: off },
        measure: { has: off, needs: 0, better: 'less' },
      };
    }
  },
};
