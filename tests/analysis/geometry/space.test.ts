import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { areOnLine, bestPlane, wayOnto } from '../../../src/analysis/geometry/fitting/best-plane.js';
import { frameOn, heightOver, toPlane, toSpace } from '../../../src/analysis/geometry/frame.js';
import { gapBetweenAll, segmentGap } from '../../../src/analysis/geometry/gap-between.js';
import { cellsOf, groupByDirection } from '../../../src/analysis/geometry/group-by-direction.js';
import { gapAlongEdges, gapBetween, hullOf, mirrored } from '../../../src/analysis/geometry/hulls/convex.js';
import { hullDistance, hullGap } from '../../../src/analysis/geometry/hulls/hull-distance.js';
import { levelAxes } from '../../../src/analysis/geometry/level-axes.js';
import { SAME_POINT, SAME_WAY } from '../../../src/analysis/geometry/tolerance.js';
import {
  add,
  addScaled,
  angleBetween,
  cross,
  distance,
  dot,
  lengthOf,
  lerp,
  scale,
  subtract,
  unit,
  type Vec2,
  type Vec3,
} from '../../../src/analysis/geometry/vec.js';
import { weldVertices } from '../../../src/analysis/geometry/weld-vertices.js';
import { point3, real, shoelace } from './shapes.js';

const direction = point3.filter((p) => lengthOf(p) > 1).map(unit);

const boxAt = ([x, y, z]: Vec3, [a, b, c]: Vec3): Vec3[] =>
  [0, 1, 2, 3, 4, 5, 6, 7].map((k): Vec3 => [x + (k & 1) * a, y + ((k >> 1) & 1) * b, z + ((k >> 2) & 1) * c]);

describe('frames', () => {
  test('take a point onto their plane and back, with its height over it', () => {
    fc.assert(
      fc.property(point3, direction, direction, point3, (origin, normal, along, point) => {
        fc.pre(lengthOf(cross(normal, along)) > 0.1);
        const frame = frameOn(origin, normal, along);
        expect(dot(frame.u, frame.v)).toBeCloseTo(0, 9);
        expect(distance(cross(frame.u, frame.v), frame.normal)).toBeLessThan(1e-9);
        const back = addScaled(toSpace(frame, toPlane(frame, point)), normal, heightOver(frame, point));
        expect(distance(back, point)).toBeLessThan(1e-9);
      }),
      { seed: 41, numRuns: 30 },
    );
  });

  test('draw level and upright on any face, and along x and y on a level one', () => {
    fc.assert(
      fc.property(direction, (normal) => {
        fc.pre(Math.hypot(normal[0], normal[1]) > 0.01);
        const { level, upright } = levelAxes(normal);
        expect(Math.abs(level[2])).toBe(0);
        expect(upright[2]).toBeGreaterThan(0);
        for (const [a, b] of [[level, upright], [level, normal], [upright, normal]]) expect(dot(a, b)).toBeCloseTo(0, 9); // prettier-ignore
      }),
      { seed: 42, numRuns: 30 },
    );
    expect(levelAxes([0, 0, 1])).toEqual({ level: [1, 0, 0], upright: [0, 1, 0] });
  });

  test('angles between directions are accurate near 0 and pi', () => {
    for (const angle of [1e-9, 0.3, Math.PI / 2, Math.PI - 1e-9])
      expect(angleBetween([1, 0, 0], [Math.cos(angle), Math.sin(angle), 0])).toBeCloseTo(angle, 12);
  });
});

