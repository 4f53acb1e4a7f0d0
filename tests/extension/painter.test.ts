import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { cut, Painter } from '../../src/extension/webview/solid/paint/painter.js';
import type { Polygon3, V3 } from '../../src/extension/webview/solid/piece.js';

const polygon = (key: string, points: readonly V3[]): Polygon3 => ({
  key,
  points,
  holes: [],
  tint: 'dry',
  outlined: true,
});

const coordinate = fc.integer({ min: -50, max: 50 });
const place = fc.tuple(coordinate, coordinate, coordinate);
/** Parallelograms anywhere, crossing one another as they like. */
const sheets = fc
  .array(fc.tuple(place, place, place), { minLength: 2, maxLength: 8 })
  .map((all) =>
    all
      .map(([p, a, b], i) => polygon(`s${i}`, [p, plus(p, a), plus(plus(p, a), b), plus(p, b)]))
      .filter(({ points }) => Math.hypot(...normal(points)) > 1),
  );
const eyes = fc
  .tuple(coordinate, coordinate, coordinate)
  .map(([x, y, z]): V3 => [x * 3 + 200, y * 3 - 260, z * 3 + 220]);

describe('drawing without a graphics card', () => {
  test('whatever stands in front is painted later, also where sheets cross', () => {
    fc.assert(
      fc.property(sheets, eyes, fc.array(place, { minLength: 8, maxLength: 8 }), (all, eye, targets) => {
        const order = new Painter(all).fromFarToNear(eye);
        for (const target of targets) {
          const hits = order.flatMap((each, painted) => {
            const distance = hitDistance(each, eye, target);
            return distance === undefined ? [] : [{ painted, distance }];
          });
          for (const a of hits)
            for (const b of hits) if (a.distance < b.distance - 1e-3) expect(a.painted).toBeGreaterThan(b.painted);
        }
      }),
      { seed: 7, numRuns: 150 },
    );
  });

  test('nothing is lost: pieces of a sheet together have its area', () => {
    fc.assert(
      fc.property(sheets, eyes, (all, eye) => {
        const painted = new Painter(all).fromFarToNear(eye);
        for (const { key, points } of all) {
          const area = painted
            .filter((each) => each.key === key)
            .reduce((sum, each) => sum + Math.hypot(...normal(each.points)), 0);
          expect(area).toBeCloseTo(Math.hypot(...normal(points)), 3);
        }
      }),
      { seed: 8, numRuns: 150 },
    );
  });

  test('a plane keeps the half in front of it', () => {
    const square = polygon('s', [
      [0, 0, 0],
      [10, 0, 0],
      [10, 10, 0],
      [0, 10, 0],
    ]);
    const half = cut(square, ([x]) => x - 4);
    expect(Math.hypot(...normal(half.points))).toBeCloseTo(60, 9);
    expect(Math.min(...half.points.map(([x]) => x))).toBeCloseTo(4, 9);
  });
});

const plus = (a: V3, b: V3): V3 => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
const minus = (a: V3, b: V3): V3 => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
const cross = (a: V3, b: V3): V3 => [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
const dot = (a: V3, b: V3): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];

/** Its length is the area of a plane polygon. */
const normal = (points: readonly V3[]): V3 => {
  let sum: V3 = [0, 0, 0];
  for (let i = 1; i + 1 < points.length; i++)
    sum = plus(sum, cross(minus(points[i], points[0]), minus(points[i + 1], points[0])));
  return [sum[0] / 2, sum[1] / 2, sum[2] / 2];
};

/** How far from the eye the ray through the target meets the inside of a convex polygon. */
const hitDistance = ({ points }: Polygon3, eye: V3, target: V3): number | undefined => {
  const n = normal(points);
  const ray = minus(target, eye);
  const length = Math.hypot(...ray);
  const along = dot(n, ray);
  if (Math.abs(along) < 1e-6 * Math.hypot(...n) * length) return undefined;
  const t = dot(n, minus(points[0], eye)) / along;
  if (t <= 0) return undefined;
  const hit: V3 = [eye[0] + ray[0] * t, eye[1] + ray[1] * t, eye[2] + ray[2] * t];
  // Well inside only: on a border both answers are right.
  const isInside = points.every((p, i) => {
    const edge = minus(points[(i + 1) % points.length], p);
    const size = Math.hypot(...edge) * Math.hypot(...n);
    return size === 0 || dot(cross(edge, minus(hit, p)), n) / size > 1e-2;
  });
  return isInside ? t * length : undefined;
};
