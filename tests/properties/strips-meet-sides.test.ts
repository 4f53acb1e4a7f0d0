import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { flattenContour } from '../../src/analysis/geometry/contour.js';
import { heightOver } from '../../src/analysis/geometry/frame.js';
import { addScaled, dot, subtract, type Vec3 } from '../../src/analysis/geometry/vec.js';
import type { FoldedPart, Roll } from '../../src/analysis/fold/flat-pattern.js';
import type { SeamStyle } from '../../src/analysis/model.js';
import { arbitraryStrip, tubFromStrip, type StripRecipe } from '../support/arbitrary-strip.js';
import { geometryOf } from '../support/geometry-of.js';
import { distanceToBorder, onSkin, rollEnd } from '../support/meeting.js';

/** mm. What a seam may be off by geometry alone. */
const MEETS = 0.01;

const foldedStrip = (
  recipe: StripRecipe,
  style: SeamStyle,
): { strip: FoldedPart; left: FoldedPart; right: FoldedPart } | undefined => {
  const { parts, folded, unfolded } = geometryOf(tubFromStrip(recipe, style));
  if (unfolded.some((u) => u.faults.length > 0)) return undefined;
  const partOf = (face: number): FoldedPart => folded[parts.findIndex((part) => part.faces.includes(face))]!;
  const count = recipe.legs.length;
  return { strip: partOf(0), left: partOf(count), right: partOf(count + 1) };
};

/** The end of a roll at a side, whichever of its two it is, as points on one skin. */
const endAt = (roll: Roll, side: FoldedPart, skin: 'wet' | 'dry'): Vec3[] => {
  const ends = ([0, 1] as const).map((end) => rollEnd(roll, end, skin));
  const off = (points: readonly Vec3[]): number => Math.abs(heightOver(side.plates[0].frame, points[0]));
  return off(ends[0]) < off(ends[1]) ? ends[0] : ends[1];
};

const farthest = (points: readonly Vec3[], side: FoldedPart): number =>
  Math.max(...points.map((point) => distanceToBorder(side, side.plates[0], point)));

describe('a strip folded with true radii', () => {
  it.each([
    ['corner', 'wet'],
    ['over', 'dry'],
  ] as const)('meets upright sides in style %s all along every bend within 0.01 mm', (kind, skin) => {
    let bends = 0;
    fc.assert(
      fc.property(arbitraryStrip(), (recipe) => {
        const parts = foldedStrip(recipe, { kind });
        if (!parts) return;
        for (const roll of parts.strip.rolls) {
          bends++;
          for (const side of [parts.left, parts.right])
            expect(farthest(endAt(roll, side, skin), side)).toBeLessThan(MEETS);
        }
      }),
      { seed: 71, numRuns: 150 },
    );
    expect(bends).toBeGreaterThan(300);
  });

  it("is met by its sides: no point of a side's lower edge is farther from the strip than 0.01 mm", () => {
    fc.assert(
      fc.property(arbitraryStrip(), (recipe) => {
        const parts = foldedStrip(recipe, { kind: 'corner' });
        if (!parts) return;
        const { strip, left } = parts;
        const [plate] = left.plates;
        const rolls = strip.rolls.map((roll) => endAt(roll, left, 'wet'));
        // The arcs of the side, as fine points; each must lie on the end of some roll.
        for (const [i, vertex] of plate.contour.entries()) {
          if (vertex.bulge === 0) continue;
          const next = plate.contour[(i + 1) % plate.contour.length];
          for (const point of flattenContour([vertex, { ...next, bulge: 0 }], 1e-4).slice(0, -1)) {
            const place = onSkin(left, plate, point, 'wet');
            const near = Math.min(
              ...rolls.flatMap((points) => points.slice(1).map((end, k) => distanceToChord(place, points[k], end))),
            );
            expect(near).toBeLessThan(MEETS);
          }
        }
      }),
      { seed: 72, numRuns: 60 },
    );
  });

  it('is closed by a leaning side along the true section of every bend, and meets it within the bow of its straight cut', () => {
    let bends = 0;
    fc.assert(
      fc.property(arbitraryStrip({ lean: 0.5 }), (recipe) => {
        const parts = foldedStrip(recipe, { kind: 'corner' });
        if (!parts) return;
        const { strip, left } = parts;
        const normal = left.plates[0].frame.normal;
        for (const roll of strip.rolls) {
          bends++;
          const cosine = Math.abs(dot(roll.axis.normal, normal));
          const lean = Math.sqrt(1 - cosine * cosine) / cosine;
          const points = endAt(roll, left, 'wet');
          const section = points.map((point) => {
            const height = heightOver(left.plates[0].frame, point) + left.thickness;
            return addScaled(point, roll.axis.normal, -height / dot(roll.axis.normal, normal));
          });
          expect(farthest(section, left)).toBeLessThan(MEETS);
          // The outline crosses a bend zone on a straight line; the true section bows off it by rho lean angle^2 / 8 at most.
          const radius = roll.wet === 'inside' ? roll.innerRadius : roll.outerRadius;
          expect(farthest(points, left)).toBeLessThan((radius * lean * roll.sweep ** 2) / 8 + MEETS);
        }
      }),
      { seed: 73, numRuns: 150 },
    );
    expect(bends).toBeGreaterThan(200);
  });
});

const distanceToChord = (point: Vec3, a: Vec3, b: Vec3): number => {
  const along = subtract(b, a);
  const t = Math.min(1, Math.max(0, dot(subtract(point, a), along) / dot(along, along)));
  return Math.hypot(...subtract(point, addScaled(a, along, t)));
};
