import { fastenerSitesOf } from '../../join/fasteners/fasteners.js';
import { inMm, named } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const fastenerGrip: Rule = {
  code: 'join/fastener-grip',
  severity: 'warning',
  *check({ tub, shape }) {
    for (const { opening, face, fastener, size, thickness } of fastenerSitesOf(tub, shape())) {
      if (!size.grip || (thickness >= size.grip[0] && thickness <= size.grip[1])) continue;
      const { name, at } = tub.openings[opening];
      const isThin = thickness < size.grip[0];
      const needs = isThin ? size.grip[0] : size.grip[1];
      yield {
        message: `${named(name)} is in sheet of ${inMm(thickness, needs)}; the shortest M${fastener.thread} rivet nut grips ${inMm(size.grip[0], thickness)} to ${inMm(size.grip[1], thickness)}`,
        at,
        about: [name, face.name],
        related: [{ at, message: 'Usual catalogue range, from memory: the data sheet of the part in hand governs' }],
        values: { thickness_mm: thickness, grip_least_mm: size.grip[0], grip_most_mm: size.grip[1] },
        measure: { has: thickness, needs, better: isThin ? 'more' : 'less' },
      };
    }
  },
};
