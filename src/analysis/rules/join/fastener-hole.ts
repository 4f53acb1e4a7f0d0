import { NOISE } from '../../geometry/tolerance.js';
import { fastenerSitesOf } from '../../join/fasteners/fasteners.js';
import { inMm, named } from '../../model/wording.js';
import type { Rule } from '../rule.js';

/** A hole may be this much over the table's, mm: rivet nuts +0.1/0; a screw's clearance hole has a coarser series. */
const OVER = { rivetnut: 0.1, screw: 1 } as const;

export const fastenerHole: Rule = {
  code: 'join/fastener-hole',
  severity: 'warning',
  *check({ tub, shape }) {
    for (const { opening, face, fastener, size, hole } of fastenerSitesOf(tub, shape())) {
      const isSmall = hole < size.hole - NOISE;
      const most = size.hole + OVER[fastener.kind];
      if (!isSmall && hole <= most + NOISE) continue;
      const { name, at } = tub.openings[opening];
      const what = fastener.kind === 'rivetnut' ? 'rivet nut' : 'screw';
      yield {
        message: `${named(name)} is ${inMm(hole, isSmall ? size.hole : most)} wide; a ${what} M${fastener.thread} needs ${inMm(size.hole, isSmall ? hole : undefined)}, at most ${inMm(most, isSmall ? undefined : hole)}`,
        at,
        about: [name, face.name],
        values: { hole_mm: hole, needed_mm: size.hole, most_mm: most },
        measure: { has: hole, needs: isSmall ? size.hole : most, better: isSmall ? 'more' : 'less' },
      };
    }
  },
};
