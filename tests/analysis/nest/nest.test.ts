import { Clipper, EndType, FillRule, JoinType, type PathsD } from 'clipper2-ts';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { FlatPattern } from '../../../src/analysis/fold/flat-pattern.js';
import { circleContour, flattenContour, reverseContour } from '../../../src/analysis/geometry/contour.js';
import { roomOf } from '../../../src/analysis/making/blanks.js';
import { placePoint, utilisationOf, type Nest, type Placement } from '../../../src/analysis/nest/nest.js';
import { finishNest, nestFlats } from '../../../src/analysis/nest/nest-tub.js';
import { turnsOf } from '../../../src/analysis/making/grain-turns.js';
import { casesOf } from '../../support/cases.js';
import { sheet18 } from '../../support/tub-of.js';
import { ROUNDING } from './exact-distance.js';
import { plate, someFlat, stockOf, tubWith } from './random-flats.js';
import { rowPacking } from './row-packing.js';

/** mm. Arcs as chords, both when laid out and when grown. */
const CHORDS = 0.02;

const tub = tubWith([stockOf([1000, 1600])]);
/** Small blanks, so that the sets fill more than one. */
const small = tubWith([stockOf([500, 700])]);
const room = roomOf(tub, sheet18);

/** The first layout alone. */
const laid = (...[of, flats]: Parameters<typeof nestFlats>): Nest => finishNest(nestFlats(of, flats, { tries: 0 }));

const placedRings = (placement: Placement): PathsD =>
  [placement.flat.outline, ...placement.flat.holes.map(({ contour }) => contour)].map((contour) =>
    flattenContour(contour, CHORDS)
      .map((point) => placePoint(placement, point))
      .map(([x, y]) => ({ x, y })),
  );

const grown = (rings: PathsD, by: number): PathsD =>
  Clipper.inflatePathsD(rings, by, JoinType.Round, EndType.Polygon, 2, 4, CHORDS);

/** Pairs that come nearer than the gap, judged on the true outlines by an independent polygon library. */
const tooNear = (nest: Nest, gap: number): number =>
  nest.sheets.reduce((sum, { placed }) => {
    const rings = placed.map((placement) => grown(placedRings(placement), gap / 2 - 2 * CHORDS));
    let count = 0;
    for (let i = 0; i < rings.length; i++) {
      for (let j = i + 1; j < rings.length; j++) {
        const shared = Clipper.intersectD(rings[i], rings[j], FillRule.NonZero, 4);
        if (Math.abs(Clipper.areaPathsD(shared)) > 1e-3) count++;
      }
    }
    return sum + count;
  }, 0);

const outOfBounds = (nest: Nest, margin: number): number =>
  nest.sheets.flatMap(({ placed, size }) =>
    placed
      .flatMap(placedRings)
      .flat()
      .filter(({ x, y }) => Math.min(x, y, size[0] - x, size[1] - y) < margin - ROUNDING),
  ).length;

const countPlaced = (nest: Nest): number => nest.sheets.reduce((sum, { placed }) => sum + placed.length, 0);
const countAsked = (flats: readonly FlatPattern[]): number => flats.reduce((sum, { quantity }) => sum + quantity, 0);

describe('nest of random pieces', () => {
  test('in random sets no two pieces come nearer than the gap, none leaves the margins, none is lost', () => {
    fc.assert(
      fc.property(fc.array(someFlat, { minLength: 2, maxLength: 5 }), (flats) => {
        const nest = laid(small, flats);
        expect(tooNear(nest, room.gap)).toBe(0);
        expect(outOfBounds(nest, room.margin)).toBe(0);
        expect(countPlaced(nest)).toBe(countAsked(flats));
      }),
      { numRuns: casesOf(6), seed: 20 },
    );
  });

  test('the used length is shorter than rows of bounding boxes need, summed over some sets', () => {
    const sets = fc.sample(fc.array(someFlat, { minLength: 12, maxLength: 16 }), {
      numRuns: casesOf(2, 0.02),
      seed: 7,
    });
    const nested = sets.map((flats) => laid(tub, flats).sheets.reduce((sum, { usedLength }) => sum + usedLength, 0));
    const rows = sets.map((flats) => rowPacking(flats, [1600, 1000], room).length);
    const sum = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0);
    expect(sum(nested)).toBeLessThan(0.8 * sum(rows));
  });
});

