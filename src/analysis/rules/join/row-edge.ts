import { NOISE } from '../../geometry/tolerance.js';
import { nameOfFastener } from '../../join/fasteners/fastener-size.js';
import { rowRoomsOf } from '../../join/fasteners/row-room.js';
import { worstOfSeams } from '../../join/seam/worst-of-seams.js';
import { inMm, named } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const rowEdge: Rule = {
  code: 'join/row-edge',
  severity: 'warning',
  *check({ tub, joints }) {
    const near = rowRoomsOf(tub, joints()).filter(({ has, needs, hole }) => has >= hole / 2 && has < needs - NOISE);
    for (const { fastener, has, needs, face } of worstOfSeams(near)) {
      const { seam: name, at } = fastener;
      const sheet = face === undefined ? 'the tab or clip' : named(tub.panels[face].name);
      yield {
        message: `A ${nameOfFastener(fastener.fastener)} of seam ${named(name)} sits ${inMm(has, needs)} from where the flat metal of ${sheet} ends; it needs at least ${inMm(needs, has)}`,
        at,
        about: [name, ...(face === undefined ? [] : [tub.panels[face].name])],
        values: { distance_mm: has, needed_mm: needs },
        measure: { has, needs, better: 'more' },
      };
    }
  },
};
