import { nameOfFastener } from '../../join/fasteners/fastener-size.js';
import { blockedTool } from '../../join/fasteners/tool-reach.js';
import { seamFastenersOf } from '../../join/seam-fasteners.js';
import { indexFaces } from '../../shape/face-index.js';
import { atPoint, inMm, named } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const rowBlocked: Rule = {
  code: 'join/row-blocked',
  severity: 'warning',
  *check({ tub, shape, joints }) {
    const all = seamFastenersOf(tub, joints());
    if (all.length === 0) return;
    const { near } = indexFaces(shape().faces);
    const told = new Set<number>();
    for (const each of all) {
      yield undefined;
      const blocked = told.has(each.index) ? undefined : blockedTool(shape(), near, each);
      if (!blocked) continue;
      told.add(each.index);
      const { side, halfWidth, faces } = blocked;
      const panels = faces.map((face) => tub.panels[face].name);
      const where = side === 'either' ? 'from either side' : `at its ${side}`;
      yield {
        message: `No tool gets at the ${nameOfFastener(each.fastener)} of seam ${named(each.seam)} near ${atPoint(each.place.point)} ${where}: ${panels.map(named).join(' and ')} stand${panels.length === 1 ? 's' : ''} nearer than ${inMm(halfWidth)} to its axis`,
        at: each.at,
        about: [each.seam, ...panels],
        related: faces.map((face) => ({
          at: tub.panels[face].at,
          message: `${named(tub.panels[face].name)} is in the way`,
        })),
        values: { panels_in_the_way: faces.length, half_width_mm: halfWidth },
      };
    }
  },
};
