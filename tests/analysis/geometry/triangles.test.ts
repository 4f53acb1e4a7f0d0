import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { convexParts } from '../../../src/analysis/geometry/hulls/convex-parts.js';
import { convexPieces, cutAtHeight } from '../../../src/analysis/geometry/hulls/convex.js';
import { triangulateRings } from '../../../src/analysis/geometry/triangles/triangulate-rings.js';
import { triangulate } from '../../../src/analysis/geometry/triangles/triangulate.js';
import type { Vec2 } from '../../../src/analysis/geometry/vec.js';
import { disc, real, shoelace, starBetween } from './shapes.js';

/** A star with up to three holes in it that lie apart. */
const holed = fc.tuple(starBetween(20, 50), fc.integer({ min: 0, max: 3 }), real(1, 5)).map(([ring, count, radius]) => {
  const holes = Array.from({ length: count }, (_, k): readonly Vec2[] =>
    [...disc([9 * Math.cos(k * 2.1), 9 * Math.sin(k * 2.1)], radius, 5 + k)].reverse(),
  );
  return [ring, ...holes];
});

const netArea = (rings: readonly (readonly Vec2[])[]): number =>
  rings.reduce((sum, ring, i) => sum + (i === 0 ? 1 : -1) * Math.abs(shoelace(ring)), 0);

/** Of each ring every side once, with the region to its left. */
const sidesOf = (rings: readonly (readonly Vec2[])[]): string[] => {
  let at = 0;
  return rings.flatMap((ring, r) => {
    const start = at;
    at += ring.length;
    const isRight = r === 0 ? shoelace(ring) > 0 : shoelace(ring) < 0;
    return ring.map((_, i) => {
      const [a, b] = [start + i, start + ((i + 1) % ring.length)];
      return isRight ? `${a} ${b}` : `${b} ${a}`;
    });
  });
};

/** Sides of triangles that no other has the other way round. */
const outerSides = (triangles: readonly (readonly number[])[]): string[] => {
  const all = new Set(triangles.flatMap(([a, b, c]) => [`${a} ${b}`, `${b} ${c}`, `${c} ${a}`]));
  expect(all.size).toBe(3 * triangles.length);
  return [...all].filter((side) => !all.has(side.split(' ').reverse().join(' ')));
};

describe('a region with holes in triangles', () => {
  test('has all of the area, counter-clockwise, and every side of every ring once', () => {
    fc.assert(
      fc.property(holed, (rings) => {
        const points = rings.flat();
        const triangles = triangulateRings(rings);
        const areas = triangles.map((triangle) => shoelace(triangle.map((i) => points[i])));
        expect(areas.every((area) => area > -1e-9)).toBe(true);
        expect(areas.reduce((sum, area) => sum + area, 0)).toBeCloseTo(netArea(rings), 6);
        expect(outerSides(triangles).sort()).toEqual(sidesOf(rings).sort());
      }),
      { seed: 21, numRuns: 40 },
    );
  });

  test('by index: the same area, each inner side met from both hands', () => {
    fc.assert(
      fc.property(holed, (rings) => {
        const points = rings.flat();
        let at = 0;
        const [outline, ...holes] = rings.map((ring) => ring.map(() => at++));
        const triangles = triangulate(points, outline, holes);
        const area = triangles.reduce((sum, triangle) => sum + shoelace(triangle.map((i) => points[i])), 0);
        expect(area).toBeCloseTo(netArea(rings), 6);
        expect(outerSides(triangles).sort()).toEqual(sidesOf(rings).sort());
      }),
      { seed: 22, numRuns: 30 },
    );
    expect(triangulate([[0, 0], [1, 0]], [0, 1], [])).toEqual([]); // prettier-ignore
  });

  test('keeps corners that lie straight on a side', () => {
    const ring: Vec2[] = [[0, 0], [3, 0], [7, 0], [10, 0], [10, 10], [5, 10], [0, 10]]; // prettier-ignore
    const own = triangulate(ring, [0, 1, 2, 3, 4, 5, 6], []);
    expect(outerSides(own).sort()).toEqual(sidesOf([ring]).sort());
    expect(outerSides(triangulateRings([ring])).sort()).toEqual(sidesOf([ring]).sort());
  });

  test('counts the first of holes that run into one another, and only it; ones that touch both', () => {
    const outer: Vec2[] = [[0, 0], [100, 0], [100, 100], [0, 100]]; // prettier-ignore
    const square = (x: number, y = 40): Vec2[] => [[x, y], [x, y + 20], [x + 20, y + 20], [x + 20, y]]; // prettier-ignore
    const areaOf = (...holes: readonly (readonly Vec2[])[]): number => {
      const points = [outer, ...holes].flat();
      return triangulateRings([outer, ...holes]).reduce((sum, t) => sum + shoelace(t.map((i) => points[i])), 0);
    };
    expect(areaOf(square(20), square(70))).toBeCloseTo(10_000 - 800, 6);
    expect(areaOf(square(20), square(30, 45))).toBeCloseTo(10_000 - 400, 6);
    expect(areaOf(square(20), square(30, 45), square(45))).toBeCloseTo(10_000 - 800, 6);
    expect(
      areaOf(
        square(20),
        square(20).map(([x, y]): Vec2 => [x / 2 + 15, y / 2 + 25]),
      ),
    ).toBeCloseTo(9600, 6);
    const across: Vec2[] = [[25, 30], [25, 70], [35, 70], [35, 30]]; // prettier-ignore
    expect(areaOf(square(20), across)).toBeCloseTo(9600, 6);
    expect(areaOf(square(20), square(40.001))).toBeCloseTo(10_000 - 800, 6);
  });
});

