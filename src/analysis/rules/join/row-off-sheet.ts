import { nameOfFastener } from '../../join/fasteners/fastener-size.js';
import { rowRoomsOf } from '../../join/fasteners/row-room.js';
import { worstOfSeams } from '../../join/seam/worst-of-seams.js';
import { atPoint, inMm, named } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const rowOffSheet: Rule = {
  code: 'join/row-off-sheet',
  severity: 'error',
  *check({ tub, joints }) {
    const cut = rowRoomsOf(tub, joints()).flatMap((room) =>
      room.has < room.hole / 2 ? [{ ...room, needs: room.hole / 2 }] : [],
    );
    for (const { fastener, has, needs, face, point } of worstOfSeams(cut)) {
      const { seam: name, at } = fastener;
      const sheet = face === undefined ? 'its tab or clip' : named(tub.panels[face].name);
      yield {
        message: `The ${nameOfFastener(fastener.fastener)} of seam ${named(name)} near ${atPoint(point)} ${has < 0 ? `lies ${inMm(-has, 0)} off` : `lies ${inMm(has, needs)} within the edge of`} the flat metal of ${sheet}; its hole needs ${inMm(needs, has)} of it all round`,
        at,
        about: [name, ...(face === undefined ? [] : [tub.panels[face].name])],
        related: [{ at, message: 'A longer lap or a deeper tab, or a row that ends sooner, keeps it on the sheet' }],
        values: { distance_mm: has, needed_mm: needs },
        measure: { has, needs, better: 'more' },
      };
    }
  },
};
