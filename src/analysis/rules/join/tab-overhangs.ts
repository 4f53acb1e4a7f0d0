import { toPlane } from '../../geometry/frame.js';
import { isInside } from '../../geometry/polygon.js';
import { addScaled } from '../../geometry/vec.js';
import { contactOf } from '../../join/tabs/contact.js';
import { pointOnRun } from '../../join/seam/seam-runs.js';
import type { PlacedRow } from '../../join/tabs/tab-rows.js';
import type { Face } from '../../shape/shape.js';
import { inMm, named } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const tabOverhangs: Rule = {
  code: 'join/tab-overhangs',
  severity: 'warning',
  *check({ tub, shape, joints }) {
    for (const { seam, runs } of joints().seams) {
      for (const { row, run } of runs) {
        if (!row || row.centres.length === 0) continue;
        for (const side of [0, 1] as const) {
          const contact = contactOf(tub, row, side);
          if (!contact) continue;
          const face = shape().faces[run.sides[side].face];
          const tip = Math.abs(contact.from) > contact.to ? contact.from : contact.to;
          const over = tipsOver(face, row, side, tip);
          if (over === 0) continue;
          const { name, at, tabs } = tub.seams[seam];
          yield {
            message: `${row.tabs.on === 'loose' ? 'Clips' : row.tabs.isLap ? 'Laps' : 'Tabs'} of seam ${named(name)} reach ${inMm(Math.abs(tip))} onto ${named(face.name)} and out over its other edge; the panel must be deeper there`,
            at: tabs?.at ?? at,
            about: [name, face.name],
            related: [
              {
                at: tub.panels[face.panel].at,
                message: `${named(face.name)} ends before the tip of ${Math.ceil(over / 2)} of them`,
              },
            ],
            values: { reach_mm: Math.abs(tip), deep_mm: row.tabs.deep },
          };
        }
      }
    }
  },
};

/** How many corners of the tabs' tips lie outside the panel. */
const tipsOver = (face: Face, { run, centres, tabs }: PlacedRow, side: 0 | 1, depth: number): number => {
  let over = 0;
  for (const centre of centres) {
    for (const half of [-0.5, 0.5]) {
      const tip = addScaled(pointOnRun(run, centre + half * tabs.wide), run.sides[side].inward, depth);
      if (!isInside(toPlane(face.frame, tip), face.outline)) over++;
    }
  }
  return over;
};