describe('the best plane', () => {
  test('goes through points that lie on one, and no plane turned or moved a little is nearer to scattered ones', () => {
    fc.assert(
      fc.property(
        direction,
        real(-20, 20),
        fc.array(point3, { minLength: 6, maxLength: 20 }),
        real(0, 2),
        (normal, offset, points, noise) => {
          const on = points.map((p) => addScaled(p, normal, offset - dot(p, normal)));
          fc.pre(!areOnLine(on));
          const found = bestPlane(on);
          for (const p of on) expect(Math.abs(dot(found.normal, p) - found.offset)).toBeLessThan(1e-6);
          const off = on.map((p, i) => addScaled(p, normal, noise * Math.sin(7 * i)));
          const best = bestPlane(off);
          const squares = (n: Vec3, o: number): number => off.reduce((sum, p) => sum + (dot(n, p) - o) ** 2, 0);
          const least = squares(best.normal, best.offset);
          for (const turn of [
            [1, 0, 0],
            [0, 1, 0],
            [0, 0, 1],
          ] as Vec3[])
            // prettier-ignore
            for (const by of [-0.01, 0.01]) {
            const n = unit(addScaled(best.normal, turn, by));
            const o = off.reduce((sum, p) => sum + dot(n, p), 0) / off.length;
            expect(squares(n, o)).toBeGreaterThanOrEqual(least - 1e-9);
            expect(squares(best.normal, best.offset + by)).toBeGreaterThan(least);
          }
        },
      ),
      { seed: 43, numRuns: 20 },
    );
    expect(areOnLine([[0, 0, 0], [1, 2, 3], [3, 6, 9]])).toBe(true); // prettier-ignore
    expect(areOnLine([[0, 0, 0], [1, 2, 3], [3, 6, 9.1]])).toBe(false); // prettier-ignore
  });

  test('the way onto up to three planes leads onto all of them, and no shorter one does', () => {
    fc.assert(
      fc.property(
        point3,
        fc.array(fc.record({ normal: direction, offset: real(-20, 20) }), { minLength: 1, maxLength: 2 }),
        (point, planes) => {
          fc.pre(planes.length < 2 || lengthOf(cross(planes[0].normal, planes[1].normal)) > 0.2);
          const way = wayOnto(point, planes);
          for (const { normal, offset } of planes) expect(dot(normal, add(point, way))).toBeCloseTo(offset, 6);
          // The shortest way has nothing along what the planes share.
          if (planes.length === 2) expect(dot(way, cross(planes[0].normal, planes[1].normal))).toBeCloseTo(0, 6);
          else expect(lengthOf(cross(way, planes[0].normal))).toBeCloseTo(0, 6);
        },
      ),
      { seed: 44, numRuns: 30 },
    );
    expect(wayOnto([1, 1, 1], [0, 1, 2].map((i) => ({ normal: [0, 1, 2].map((k) => Number(k === i)) as unknown as Vec3, offset: 5 })))).toEqual([4, 4, 4]); // prettier-ignore
  });
});

describe('distances', () => {
  test('between two segments are the least of many points on both, and never more', () => {
    fc.assert(
      fc.property(point3, point3, point3, point3, (a, b, c, d) => {
        const gap = segmentGap(a, b, c, d);
        let sampled = Infinity;
        for (let i = 0; i <= 20; i++)
          for (let k = 0; k <= 20; k++) sampled = Math.min(sampled, distance(lerp(a, b, i / 20), lerp(c, d, k / 20)));
        expect(gap).toBeLessThanOrEqual(sampled + 1e-9);
        expect(sampled - gap).toBeLessThan((distance(a, b) + distance(c, d)) / 40 + 1e-9);
      }),
      { seed: 45, numRuns: 12 },
    );
    expect(segmentGap([0, 0, 0], [10, 0, 0], [3, 0, 4], [8, 0, 4])).toBeCloseTo(4, 12);
  });

  test('between outlines: by an index as by every pair', () => {
    const ring = (at: Vec3, radius: number, count: number): { corners: Vec3[] } => ({
      corners: Array.from({ length: count }, (_, i): Vec3 => [
        at[0] + radius * Math.cos((2 * Math.PI * i) / count),
        at[1] + radius * Math.sin((2 * Math.PI * i) / count),
        at[2] + Math.sin(i),
      ]),
    });
    fc.assert(
      fc.property(point3, point3, (p, q) => {
        const [one, other] = [ring(p, 9, 50), ring(q, 14, 60)];
        const sides = ({ corners }: { corners: Vec3[] }): [Vec3, Vec3][] =>
          corners.map((from, i) => [from, corners[(i + 1) % corners.length]]);
        const least = Math.min(...sides(one).flatMap(([a, b]) => sides(other).map(([c, d]) => segmentGap(a, b, c, d))));
        expect(gapBetweenAll([one], [other])).toBeCloseTo(least, 9);
      }),
      { seed: 46, numRuns: 10 },
    );
  });

  test('between the hulls of two boxes are those of the boxes, with the places where they come nearest', () => {
    const size = fc.tuple(real(1, 20), real(1, 20), real(1, 20));
    fc.assert(
      fc.property(point3, size, point3, size, (p, s, q, t) => {
        const apart = [0, 1, 2].map((i) => Math.max(0, q[i] - p[i] - s[i], p[i] - q[i] - t[i]));
        const { distance: found, points } = hullGap(boxAt(p, s), boxAt(q, t));
        expect(found).toBeCloseTo(Math.hypot(...apart), 4);
        expect(hullDistance(boxAt(q, t), boxAt(p, s))).toBeCloseTo(found, 4);
        if (found > 0.01) expect(distance(...points)).toBeCloseTo(found, 4);
        points.forEach((point, k) => {
          const [low, by] = k === 0 ? [p, s] : [q, t];
          for (const i of [0, 1, 2]) {
            expect(point[i]).toBeGreaterThan(low[i] - 1e-6);
            expect(point[i]).toBeLessThan(low[i] + by[i] + 1e-6);
          }
        });
      }),
      { seed: 47, numRuns: 60 },
    );
  });
});

