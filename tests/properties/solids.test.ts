/** Folded parts against an independent solid modeller (manifold-3d) and against sums done by hand. */
import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import type { FoldedPart, ZoneEnd } from '../../src/analysis/fold/flat-pattern.js';
import { areaOfContour, reverseLine } from '../../src/analysis/geometry/contour.js';
import type { Vec3 } from '../../src/analysis/geometry/vec.js';
import type { SeamStyle } from '../../src/analysis/model/tub.js';
import { arbitraryPart, sheetOf, toRad, tubFrom } from '../support/random/arbitrary-part.js';
import { arbitraryStrip, tubFromStrip } from '../support/random/arbitrary-strip.js';
import { geometryOf } from '../support/oracles/geometry-of.js';
import { solidKernel } from '../support/oracles/solid-kernel.js';
import { member, seamOf } from '../support/tubs/strip-and-sides.js';
import { tubOf } from '../support/tub-of.js';
import { casesOf } from '../support/cases.js';

let kernel: Awaited<ReturnType<typeof solidKernel>>;
beforeAll(async () => {
  kernel = await solidKernel();
});

/** Between a zone's end and the line at level 0, mm2: the closed contour of both. */
const areaUnder = (end: ZoneEnd): number =>
  areaOfContour([{ x: end[0].x, y: 0, bulge: 0 }, { x: end[end.length - 1].x, y: 0, bulge: 0 }, ...reverseLine(end)]);

/** Plates and rolls added up, arcs exact. */
const volumeOf = ({ plates, rolls, thickness }: FoldedPart): number =>
  plates.reduce(
    (sum, plate) =>
      sum + thickness * plate.holes.reduce((area, hole) => area + areaOfContour(hole), areaOfContour(plate.contour)),
    0,
  ) +
  rolls.reduce((sum, { sweep, innerRadius, outerRadius, near, far }) => {
    const length = areaUnder(far) / far[far.length - 1].x - areaUnder(near) / near[near.length - 1].x;
    return sum + ((outerRadius ** 2 - innerRadius ** 2) / 2) * sweep * length;
  }, 0);

describe('the folded solid', () => {
  it('of strips has the volume and the skin that legs, setbacks and arcs give by hand', () => {
    fc.assert(
      fc.property(arbitraryStrip(), (recipe) => {
        const { parts, folded, unfolded } = geometryOf(tubFromStrip(recipe));
        if (unfolded.some((u) => u.faults.length > 0)) return;
        const part = folded[parts.findIndex((p) => p.faces.includes(0))]!;
        const { thickness: T, radius: R, legs } = recipe;
        const wide = recipe.wide + 2000;
        const turns = legs.slice(1).map(([, rise], i) => toRad(rise - legs[i][1]));
        // A leg that turns up has its wet face inside the bend.
        const straight =
          legs.reduce((sum, [length]) => sum + length, 0) -
          turns.reduce((sum, t) => sum + 2 * (t > 0 ? R : R + T) * Math.tan(Math.abs(t) / 2), 0);
        const turned = turns.reduce((sum, t) => sum + Math.abs(t), 0);
        const section = T * (straight + turned * (R + T / 2));
        const girth = 2 * straight + turned * (2 * R + T) + 2 * T;
        const solids = [
          ...part.plates.map((plate) => kernel.plateSolid(plate, T)),
          ...part.rolls.map(kernel.rollSolid),
        ];
        const volume = solids.reduce((sum, solid) => sum + solid.volume(), 0);
        // Where a plate and a roll join, both have an end face that is no skin of the part.
        const bends = legs.length - 1;
        const joins = 2 * T * wide * (bends + part.rolls.length);
        const skin = solids.reduce((sum, solid) => sum + solid.surfaceArea(), 0) - joins;
        solids.forEach((solid) => solid.delete());
        expect(volumeOf(part) / (section * wide)).toBeCloseTo(1, 9);
        expect(volume / (section * wide)).toBeCloseTo(1, 7);
        expect(skin / (girth * wide + 2 * section)).toBeCloseTo(1, 5);
      }),
      { seed: 31, numRuns: casesOf(8) },
    );
  });

  it('of random parts is as large as its plates and rolls, which take no room from one another where they join', () => {
    let compared = 0;
    fc.assert(
      fc.property(arbitraryPart(3), (recipe) => {
        const { folded, unfolded } = geometryOf(tubFrom(recipe));
        if (unfolded.some((u) => u.faults.length > 0)) return;
        const [part] = folded;
        const solid = kernel.solidOf(part!);
        const summed = volumeOf(part!);
        // Flanges of a random part may run through one another in space; the union is smaller then, never larger.
        expect(solid.volume()).toBeLessThan(summed * (1 + 1e-6));
        if (solid.volume() > summed * (1 - 1e-5)) compared++;
        solid.delete();
      }),
      { seed: 32, numRuns: casesOf(12) },
    );
    expect(compared).toBeGreaterThan(4);
  });

  it('of strips between leaning sides, their zones curved at the ends, is as large as plates and rolls', () => {
    let curved = 0;
    fc.assert(
      fc.property(arbitraryStrip({ lean: 0.5 }), (recipe) => {
        const { parts, folded, unfolded } = geometryOf(tubFromStrip(recipe));
        if (unfolded.some((u) => u.faults.length > 0)) return;
        const part = folded[parts.findIndex((p) => p.faces.includes(0))]!;
        curved += part.rolls.filter(({ near, far }) => near[0].bulge !== 0 || far[0].bulge !== 0).length;
        const solid = kernel.solidOf(part);
        expect(solid.volume() / volumeOf(part)).toBeCloseTo(1, 5);
        solid.delete();
      }),
      { seed: 34, numRuns: casesOf(8) },
    );
    expect(curved).toBeGreaterThan(15);
  });

  it('of a pan by flanges has the volume worked out by hand', () => {
    // 300 x 200 inside, 80 high, T = R = 1.2; walls 80 - R over the floor's tangent; corner notches of (R + T) / 2 = 1.2 square.
    const floor: readonly Vec3[] = [
      [0, 0, 0],
      [300, 0, 0],
      [300, 200, 0],
      [0, 200, 0],
    ];
    const wall = (i: number): readonly Vec3[] => {
      const [a, b] = [floor[i], floor[(i + 1) % 4]];
      return [a, b, [b[0], b[1], 80], [a[0], a[1], 80]];
    };
    const { folded } = geometryOf(
      tubOf({
        panels: { floor, w0: wall(0), w1: wall(1), w2: wall(2), w3: wall(3) },
        bends: [0, 1, 2, 3].map((i) => ['floor', `w${i}`] as const),
      }),
    );
    const [T, R, notch] = [1.2, 1.2, 1.2];
    const plates = T * ((300 - 2 * R) * (200 - 2 * R) - 4 * notch ** 2 + 2 * (300 + 200) * (80 - R));
    // At the floor a roll is a notch shorter at each end than between the tangents; at the wall it has the sharp length.
    const lengths = [300, 200].map((length) => (length + (length - 2 * R - 2 * notch)) / 2);
    const rolls = 2 * (lengths[0] + lengths[1]) * (Math.PI / 4) * ((R + T) ** 2 - R ** 2);
    const solid = kernel.solidOf(folded[0]!);
    expect(volumeOf(folded[0]!)).toBeCloseTo(plates + rolls, 6);
    expect(solid.volume() / (plates + rolls)).toBeCloseTo(1, 5);
    solid.delete();
  });
});

