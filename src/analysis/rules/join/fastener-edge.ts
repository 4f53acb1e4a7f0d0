import { fastenerSitesOf, nearestEdge } from '../../join/fasteners/fasteners.js';
import { inMm, named } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const fastenerEdge: Rule = {
  code: 'join/fastener-edge',
  severity: 'warning',
  *check({ tub, shape }) {
    for (const site of fastenerSitesOf(tub, shape())) {
      const room = nearestEdge(shape(), site);
      if (!room) continue;
      const { name, at } = tub.openings[site.opening];
      const bend = room.bend === undefined ? undefined : shape().bends[room.bend];
      yield {
        message: `${named(name)} sits ${inMm(room.has, room.needs)} from ${bend ? `bend ${named(bend.name)}` : `an edge of ${named(site.face.name)}`}; its M${site.fastener.thread} needs at least ${inMm(room.needs, room.has)}`,
        at,
        about: [name, site.face.name],
        values: { distance_mm: room.has, needed_mm: room.needs, hole_mm: site.hole },
        measure: { has: room.has, needs: room.needs, better: 'more' },
      };
    }
  },
};
