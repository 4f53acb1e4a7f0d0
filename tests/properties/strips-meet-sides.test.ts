import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { flattenContour } from '../../src/analysis/geometry/contour.js';
import { heightOver } from '../../src/analysis/geometry/frame.js';
import { addScaled, dot, subtract, type Vec3 } from '../../src/analysis/geometry/vec.js';
import type { FoldedPart, Roll, ZoneEnd } from '../../src/analysis/fold/flat-pattern.js';
import type { SeamStyle } from '../../src/analysis/model/tub.js';
import { arbitraryStrip, tubFromStrip, type StripRecipe } from '../support/random/arbitrary-strip.js';
import { geometryOf } from '../support/oracles/geometry-of.js';
import { distanceToBorder, levelOn, onSkin, rollEnd, type Skin } from '../support/oracles/meeting.js';
import { casesOf } from '../support/cases.js';

/** mm. What a seam may be off by geometry alone. */
const MEETS = 0.01;

const foldedStrip = (
  recipe: StripRecipe,
  style: SeamStyle,
  sides: 'above' | 'below' = 'above',
): { strip: FoldedPart; left: FoldedPart; right: FoldedPart } | undefined => {
  const { parts, folded, unfolded } = geometryOf(tubFromStrip(recipe, style, sides));
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

const farthest = (points: readonly Vec3[], side: FoldedPart, skin: Skin = 'wet'): number =>
  Math.max(...points.map((point) => distanceToBorder(side, side.plates[0], point, skin)));

/** mm. How far the end bows off the straight line between its tangent points in the flat. */
const bowOf = (end: ZoneEnd): number => {
  const [first, last] = [end[0], end[end.length - 1]];
  return Math.max(
    ...Array.from({ length: 9 }, (_, i) => Math.abs(levelOn(end, i / 8) - (first.y + ((last.y - first.y) * i) / 8))),
  );
};

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
          for (const end of [roll.near, roll.far]) expect(end.map(({ bulge }) => bulge)).toEqual([0, 0]);
        }
      }),
      { seed: 71, numRuns: casesOf(40) },
    );
    expect(bends).toBeGreaterThan(80);
  });

  it("is met by its sides: no point of a side's lower edge is farther from the strip than 0.01 mm", () => {
    fc.assert(
      fc.property(arbitraryStrip(), (recipe) => {
        const parts = foldedStrip(recipe, { kind: 'corner' });
        if (!parts) return;
        const { strip, left } = parts;
        const rolls = strip.rolls.map((roll) => endAt(roll, left, 'wet'));
        // Each point of the side's arcs must lie on the end of some roll.
        for (const place of roundEdge(left)) {
          const near = Math.min(
            ...rolls.flatMap((points) => points.slice(1).map((end, k) => distanceToChord(place, points[k], end))),
          );
          expect(near).toBeLessThan(MEETS);
        }
      }),
      { seed: 72, numRuns: casesOf(15) },
    );
  });

  it('meets leaning sides, at slanted ends too, all along every bend within 0.01 mm, and they meet it', () => {
    let bends = 0;
    let mostBow = 0;
    fc.assert(
      fc.property(arbitraryStrip({ lean: 0.5 }), (recipe) => {
        const parts = foldedStrip(recipe, { kind: 'corner' });
        if (!parts) return;
        const { strip, left, right } = parts;
        for (const roll of strip.rolls) {
          bends++;
          mostBow = Math.max(mostBow, bowOf(roll.near), bowOf(roll.far));
          for (const side of [left, right]) expect(farthest(endAt(roll, side, 'wet'), side)).toBeLessThan(MEETS);
        }
        const rolls = strip.rolls.map((roll) => endAt(roll, left, 'wet'));
        for (const place of roundEdge(left)) {
          const near = Math.min(
            ...rolls.flatMap((points) => points.slice(1).map((end, k) => distanceToChord(place, points[k], end))),
          );
          expect(near).toBeLessThan(MEETS);
        }
      }),
      { seed: 73, numRuns: casesOf(40) },
    );
    expect(bends).toBeGreaterThan(120);
    // The sides do lean: cut straight, some of these ends would miss by half a millimetre and more.
    expect(mostBow).toBeGreaterThan(0.5);
  });

  it('meets leaning sides that cover its edges: of its two edges the nearer lies on their wet face all along every bend', () => {
    const counts = { wet: 0, dry: 0 };
    fc.assert(
      fc.property(arbitraryStrip({ lean: 0.5 }), (recipe) => {
        const parts = foldedStrip(recipe, { kind: 'over' });
        if (!parts) return;
        for (const roll of parts.strip.rolls) {
          for (const side of [parts.left, parts.right]) {
            const [wet, dry] = (['wet', 'dry'] as const).map((skin) =>
              endAt(roll, side, skin).map((p) => heightOver(side.plates[0].frame, p) + side.thickness),
            );
            // Between a leg that meets the side at more and one at less than a right angle the end runs from edge to edge.
            const isDry = [0, wet.length - 1].map((i) => dry[i] > wet[i] + 1e-6);
            if (isDry[0] !== isDry[1]) continue;
            counts[isDry[0] ? 'dry' : 'wet']++;
            expect(Math.max(...(isDry[0] ? dry : wet).map(Math.abs))).toBeLessThan(MEETS);
          }
        }
      }),
      { seed: 74, numRuns: casesOf(30) },
    );
    expect(Math.min(counts.wet, counts.dry)).toBeGreaterThan(12);
  });

  it('meets leaning sides of its thickness over a ridge, dry edge on dry edge, all along every bend within 0.01 mm', () => {
    let bends = 0;
    fc.assert(
      fc.property(arbitraryStrip({ lean: 0.5 }), (recipe) => {
        const parts = foldedStrip({ ...recipe, sideThickness: recipe.thickness }, { kind: 'corner' }, 'below');
        if (!parts) return;
        for (const roll of parts.strip.rolls) {
          bends++;
          for (const side of [parts.left, parts.right])
            expect(farthest(endAt(roll, side, 'dry'), side, 'dry')).toBeLessThan(MEETS);
        }
      }),
      { seed: 75, numRuns: casesOf(30) },
    );
    expect(bends).toBeGreaterThan(80);
  });
});

/** The arcs of a side's border as fine points on its wet face. */
const roundEdge = (side: FoldedPart): Vec3[] => {
  const [plate] = side.plates;
  return plate.contour.flatMap((vertex, i) => {
    if (vertex.bulge === 0) return [];
    const next = plate.contour[(i + 1) % plate.contour.length];
    const points = flattenContour([vertex, { ...next, bulge: 0 }], 1e-4).slice(0, -1);
    return points.map((point) => onSkin(side, plate, point, 'wet'));
  });
};

const distanceToChord = (point: Vec3, a: Vec3, b: Vec3): number => {
  const along = subtract(b, a);
  const t = Math.min(1, Math.max(0, dot(subtract(point, a), along) / dot(along, along)));
  return Math.hypot(...subtract(point, addScaled(a, along, t)));
};