describe('hulls in the plane', () => {
  const ringOf = (flat: Float64Array): Vec2[] =>
    Array.from({ length: flat.length / 2 }, (_, i): Vec2 => [flat[2 * i], flat[2 * i + 1]]);

  test('hold every point, turn left at every corner, and have only points for corners', () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.integer({ min: -9, max: 9 }), fc.integer({ min: -9, max: 9 })), {
          minLength: 3,
          maxLength: 30,
        }),
        (points) => {
          const hull = ringOf(hullOf(points.flat()));
          fc.pre(hull.length >= 3);
          hull.forEach((a, i) => {
            const b = hull[(i + 1) % hull.length];
            expect(points.some(([x, y]) => x === a[0] && y === a[1])).toBe(true);
            expect(shoelace([a, b, hull[(i + 2) % hull.length]])).toBeGreaterThan(0);
            for (const p of points) expect(shoelace([a, b, p])).toBeGreaterThanOrEqual(0);
          });
        },
      ),
      { seed: 48, numRuns: 40 },
    );
  });

  test('of two squares: how far apart along their sides, and the least shift that parts them', () => {
    const square = (x: number, y: number, size: number): Float64Array =>
      hullOf([x, y, x + size, y, x + size, y + size, x, y + size]);
    expect(gapBetween(square(0, 0, 10), square(13, 2, 5))).toBeCloseTo(3, 12);
    expect(gapBetween(square(0, 0, 10), square(7, 2, 5))).toBeCloseTo(-3, 12);
    expect(gapBetween(square(0, 0, 10), square(2, 9, 5))).toBeCloseTo(-1, 12);
    expect(gapAlongEdges(square(0, 0, 10), Float64Array.from([12, 30]))).toBeCloseTo(20, 12);
    expect(ringOf(mirrored(square(1, 0, 2)))).toEqual(expect.arrayContaining([[-1, 0], [-3, 0], [-3, 2], [-1, 2]])); // prettier-ignore
    expect(shoelace(ringOf(mirrored(square(1, 0, 2))))).toBeCloseTo(4, 12);
  });
});

describe('points and directions that are as good as one', () => {
  test('points are welded within the tolerance, to the first of them', () => {
    fc.assert(
      fc.property(fc.array(fc.tuple(point3, direction, real(0, 0.9)), { minLength: 1, maxLength: 30 }), (list) => {
        const welded = weldVertices();
        for (const [point, away, share] of list) {
          const first = welded.indexOf(point);
          expect(welded.indexOf(addScaled(point, away, share * SAME_POINT))).toBe(first);
          expect(distance(welded.points[first], point)).toBeLessThanOrEqual(SAME_POINT);
        }
      }),
      { seed: 49, numRuns: 20 },
    );
    const welded = weldVertices();
    expect([welded.indexOf([0, 0, 0]), welded.indexOf([2 * SAME_POINT, 0, 0])]).toEqual([0, 1]);
    expect(welded.add([0, 0, 0])).toBe(2);
  });

  test('lines that run within a hair of each other, either way round, are asked of together', () => {
    fc.assert(
      fc.property(fc.array(fc.tuple(direction, direction, fc.boolean()), { minLength: 1, maxLength: 20 }), (pairs) => {
        const ways = pairs.flatMap(([way, aside, turned]) => {
          const near = unit(addScaled(way, subtract(aside, scale(way, dot(aside, way))), 0.4 * SAME_WAY));
          return [way, turned ? scale(near, -1) : near];
        });
        const groups = groupByDirection(ways.map(cellsOf));
        expect(groups.flatMap(({ asking }) => asking).sort((a, b) => a - b)).toEqual(ways.map((_, i) => i));
        for (let i = 0; i < ways.length; i += 2) {
          const group = groups.find(({ asking }) => asking.includes(i))!;
          expect(group.present).toContain(i + 1);
        }
      }),
      { seed: 50, numRuns: 30 },
    );
    expect(cellsOf([0, 0, 0])).toEqual({ own: undefined, all: [] });
  });
});