describe('parts that meet', () => {
  const shared = (a: FoldedPart, b: FoldedPart): number => {
    const [p, q] = [kernel.solidOf(a), kernel.solidOf(b)];
    const volume = p.intersect(q).volume();
    p.delete();
    q.delete();
    return volume;
  };

  it.each(['corner', 'over'] as const)('at upright sides in style %s take no room from one another', (kind) => {
    fc.assert(
      fc.property(arbitraryStrip(), (recipe) => {
        const { parts, folded, unfolded } = geometryOf(tubFromStrip(recipe, { kind }));
        if (unfolded.some((u) => u.faults.length > 0)) return;
        const count = recipe.legs.length;
        const [strip, left] = [0, count].map((face) => folded[parts.findIndex((p) => p.faces.includes(face))]!);
        const length = recipe.legs.reduce((sum, [l]) => sum + l, 0);
        // Chords of the kernel's rolls and arcs stand out by microns.
        expect(shared(strip, left)).toBeLessThan(0.005 * length);
      }),
      { seed: 33, numRuns: casesOf(5) },
    );
  });

  it('over a ridge are cut back until their dry edges meet, at any angle and thickness', () => {
    const wide = 120;
    for (const degrees of [20, 60, 90, 120, 150]) {
      for (const [own, other] of [
        [1.2, 1.2],
        [2, 0.8],
        [0.8, 2],
      ]) {
        for (const style of [{ kind: 'corner' }, { kind: 'over' }] as const satisfies readonly SeamStyle[]) {
          const turn = toRad(degrees);
          const sheets = [sheetOf(own, own), sheetOf(other, other)];
          const bare = tubOf({
            sheets,
            panels: {
              shelf: [
                [0, 0, 0],
                [wide, 0, 0],
                [wide, 100, 0],
                [0, 100, 0],
              ],
              drop: [
                [0, 0, 0],
                [wide, 0, 0],
                [wide, -100 * Math.cos(turn), -100 * Math.sin(turn)],
                [0, -100 * Math.cos(turn), -100 * Math.sin(turn)],
              ],
            },
          });
          const tub = { ...bare, panels: bare.panels.map((panel, i) => ({ ...panel, sheet: i })) };
          const { folded } = geometryOf({
            ...tub,
            seams: [seamOf(tub, member(tub, 'shelf', [0]), member(tub, 'drop', [1]), { style })],
          });
          const label = `${degrees} deg, ${own} on ${other}, ${style.kind}`;
          const [a, b] = [folded[0]!, folded[1]!];
          expect(shared(a, b), label).toBeLessThan(1e-6 * wide);
          const [p, q] = [kernel.solidOf(a), kernel.solidOf(b)];
          expect(p.minGap(q, 10), label).toBeLessThan(1e-3);
          p.delete();
          q.delete();
        }
      }
    }
  });
});
