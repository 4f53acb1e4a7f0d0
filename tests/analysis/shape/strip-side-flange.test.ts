import fc from 'fast-check';
import { HAND_ROUNDED } from '../../../src/analysis/model/tolerance.js';
import { describe, expect, test } from 'vitest';
import { SAME_POINT } from '../../../src/analysis/geometry/tolerance.js';
import { areaVector, firstSelfCrossing } from '../../../src/analysis/geometry/polygon.js';
import { cross, distance, dot, lengthOf, subtract, unit, type Vec3 } from '../../../src/analysis/geometry/vec.js';
import { centroidOf } from '../../../src/analysis/geometry/centroid.js';
import { flangeWidth, senseByGravity } from '../../../src/analysis/shape/corners/flange.js';
import { squareFlange } from '../../support/tubs/square-flange.js';
import { sideFace, stripProfile } from '../../../src/analysis/shape/corners/side.js';
import { legLengthTo, stripFaces, type LegTravel } from '../../../src/analysis/shape/corners/strip.js';

const RIGHT: Vec3 = [1, 0, 0];
const LEFT: Vec3 = [-1, 0, 0];
const BACK: Vec3 = [0, 1, 0];
const FRONT: Vec3 = [0, -1, 0];
const degrees = (angle: number): number => (angle * Math.PI) / 180;
const near = (a: Vec3, b: Vec3): void => expect(distance(a, b)).toBeLessThan(1e-9);

const slope = fc.double({ min: -degrees(170), max: degrees(170), noNaN: true });
const legs = fc.array(fc.record({ length: fc.double({ min: 1, max: 500, noNaN: true }), rise: slope }), {
  minLength: 1,
  maxLength: 8,
});
const directions = fc.constantFrom<readonly [Vec3, Vec3]>(
  [FRONT, RIGHT],
  [FRONT, LEFT],
  [BACK, RIGHT],
  [RIGHT, BACK],
  [LEFT, FRONT],
);

describe('a strip', () => {
  test('falls straight down at 90 deg and faces the way it is heading', () => {
    const [back, floor] = stripFaces({ from: [0, 640, 250], heading: FRONT, across: RIGHT, width: 460 }, [
      { length: 60, rise: -Math.PI / 2 },
      { length: 100, rise: 0 },
    ]);
    near(back.corners[0], [0, 640, 250]);
    near(back.corners[1], [460, 640, 250]);
    near(back.corners[2], [460, 640, 190]);
    near(back.facing, FRONT);
    near(floor.corners[3], [0, 540, 190]);
    near(floor.facing, [0, 0, 1]);
  });

  test('across left or front starts with its right edge at the point, and left is still the smaller x or y', () => {
    const [leg] = stripFaces({ from: [100, 0, 0], heading: FRONT, across: LEFT, width: 40 }, [{ length: 10, rise: 0 }]);
    near(leg.corners[0], [60, 0, 0]);
    near(leg.corners[1], [100, 0, 0]);
    const [along] = stripFaces({ from: [0, 100, 0], heading: RIGHT, across: FRONT, width: 40 }, [
      { length: 10, rise: 0 },
    ]);
    near(along.corners[0], [0, 60, 0]);
    near(along.corners[1], [0, 100, 0]);
  });

  test('has legs of the stated size that hang together, each facing square to itself', () => {
    fc.assert(
      fc.property(
        legs,
        directions,
        fc.double({ min: 1, max: 900, noNaN: true }),
        (travels: LegTravel[], [heading, across], width) => {
          const faces = stripFaces({ from: [3, 5, 7], heading, across, width }, travels);
          faces.forEach(({ corners, facing }, i) => {
            expect(distance(corners[0], corners[1])).toBeCloseTo(width, 7);
            expect(distance(corners[1], corners[2])).toBeCloseTo(travels[i].length, 7);
            expect(lengthOf(facing)).toBeCloseTo(1, 9);
            expect(dot(facing, across)).toBeCloseTo(0, 9);
            expect(dot(facing, unit(subtract(corners[3], corners[0])))).toBeCloseTo(0, 9);
            expect(Math.sign(facing[2])).toBe(Math.sign(Math.cos(travels[i].rise)));
            if (i > 0) expect(distance(corners[0], faces[i - 1].corners[3])).toBeLessThan(1e-9);
          });
        },
      ),
      { seed: 11, numRuns: 100 },
    );
  });

  test('reaches a plane only when it runs there', () => {
    expect(legLengthTo([0, 0, 100], [0, -1, 0], 2, 200)).toBeUndefined();
    expect(legLengthTo([0, 0, 100], [0, 0, -1], 2, 200)).toBeUndefined();
    expect(legLengthTo([0, 0, 100], [0, -Math.SQRT1_2, Math.SQRT1_2], 2, 200)).toBeCloseTo(Math.SQRT2 * 100, 9);
    expect(legLengthTo([0, 50, 100], FRONT, 1, 20)).toBe(30);
  });
});

