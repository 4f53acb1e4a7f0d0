/** Random parts and shops for the bend planner. */
import fc from 'fast-check';
import type { FoldingBrake, PressBrake, Shop } from '../../../src/analysis/model/tub.js';
import { boxFlat, DEG, stripFlat, type SideSketch } from './bendable-flat.js';
import type { FlatPattern } from '../../../src/analysis/fold/flat-pattern.js';

const bendDeg = fc.constantFrom(-120, -90, -60, -30, 20, 45, 75, 90, 110, 130);

const sheet = fc.record({
  thickness: fc.constantFrom(0.8, 1, 1.2, 1.5),
  radius: fc.constantFrom(0.8, 1.2, 2),
  kFactor: fc.constantFrom(0.3, 0.38, 0.45),
});

export const arbitraryStrip = (minBends: number, maxBends: number): fc.Arbitrary<FlatPattern> =>
  fc
    .record({
      width: fc.integer({ min: 60, max: 500 }),
      first: fc.integer({ min: 12, max: 150 }),
      legs: fc.array(fc.record({ flat: fc.integer({ min: 12, max: 150 }), bend: bendDeg }), {
        minLength: minBends,
        maxLength: maxBends,
      }),
      sheet,
    })
    .map(({ width, first, legs, sheet: of }) =>
      stripFlat(
        width,
        [{ flat: first, bend: legs[0].bend }, ...legs.map(({ flat }, i) => ({ flat, bend: legs[i + 1]?.bend }))],
        of,
      ),
    );

/** Strips that curl up: they soon run into themselves. */
export const arbitraryCurl = (minBends: number, maxBends: number): fc.Arbitrary<FlatPattern> =>
  fc
    .record({
      legs: fc.array(fc.record({ flat: fc.integer({ min: 12, max: 90 }), bend: fc.constantFrom(75, 90, 110, 130) }), {
        minLength: minBends + 1,
        maxLength: maxBends + 1,
      }),
      sheet,
    })
    .map(({ legs, sheet: of }) => stripFlat(100, legs, of));

const side: fc.Arbitrary<SideSketch> = fc
  .record({
    height: fc.integer({ min: 12, max: 140 }),
    bend: fc.constantFrom(60, 80, 90, 90, -90),
    inset: fc.constantFrom(0, 2, 6),
    flange: fc.option(fc.record({ height: fc.integer({ min: 8, max: 40 }), bend: fc.constantFrom(-90, 90, 60) }), {
      nil: undefined,
    }),
  })
  .map(({ flange, ...rest }) => (flange ? { ...rest, flange } : rest));

export const arbitraryBox: fc.Arbitrary<FlatPattern> = fc
  .record({
    width: fc.integer({ min: 60, max: 400 }),
    depth: fc.integer({ min: 60, max: 300 }),
    sides: fc.tuple(
      fc.option(side, { nil: undefined }),
      side,
      fc.option(side, { nil: undefined }),
      fc.option(side, { nil: undefined }),
    ),
    sheet,
  })
  .map(({ width, depth, sides, sheet: of }) => boxFlat(width, depth, sides, of));

export const pressBrake = (change: Partial<PressBrake> = {}): PressBrake => ({
  name: 'press',
  at: 0,
  forceN: 400_000,
  bed: 900,
  dies: [8, 12, 16],
  punchRadius: 0.8,
  nose: 30 * DEG,
  fingers: [15, 20, 25, 30, 40, 50, 75, 100, 150],
  depth: 100,
  opening: 200,
  punchProfile: undefined,
  dieProfile: undefined,
  ...change,
});

export const foldingBrake = (change: Partial<FoldingBrake> = {}): FoldingBrake => ({
  name: 'folder',
  at: 0,
  width: 900,
  capacity: 3,
  depth: 70,
  nose: 45 * DEG,
  angleAtMost: 135 * DEG,
  fingers: [20, 25, 30, 40, 50, 75, 100, 150],
  clampProfile: undefined,
  leafProfile: undefined,
  ...change,
});

export const shopWith = (change: Partial<Shop>): Shop => ({
  name: 'shop',
  at: 0,
  pressBrakes: [],
  foldingBrakes: [],
  cutters: [],
  spotWelders: [],
  clampAtMostN: undefined,
  bendsWithin: undefined,
  marksWithin: undefined,
  stock: [],
  ...change,
});

/** A measured punch with a set-back body, unlike on its two sides. */
export const setBackPunch: readonly (readonly [number, number])[] = [
  [0, 0],
  [2, 4],
  [8, 30],
  [8, 100],
  [-25, 100],
  [-25, 70],
  [-6, 25],
  [-2, 4],
];