describe('nest', () => {
  test('a small piece goes into the hole of a large one rather than beside it', () => {
    const ring = plate('ring', 500, 500, {
      holes: [
        {
          contour: reverseContour(circleContour([250, 250], 220)),
          circle: { center: [250, 250], radius: 220 },
          opening: undefined,
        },
      ],
    });
    const nest = laid(tub, [ring, plate('clip', 120, 80)]);
    expect(nest.sheets[0].usedLength).toBeLessThan(500 + 2 * room.margin + 3);
  });

  test('utilisation is the metal of the pieces over the blank', () => {
    const nest = laid(tub, [plate('a', 400, 500, { quantity: 4 })]);
    expect(nest.sheets).toHaveLength(1);
    expect(utilisationOf(nest.sheets[0])).toBeCloseTo((4 * 400 * 500) / (1000 * 1600), 9);
  });

  test('the same flats give the same nest, and progress counts up to the total', () => {
    const flats = fc.sample(someFlat, { numRuns: 6, seed: 3 });
    const nesting = nestFlats(tub, flats, { tries: 20_000 });
    const seen: number[] = [];
    let step = nesting.next();
    for (; !step.done; step = nesting.next()) {
      const { stage, done, total } = step.value;
      seen.push(stage === 'laying' ? done : 1e6 + done);
      expect(done).toBeLessThanOrEqual(total);
    }
    expect(seen).toEqual([...seen].sort((a, b) => a - b));
    expect(step.value).toEqual(finishNest(nestFlats(tub, flats, { tries: 20_000 })));
  });

  test('a second blank is opened when the first is full, and what has no stock left is told', () => {
    const flats = [plate('a', 900, 700, { quantity: 3 })];
    expect(laid(tubWith([stockOf([1000, 1600])]), flats).sheets).toHaveLength(2);
    const short = laid(tubWith([stockOf([1000, 1600], { count: 1 })]), flats);
    expect(short.sheets).toHaveLength(1);
    expect(short.unplaced).toMatchObject([{ count: 1, reason: 'stock used up' }]);
  });

  test('a piece larger than every blank, and a sheet that is not in stock, are told', () => {
    expect(laid(tub, [plate('a', 1100, 1100)]).unplaced).toMatchObject([
      { count: 1, reason: 'larger than every blank' },
    ]);
    expect(
      laid(tubWith([stockOf([1000, 1600], { thickness: 3 })]), [plate('a', 10, 10, { quantity: 5 })]).unplaced,
    ).toMatchObject([{ count: 5, reason: 'no stock of this sheet' }]);
  });

  test('a sheet longer than the bed is sheared into equal blanks, the bed used either way round', () => {
    const cutters = [
      { name: 'c', at: 0, bed: [1250, 1300] as const, kerf: 1, smallestHole: 3, penOffset: [0, 0] as const },
    ];
    const nest = laid(tubWith([stockOf([1220, 2440])], { cutters }), [plate('a', 200, 300)]);
    expect(nest.sheets[0]).toMatchObject({
      size: [1220, 1220],
      stockSize: [2440, 1220],
      shear: { lengths: [1220, 1220], widths: [1220] },
    });
  });

  test('the smaller of two stock sizes is taken when all fits on it', () => {
    const nest = finishNest(
      nestFlats(tubWith([stockOf([1250, 2500]), stockOf([600, 600])]), [plate('a', 200, 300, { quantity: 2 })], {
        tries: 6_000,
      }),
    );
    expect(nest.sheets.map(({ size }) => size)).toEqual([[600, 600]]);
  });
});

describe('grain', () => {
  const bent = plate('a', 300, 200, {
    bends: [
      {
        bend: 0,
        name: 'b',
        start: [100, 0],
        end: [100, 200],
        tangents: [
          [
            [99, 0],
            [99, 200],
          ],
          [
            [101, 0],
            [101, 200],
          ],
        ],
        allowance: 2,
        angle: 1,
        direction: 'up',
        radius: 1,
        kFactor: 0.4,
        parent: 0,
        child: 1,
      },
    ],
  });

  test('across bends: the bend lines stand square to the long way of the sheet', () => {
    expect(turnsOf(bent, { ...sheet18, grain: 'across bends' })).toEqual([0, Math.PI]);
  });

  test('along bends: they lie along it, and the nest keeps to that', () => {
    const sheet = { ...sheet18, grain: 'along bends' as const };
    expect(turnsOf(bent, sheet).map((turn) => Math.sin(turn + Math.PI / 2))).toEqual([
      expect.closeTo(0),
      expect.closeTo(0),
    ]);
    const nest = laid(tubWith([stockOf([1000, 1600])], {}, [sheet]), [bent]);
    expect(Math.abs(Math.sin(nest.sheets[0].placed[0].turn))).toBeCloseTo(1, 9);
  });

  test('without grain a piece may also lie aslant', () => {
    expect(turnsOf(bent, sheet18).length).toBeGreaterThan(4);
  });
});
