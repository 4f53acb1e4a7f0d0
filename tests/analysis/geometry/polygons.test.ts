import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { indexBoxes } from '../../../src/analysis/geometry/box-index.js';
import { centroidOf } from '../../../src/analysis/geometry/centroid.js';
import { clipPolygon } from '../../../src/analysis/geometry/clip-polygon.js';
import {
  areaVector,
  distanceToSegment,
  firstSelfCrossing,
  isInside,
  lineMeeting,
  segmentsCross,
  signedArea,
} from '../../../src/analysis/geometry/polygon.js';
import {
  areaOfPiece,
  commonRegion,
  inflateRound,
  insetRing,
  insideOf,
  outsideOf,
  unionOf,
} from '../../../src/analysis/geometry/region.js';
import { dot, type Vec2, type Vec3 } from '../../../src/analysis/geometry/vec.js';
import { disc, real, shoelace, starBetween, windingAbout } from './shapes.js';

const square = (x: number, y: number, size: number): readonly Vec2[] => [
  [x, y],
  [x + size, y],
  [x + size, y + size],
  [x, y + size],
];

describe('polygons', () => {
  test('have the area of the shoelace, in the plane and in space', () => {
    fc.assert(
      fc.property(starBetween(5, 50), fc.tuple(real(-1, 1), real(-1, 1)), (ring, [a, b]) => {
        const area = shoelace(ring);
        expect(signedArea(ring)).toBeCloseTo(area, 6);
        expect(signedArea([...ring].reverse())).toBeCloseTo(-area, 6);
        // On the plane z = a x + b y + 7 the plan keeps its area, and the vector stands square to the plane.
        const [x, y, z] = areaVector(ring.map(([px, py]): Vec3 => [px, py, a * px + b * py + 7]));
        expect(z / 2).toBeCloseTo(area, 6);
        expect(x / z).toBeCloseTo(-a, 6);
        expect(y / z).toBeCloseTo(-b, 6);
      }),
      { seed: 1, numRuns: 30 },
    );
  });

  test('hold the points around which they wind', () => {
    fc.assert(
      fc.property(
        starBetween(5, 50),
        fc.array(fc.tuple(real(-60, 60), real(-60, 60)), { minLength: 20 }),
        (ring, points) => {
          for (const point of points) expect(isInside(point, ring)).toBe(windingAbout(point, ring) !== 0);
        },
      ),
      { seed: 2, numRuns: 20 },
    );
  });

  test('cross themselves where some pair of their sides does, each tried by itself; stars do not', () => {
    /** Shares of both sides at which their lines meet. */
    const meet = ([a, b]: readonly Vec2[], [c, d]: readonly Vec2[]): boolean => {
      const [rx, ry, sx, sy] = [b[0] - a[0], b[1] - a[1], d[0] - c[0], d[1] - c[1]];
      const [t, u] = [sx, rx].map((_, k) =>
        k === 0
          ? ((c[0] - a[0]) * sy - (c[1] - a[1]) * sx) / (rx * sy - ry * sx)
          : ((c[0] - a[0]) * ry - (c[1] - a[1]) * rx) / (rx * sy - ry * sx),
      );
      return t > 0 && t < 1 && u > 0 && u < 1;
    };
    const seen = { crossed: 0, simple: 0 };
    // Apart: corners that lie in one another touch, and cross nothing.
    const corner = fc.tuple(real(0, 1), real(0, 1));
    fc.assert(
      fc.property(fc.array(corner, { minLength: 4, maxLength: 16 }), (shares) => {
        const ring = shares.map(([x, y], i): Vec2 => [100 * x + i / 7, 100 * y + (i * i) / 11]);
        const sides = ring.map((from, i) => [from, ring[(i + 1) % ring.length]]);
        const isCrossed = sides.some((p, i) => sides.some((q, j) => j > i + 1 && meet(p, q)));
        const found = firstSelfCrossing(ring, 0);
        expect(found !== undefined).toBe(isCrossed);
        seen[isCrossed ? 'crossed' : 'simple']++;
        for (const k of found?.edges ?? [])
          expect(distanceToSegment(found!.point, ring[k], sides[k][1])).toBeLessThan(1e-6);
      }),
      { seed: 3, numRuns: 60 },
    );
    expect(Math.min(seen.crossed, seen.simple)).toBeGreaterThan(0);
    fc.assert(
      fc.property(starBetween(5, 50), (ring) => {
        expect(firstSelfCrossing(ring, 1e-9)).toBeUndefined();
      }),
      { seed: 4, numRuns: 20 },
    );
  });

  test('touch where a side comes within the tolerance, and where one runs back over the last', () => {
    const nearly: Vec2[] = [[0, 0], [100, 0], [100, 50], [50, 0.5], [0, 50]]; // prettier-ignore
    expect(firstSelfCrossing(nearly, 0.4)).toBeUndefined();
    expect(firstSelfCrossing(nearly, 0.6)).toMatchObject({ edges: [0, 2] });
    expect(firstSelfCrossing([[0, 0], [100, 0], [40, 0], [40, 60]], 1e-6)).toMatchObject({ edges: [0, 1], point: [40, 0] }); // prettier-ignore
  });

  test('distances to a segment, crossings and meetings by hand', () => {
    expect(distanceToSegment([3, 4], [0, 0], [0, 0])).toBe(5);
    expect(distanceToSegment([5, 4], [0, 0], [10, 0])).toBe(4);
    expect(distanceToSegment([13, 4], [0, 0], [10, 0])).toBe(5);
    expect(distanceToSegment([-3, -4], [0, 0], [10, 0])).toBe(5);
    expect(segmentsCross([0, 0], [2, 2], [0, 2], [2, 0])).toBe(true);
    expect(segmentsCross([0, 0], [2, 2], [2, 2], [4, 0])).toBe(false);
    expect(segmentsCross([0, 0], [2, 0], [1, 0], [3, 0])).toBe(false);
    expect(lineMeeting([0, 0], [1, 1], [0, 4], [1, 3])).toEqual([2, 2]);
    expect(lineMeeting([0, 0], [1, 1], [0, 4], [2, 6])).toBeUndefined();
  });

  test('cut by a plane into two halves with all of the area, both on their side', () => {
    fc.assert(
      fc.property(starBetween(10, 30), real(0, 2 * Math.PI), real(-8, 8), (ring, angle, offset) => {
        const normal: Vec3 = [Math.cos(angle), Math.sin(angle), 0];
        const flat = ring.map(([x, y]): Vec3 => [x, y, 0]);
        const [one, other] = [
          clipPolygon(flat, normal, offset),
          clipPolygon(flat, [-normal[0], -normal[1], 0], -offset),
        ];
        const areaOf = (part: readonly Vec3[]): number => (part.length < 3 ? 0 : areaVector(part)[2] / 2);
        expect(areaOf(one) + areaOf(other)).toBeCloseTo(shoelace(ring), 6);
        for (const point of one) expect(dot(point, normal) + offset).toBeGreaterThan(-1e-9);
        for (const point of other) expect(dot(point, normal) + offset).toBeLessThan(1e-9);
      }),
      { seed: 4, numRuns: 30 },
    );
    const all: Vec3[] = [[0, 0, 1], [1, 0, 1], [0, 1, 1]]; // prettier-ignore
    expect(clipPolygon(all, [0, 0, 1], 0)).toBe(all);
    expect(clipPolygon(all, [0, 0, -1], 0)).toEqual([]);
  });

  test('balance on their centroid: no moment of area about it', () => {
    fc.assert(
      fc.property(starBetween(10, 30), fc.tuple(real(-1, 1), real(-1, 1)), (ring, [a, b]) => {
        const lifted = ring.map(([x, y]): Vec3 => [x, y, a * x + b * y + 3]);
        const [cx, cy, cz] = centroidOf(lifted);
        // Shoelace formulas of the centroid of the plan.
        const area = shoelace(ring);
        const moment = (axis: 0 | 1): number =>
          ring.reduce((sum, p, i) => {
            const q = ring[(i + 1) % ring.length];
            return sum + ((p[axis] + q[axis]) * (p[0] * q[1] - q[0] * p[1])) / (6 * area);
          }, 0);
        expect(cx).toBeCloseTo(moment(0), 6);
        expect(cy).toBeCloseTo(moment(1), 6);
        expect(cz).toBeCloseTo(a * cx + b * cy + 3, 6);
      }),
      { seed: 5, numRuns: 30 },
    );
    expect(centroidOf([[4, 5, 6], [5, 6, 7], [6, 7, 8]])).toEqual([4, 5, 6]); // prettier-ignore
  });
});

