import { fastenerSize } from '../../material/fastener-holes.js';
import { seamFastenersOf, type SeamFastener } from '../../join/seam-fasteners.js';
import { fastenerSitesOf } from '../../join/fasteners/fasteners.js';
import { inMm, named } from '../../model/wording.js';
import type { Rule, RuleFinding } from '../rule.js';

export const fastenerGrip: Rule = {
  code: 'join/fastener-grip',
  severity: 'warning',
  *check({ tub, shape, joints }) {
    for (const { opening, face, fastener, size, thickness } of fastenerSitesOf(tub, shape())) {
      if (!size.grip || (thickness >= size.grip[0] && thickness <= size.grip[1])) continue;
      const { name, at } = tub.openings[opening];
      const isThin = thickness < size.grip[0];
      const needs = isThin ? size.grip[0] : size.grip[1];
      yield {
        message: `${named(name)} is in sheet of ${inMm(thickness, needs)}; the shortest M${fastener.thread} rivet nut grips ${inMm(size.grip[0], thickness)} to ${inMm(size.grip[1], thickness)}`,
        at,
        about: [name, face.name],
        related: [{ at, message: FROM_MEMORY }],
        values: { thickness_mm: thickness, grip_least_mm: size.grip[0], grip_most_mm: size.grip[1] },
        measure: { has: thickness, needs, better: isThin ? 'more' : 'less' },
      };
    }
    yield* inRows(seamFastenersOf(tub, joints()));
  },
};

/** One for each row whose nuts the sheet that carries them does not suit: there are longer bodies, but none for much more. */
function* inRows(fasteners: readonly SeamFastener[]): Iterable<RuleFinding> {
  const told = new Set<number>();
  for (const { fastener, place, seam, at, index } of fasteners) {
    if (fastener.kind !== 'screw' || place.nutIn === undefined || told.has(index)) continue;
    const [least, most] = fastenerSize('rivetnut', fastener.size.thread)?.grip ?? [0, Infinity];
    const thickness = place.nutIn === 'panel' ? place.stack[0] : place.stack[1];
    if (thickness >= least && thickness <= most) continue;
    told.add(index);
    const isThin = thickness < least;
    const needs = isThin ? least : most;
    yield {
      message: `Rivet nuts of seam ${named(seam)} are in sheet of ${inMm(thickness, needs)}; the shortest M${fastener.size.thread} rivet nut grips ${inMm(least, thickness)} to ${inMm(most, thickness)}`,
      at,
      about: [seam],
      related: [{ at, message: FROM_MEMORY }],
      values: { thickness_mm: thickness, grip_least_mm: least, grip_most_mm: most },
      measure: { has: thickness, needs, better: isThin ? 'more' : 'less' },
    };
  }
}

const FROM_MEMORY =
  'Usual catalogue range, from memory: the data sheet of the part in hand governs; thick sheet takes a thread of its own or a nut behind it';