describe('a side', () => {
  const faces = stripFaces({ from: [0, 300, 100], heading: FRONT, across: RIGHT, width: 200 }, [
    { length: 60, rise: -Math.PI / 2 },
    { length: 300, rise: 0 },
    { length: 30, rise: Math.PI / 2 },
  ]);

  test('follows the profile and closes it at the level, with a corner only where the profile is lower', () => {
    const side = sideFace(faces, RIGHT, 'left', 100);
    if ('tooHigh' in side) throw new Error('the level is high enough');
    expect(side.corners).toHaveLength(5);
    near(side.corners[4], [0, 0, 100]);
    near(side.corners[0], [0, 300, 100]);
    expect(side.top).toBe(4);
    near(side.facing, RIGHT);
  });

  test('names the edge along the top, whichever ends it raises', () => {
    fc.assert(
      fc.property(
        legs,
        fc.constantFrom<'left' | 'right'>('left', 'right'),
        fc.double({ min: 0, max: 50, noNaN: true }),
        (travels, end, extra) => {
          const strip = stripFaces({ from: [0, 0, 0], heading: FRONT, across: RIGHT, width: 100 }, travels);
          const profile = stripProfile(strip, end);
          const level = Math.max(profile[0][2], profile[profile.length - 1][2]) + extra;
          const side = sideFace(strip, RIGHT, end, level);
          if ('tooHigh' in side) throw new Error('the level is high enough');
          const [a, b] = [side.corners[side.top], side.corners[(side.top + 1) % side.corners.length]];
          expect(Math.abs(a[2] - level)).toBeLessThanOrEqual(HAND_ROUNDED);
          expect(Math.abs(b[2] - level)).toBeLessThanOrEqual(HAND_ROUNDED);
          expect(side.corners.every((corner) => Math.abs(corner[0] - profile[0][0]) < 1e-9)).toBe(true);
          expect(side.facing[0]).toBe(end === 'left' ? 1 : -1);
        },
      ),
      { seed: 12, numRuns: 100 },
    );
  });

  test('above a rim over which water leaves, stands on what lies open to above, so that its outline never crosses itself', () => {
    const between = (min: number, max: number): fc.Arbitrary<number> => fc.double({ min, max, noNaN: true });
    const tail = fc.record({
      lip: fc.tuple(between(25, 40), between(0, 40)),
      nose: fc.tuple(between(5, 20), fc.oneof(between(0, 150), fc.constant(90))),
      above: between(1, 60),
    });
    let covered = 0;
    fc.assert(
      fc.property(tail, ({ lip, nose, above }) => {
        const travels = [[80 + above, 90], [200, 2], [60, -85], lip, nose].map(([length, falling]) => ({
          length,
          rise: -degrees(falling),
        }));
        const strip = stripFaces({ from: [0, 400, 100 + above], heading: FRONT, across: RIGHT, width: 100 }, travels);
        const side = sideFace(strip, RIGHT, 'left', 100 + above);
        if ('tooHigh' in side) throw new Error('the level is high enough');
        const outline = side.corners.map(([, y, z]): [number, number] => [y, z]);
        expect(firstSelfCrossing(outline, SAME_POINT)).toBeUndefined();
        // The wall, the lip, and the nose unless it falls straight down or turns back under.
        const isCovered = nose[1] >= 90;
        if (isCovered) covered++;
        if (Math.abs(nose[1] - 90) > 0.1 || isCovered) expect(outline).toHaveLength(isCovered ? 6 : 7);
      }),
      { seed: 14, numRuns: 100 },
    );
    expect(covered).toBeGreaterThan(30);
  });

  // By hand: down 80, along 100, up 80 to the rim, then a lip and a nose that hang over outside.
  test.each([
    ['a nose', [-0.5]],
    ['a level lip', [0]],
    ['a lip with a nose', [0, -Math.PI / 3]],
  ] as const)('ends at the rim before %s', (_, over) => {
    const basin = [
      { length: 80, rise: -Math.PI / 2 },
      { length: 100, rise: 0 },
      { length: 80, rise: Math.PI / 2 },
    ];
    const tail = over.map((rise) => ({ length: 25, rise }));
    const start = { from: [0, 300, 80] as Vec3, heading: FRONT, across: RIGHT, width: 100 };
    const expected = sideFace(stripFaces(start, basin), RIGHT, 'left', 80);
    expect(sideFace(stripFaces(start, [...basin, ...tail]), RIGHT, 'left', 80)).toEqual(expected);
    expect('corners' in expected && expected.corners).toHaveLength(4);
    // The same from the other end.
    const head = [...over].reverse().map((rise) => ({ length: 25, rise: -rise }));
    const before = stripFaces({ ...start, from: [0, 0, 0] }, [...head, ...basin]);
    const drop = 80 - before[head.length].corners[0][2];
    const raised = stripFaces({ ...start, from: [0, 0, drop] }, [...head, ...basin]);
    const side = sideFace(raised, RIGHT, 'left', 80);
    expect('corners' in side && side.corners).toHaveLength(4);
  });

  test('is refused when an end of the profile stands above it', () => {
    expect(sideFace(faces, RIGHT, 'right', 80)).toEqual({ tooHigh: 100 });
  });

  test('of a strip that lies across left looks the other way', () => {
    const strip = stripFaces({ from: [200, 300, 100], heading: FRONT, across: LEFT, width: 200 }, [
      { length: 60, rise: -Math.PI / 2 },
    ]);
    const side = sideFace(strip, LEFT, 'left', 100);
    if ('tooHigh' in side) throw new Error('the level is high enough');
    near(side.facing, RIGHT);
  });
});