describe('boxes by an index', () => {
  // Few are looked at each, many through a tree.
  test.each([40, 400])('of %d: those that meet the asked one, ascending, as every one tried by itself', (count) => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(real(0, 100), real(0, 100), real(0, 9), real(0, 9)), { minLength: count, maxLength: count }),
        fc.tuple(real(0, 90), real(0, 90), real(0, 20), real(0, 20)),
        (list, [x, y, w, h]) => {
          const boxes = Float64Array.from(list.flatMap(([bx, by, bw, bh]) => [bx, by, bx + bw, by + bh]));
          const meets = list.flatMap(([bx, by, bw, bh], i) =>
            bx <= x + w && bx + bw >= x && by <= y + h && by + bh >= y ? [i] : [],
          );
          const search = indexBoxes(boxes);
          expect(search(x, y, x + w, y + h)).toEqual(meets);
          expect(search(x, y, x + w, y + h, (i) => i % 3 === 0)).toEqual(meets.filter((i) => i % 3 === 0));
        },
      ),
      { seed: 6, numRuns: 8 },
    );
  });
});

describe('regions', () => {
  const areaOf = (rings: readonly (readonly Vec2[])[]): number => rings.reduce((sum, ring) => sum + shoelace(ring), 0);

  test('of squares that overlap: both, either, one without the other', () => {
    const [a, b] = [square(0, 0, 10), square(6, 4, 10)];
    const [common] = commonRegion(a, b, []);
    expect(areaOfPiece(common)).toBeCloseTo(4 * 6, 6);
    expect(areaOf(unionOf([a, b]))).toBeCloseTo(200 - 24, 6);
    expect(areaOf(outsideOf(unionOf([a]), [b]))).toBeCloseTo(100 - 24, 6);
    expect(areaOf(insideOf(unionOf([a]), b))).toBeCloseTo(24, 6);
    expect(commonRegion(a, square(20, 20, 5), [])).toEqual([]);
  });

  test('keep a hole inside them, and fall apart where one crosses them', () => {
    const big = square(0, 0, 10);
    const [ring, ...rest] = commonRegion(big, big, [square(4, 4, 2)]);
    expect(rest).toEqual([]);
    expect(ring.holes).toHaveLength(1);
    expect(areaOfPiece(ring)).toBeCloseTo(96, 6);
    const band: Vec2[] = [[-1, 4], [11, 4], [11, 6], [-1, 6]]; // prettier-ignore
    expect(commonRegion(big, big, [band]).map(areaOfPiece).sort()).toEqual([40, 40]);
  });

  test('moved in by a distance, and grown by one with round corners', () => {
    expect(areaOf(insetRing(square(0, 0, 10), 2))).toBeCloseTo(36, 6);
    expect(insetRing(square(0, 0, 10), 6)).toEqual([]);
    expect(areaOf(inflateRound([square(0, 0, 10)], 2, 0.001))).toBeCloseTo(100 + 4 * 20 + Math.PI * 4, 1);
  });

  test('of a star and a disc are as large as points of a grid tell', () => {
    const star = disc([0, 0], 10, 30).map(([x, y], i): Vec2 => (i % 2 === 0 ? [x, y] : [x / 2, y / 2]));
    const round = disc([4, 2], 7, 40);
    const area = commonRegion(star, round, []).reduce((sum, piece) => sum + areaOfPiece(piece), 0);
    let hits = 0;
    for (let i = 0; i < 100; i++)
      for (let j = 0; j < 100; j++) {
        const p: Vec2 = [-10 + (i + 0.5) / 5, -10 + (j + 0.5) / 5];
        if (windingAbout(p, star) !== 0 && windingAbout(p, round) !== 0) hits++;
      }
    expect(Math.abs(area - hits / 25)).toBeLessThan(0.02 * area);
  });
});
