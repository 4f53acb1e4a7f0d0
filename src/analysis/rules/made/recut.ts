import { reshapedPanels } from '../../built/next.js';
import { HAND_ROUNDED } from '../../model/tolerance.js';
import { inMm, named } from '../../model/wording.js';
import type { Stages } from '../../stages/stages.js';
import { cutParts } from '../../stages/flats-to-cut.js';
import type { Rule } from '../rule.js';

export const recut: Rule = {
  code: 'made/recut',
  severity: 'info',
  *check(stages) {
    const drawn = stages.planned();
    if (!drawn) return;
    const { tub, parts } = stages;
    const cut = cutParts(stages);
    const reshaped = new Set(reshapedPanels(drawn.tub, tub));
    for (const { name, index, faces } of parts()) {
      const own = faces.filter((face) => reshaped.has(face));
      if (cut.has(index) || own.length === 0) continue;
      const most = Math.max(...own.map((face) => farthest(drawn, stages, face)));
      if (most <= HAND_ROUNDED) continue;
      yield {
        message: `${named(name)} is not cut yet and follows what was read: its flat has changed by up to ${inMm(most)}, so a drawing of it made before is out of date; cut from a new one`,
        at: tub.panels[own[0]].at,
        about: [name],
        values: { moved_mm: most },
      };
    }
  },
};

const farthest = (drawn: Stages, made: Stages, face: number): number =>
  Math.max(
    ...drawn.tub.panels[face].corners.map((corner, i) => {
      const to = made.tub.panels[face].corners[i];
      return Math.hypot(corner[0] - to[0], corner[1] - to[1], corner[2] - to[2]);
    }),
  );
