import { fastenerSitesOf, toolBlockedBy } from '../../join/fasteners/fasteners.js';
import { indexFaces } from '../../shape/face-index.js';
import { named } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const fastenerBlocked: Rule = {
  code: 'join/fastener-blocked',
  severity: 'warning',
  *check({ tub, shape }) {
    const sites = fastenerSitesOf(tub, shape()).filter((site) => site.fastener.kind === 'rivetnut');
    if (sites.length === 0) return;
    const { near } = indexFaces(shape().faces);
    for (const site of sites) {
      yield undefined;
      const blocking = toolBlockedBy(shape(), near, site);
      if (blocking.length === 0) continue;
      const { name, at } = tub.openings[site.opening];
      const panels = blocking.map((face) => tub.panels[face].name);
      yield {
        message: `The setting tool has no way to ${named(name)} from either side: ${panels.map(named).join(' and ')} stands nearer than 15 mm to its axis`,
        at,
        about: [name, ...panels],
        related: blocking.map((face) => ({
          at: tub.panels[face].at,
          message: `${named(tub.panels[face].name)} is in the way on the freer side`,
        })),
        values: { panels_in_the_way: blocking.length },
      };
    }
  },
};