describe('a flange', () => {
  const square: readonly Vec3[] = [
    [0, 0, 0],
    [100, 0, 0],
    [100, 80, 0],
    [0, 80, 0],
  ];
  const root = { corners: square, edge: 0, wetNormal: [0, 0, 1] as Vec3 };

  test('turned in at 90 deg stands up on a level panel that is wet above', () => {
    const { corners, facing } = squareFlange(root, { sense: 'in', angle: Math.PI / 2, length: 20, trims: [2, 3] });
    expect(
      corners
        .map((corner) => corner[2])
        .sort((a, b) => a - b)
        .map((z) => Math.round(z)),
    ).toEqual([0, 0, 20, 20]);
    near(facing, BACK);
    expect(distance(corners[0], corners[1])).toBeCloseTo(95, 9);
    expect(Math.min(corners[0][0], corners[1][0])).toBeCloseTo(2, 9);
  });

  test('turned out hangs down, and faces away from the panel', () => {
    const { corners, facing } = squareFlange(root, { sense: 'out', angle: Math.PI / 2, length: 20, trims: [0, 0] });
    expect(Math.min(...corners.map((corner) => corner[2]))).toBeCloseTo(-20, 9);
    near(facing, FRONT);
  });

  test('is the same whichever way round the corners of its panel are stated', () => {
    const turned = { ...root, corners: [...square].reverse(), edge: 2 };
    const turn = { sense: 'in' as const, angle: degrees(70), length: 20, trims: [0, 0] as const };
    squareFlange(turned, turn).corners.forEach((corner, i) => near(corner, squareFlange(root, turn).corners[i]));
  });

  test('keeps its length, its angle from flat and its wet side', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 3 }),
        fc.double({ min: 0.01, max: 3.1, noNaN: true }),
        fc.constantFrom<'in' | 'out'>('in', 'out'),
        (edge, angle, sense) => {
          const { corners, facing } = squareFlange({ ...root, edge }, { sense, angle, length: 20, trims: [1, 1] });
          const away = unit(subtract(corners[3], corners[0]));
          expect(distance(corners[0], corners[3])).toBeCloseTo(20, 9);
          expect(dot(away, facing)).toBeCloseTo(0, 9);
          expect(dot(facing, root.wetNormal)).toBeCloseTo(Math.cos(angle), 9);
          expect(Math.sign(dot(away, root.wetNormal))).toBe(sense === 'in' ? 1 : -1);
          // Left is on the left of one who looks at the wet face, away from the root.
          expect(dot(cross(away, facing), subtract(corners[1], corners[0]))).toBeGreaterThan(0);
          expect(dot(areaVector(corners), facing)).toBeGreaterThan(0);
        },
      ),
      { seed: 13, numRuns: 100 },
    );
  });

  test('up and down are decided by gravity, except on an upright panel', () => {
    expect(senseByGravity([0, 0, 1], 'up')).toBe('in');
    expect(senseByGravity([0, 0, 1], 'down')).toBe('out');
    expect(senseByGravity([0, 0, -1], 'down')).toBe('in');
    expect(senseByGravity([1, 0, 0.08], 'up')).toBeUndefined();
    expect(senseByGravity([0.99, 0, 0.09], 'up')).toBe('in');
  });

  test('is as wide as its edge less both trims', () => {
    expect(flangeWidth(root, [10, 15])).toBe(75);
  });
});

test('the middle of an area is that of its triangles, reflex corners or not', () => {
  near(
    centroidOf([
      [0, 0, 5],
      [4, 0, 5],
      [4, 2, 5],
      [0, 2, 5],
    ]),
    [2, 1, 5],
  );
  // An L of three unit squares: mean of their middles.
  near(
    centroidOf([
      [0, 0, 0],
      [2, 0, 0],
      [2, 1, 0],
      [1, 1, 0],
      [1, 2, 0],
      [0, 2, 0],
    ]),
    [5 / 6, 5 / 6, 0],
  );
});