describe('convex pieces', () => {
  const isConvex = (ring: readonly Vec2[]): boolean =>
    ring.every((a, i) => shoelace([a, ring[(i + 1) % ring.length], ring[(i + 2) % ring.length]]) > -1e-9);

  test('of a region: convex, with all of its area, not more than four times what its reflex corners ask for', () => {
    fc.assert(
      fc.property(holed, (rings) => {
        const parts = convexParts(rings);
        expect(parts.every(isConvex)).toBe(true);
        expect(parts.reduce((sum, part) => sum + shoelace(part), 0)).toBeCloseTo(netArea(rings), 6);
        const reflex = rings.flatMap((ring, r) =>
          ring.filter((a, i) => {
            const turn = shoelace([ring[(i + ring.length - 1) % ring.length], a, ring[(i + 1) % ring.length]]);
            return (r === 0 ? turn : -Math.sign(shoelace(ring)) * turn) < 0;
          }),
        ).length;
        expect(parts.length).toBeLessThanOrEqual(4 * (reflex + rings.length));
      }),
      { seed: 23, numRuns: 30 },
    );
    expect(convexParts([disc([0, 0], 5, 9)])).toHaveLength(1);
  });

  test('of a simple polygon in either sense', () => {
    fc.assert(
      fc.property(starBetween(5, 50), fc.boolean(), (ring, turned) => {
        const pieces = convexPieces(turned ? [...ring].reverse() : ring);
        const asRings = pieces.map((piece) =>
          Array.from({ length: piece.length / 2 }, (_, i): Vec2 => [piece[2 * i], piece[2 * i + 1]]),
        );
        expect(asRings.every(isConvex)).toBe(true);
        expect(asRings.reduce((sum, piece) => sum + shoelace(piece), 0)).toBeCloseTo(shoelace(ring), 6);
      }),
      { seed: 24, numRuns: 30 },
    );
  });

  test('a cut at a height leaves both halves', () => {
    fc.assert(
      fc.property(starBetween(10, 30), real(-9, 9), (ring, level) => {
        const [above, below] = [cutAtHeight(ring, level, 1), cutAtHeight(ring, level, -1)];
        expect(shoelace(above) + shoelace(below)).toBeCloseTo(shoelace(ring), 6);
        for (const [, y] of above) expect(y).toBeGreaterThan(level - 1e-9);
        for (const [, y] of below) expect(y).toBeLessThan(level + 1e-9);
      }),
      { seed: 25, numRuns: 30 },
    );
    expect(cutAtHeight(disc([0, 0], 5), 6, 1)).toEqual([]);
  });
});
