import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { arcsAlong } from '../../../src/analysis/geometry/arcs-along.js';
import {
  areaOfContour,
  bulgeOver,
  circleContour,
  extentOfContour,
  flattenContour,
  lengthOfContour,
  mapContour,
  reverseContour,
  reverseLine,
  segmentOf,
  slotContour,
  straightContour,
  type Contour,
} from '../../../src/analysis/geometry/contour.js';
import { distance2, type Vec2 } from '../../../src/analysis/geometry/vec.js';
import { real, shoelace, starBetween } from './shapes.js';

/** A star of which some sides are arcs that bow a little. */
const bowed: fc.Arbitrary<Contour> = starBetween(40, 50).chain((ring) =>
  fc
    .array(fc.oneof(fc.constant(0), real(-0.1, 0.1)), { minLength: ring.length, maxLength: ring.length })
    .map((bulges) => ring.map(([x, y], i) => ({ x, y, bulge: bulges[i] || 0 }))),
);

describe('contours with arcs', () => {
  test('circle and slot by their closed forms', () => {
    const circle = circleContour([3, 4], 5);
    expect(areaOfContour(circle)).toBeCloseTo(Math.PI * 25, 9);
    expect(lengthOfContour(circle)).toBeCloseTo(Math.PI * 10, 9);
    const slot = slotContour([0, 0], [12, 5], 2);
    expect(areaOfContour(slot)).toBeCloseTo(13 * 4 + Math.PI * 4, 9);
    expect(lengthOfContour(slot)).toBeCloseTo(26 + 4 * Math.PI, 9);
    expect(slotContour([1, 2], [1, 2], 3)).toEqual(circleContour([1, 2], 3));
    const { min, max } = extentOfContour(circle);
    [...min, ...max].forEach((value, i) => expect(value).toBeCloseTo([-2, -1, 8, 9][i], 9));
  });

  test('an arc of a bulge: a quarter turn on a chord of 1 has its centre a half beside it', () => {
    const { radius, sweep, center } = segmentOf([0, 0], [1, 0], Math.tan(Math.PI / 8));
    expect(radius).toBeCloseTo(Math.SQRT1_2, 12);
    expect(sweep).toBeCloseTo(Math.PI / 2, 12);
    expect(center![0]).toBeCloseTo(0.5, 12);
    expect(center![1]).toBeCloseTo(0.5, 12);
    expect(segmentOf([0, 0], [1, 0], 0).center).toBeUndefined();
  });

  test('area, length and extent are those of many short sides, which stay as near as asked', () => {
    fc.assert(
      fc.property(bowed, (contour) => {
        const fine = flattenContour(contour, 1e-5);
        const length = fine.reduce((sum, p, i) => sum + distance2(p, fine[(i + 1) % fine.length]), 0);
        expect(Math.abs(areaOfContour(contour) - shoelace(fine))).toBeLessThan(1e-5 * lengthOfContour(contour));
        expect(Math.abs(lengthOfContour(contour) - length)).toBeLessThan(1e-3);
        const { min, max } = extentOfContour(contour);
        for (const axis of [0, 1] as const) {
          const values = fine.map((p) => p[axis]);
          expect(Math.abs(Math.min(...values) - min[axis])).toBeLessThan(2e-5);
          expect(Math.abs(Math.max(...values) - max[axis])).toBeLessThan(2e-5);
        }
      }),
      { seed: 11, numRuns: 20 },
    );
  });

  test('turned, moved, mirrored and run the other way round they keep their area, and its sign where they should', () => {
    fc.assert(
      fc.property(bowed, real(0, 6), (contour, angle) => {
        const area = areaOfContour(contour);
        const turned = mapContour(contour, ([x, y]) => [
          x * Math.cos(angle) - y * Math.sin(angle) + 5,
          x * Math.sin(angle) + y * Math.cos(angle) - 7,
        ]);
        const mirrored = mapContour(contour, ([x, y]) => [-x, y]);
        expect(areaOfContour(turned)).toBeCloseTo(area, 6);
        expect(areaOfContour(mirrored)).toBeCloseTo(area, 6);
        expect(areaOfContour(reverseContour(contour))).toBeCloseTo(-area, 6);
        expect(reverseContour(reverseContour(contour))).toEqual(contour);
        expect(extentOfContour(mirrored).max[0]).toBeCloseTo(-extentOfContour(contour).min[0], 9);
      }),
      { seed: 12, numRuns: 20 },
    );
    const line = [{ x: 0, y: 0, bulge: 0.2 }, { x: 1, y: 0, bulge: 0 }, { x: 2, y: 1, bulge: 0 }]; // prettier-ignore
    expect(reverseLine(line)).toEqual([{ x: 2, y: 1, bulge: 0 }, { x: 1, y: 0, bulge: -0.2 }, { x: 0, y: 0, bulge: 0 }]); // prettier-ignore
    expect(reverseLine(reverseLine(line))).toEqual(line);
  });

  test('straight ones come back as they are', () => {
    const ring: Vec2[] = [[0, 0], [4, 0], [0, 3]]; // prettier-ignore
    expect(flattenContour(straightContour(ring), 0.1)).toEqual(ring);
    expect(lengthOfContour(straightContour(ring))).toBe(12);
  });

  test('the bulge over a third point is that of the arc through it', () => {
    fc.assert(
      fc.property(real(0.1, 6), real(0.05, 0.95), real(1, 50), (sweep, share, radius) => {
        const at = (turn: number): Vec2 => [radius * Math.cos(turn), radius * Math.sin(turn)];
        expect(bulgeOver(at(0), at(sweep * share), at(sweep))).toBeCloseTo(Math.tan(sweep / 4), 6);
      }),
      { seed: 13, numRuns: 40 },
    );
  });
});

describe('a curve as arcs', () => {
  test('a circle is one arc, whatever the tolerance; a line none', () => {
    const line = arcsAlong((share) => [5 * Math.cos(share), 5 * Math.sin(share)], 1e-9, 20);
    expect(line).toHaveLength(2);
    expect(line[0].bulge).toBeCloseTo(Math.tan(1 / 4), 9);
    expect(arcsAlong((share) => [share, 2 * share], 1e-9, 20).map(({ bulge }) => bulge)).toEqual([0, 0]);
  });

  test('a parabola stays within the tolerance, in fewer arcs the looser it is, and in no more than allowed', () => {
    const at = (share: number): Vec2 => [100 * share, 40 * share * share];
    const counts = [1, 0.1, 0.01, 0.001].map((tolerance) => {
      const line = arcsAlong(at, tolerance, 50);
      const pieces = line.slice(1).map((to, i) => segmentOf([line[i].x, line[i].y], [to.x, to.y], line[i].bulge));
      for (let k = 0; k <= 400; k++) {
        const share = k / 400;
        const { center, radius } = pieces[Math.min(pieces.length - 1, Math.floor(share * pieces.length))];
        expect(Math.abs(distance2(at(share), center!) - radius)).toBeLessThan(1.1 * tolerance);
      }
      return line.length;
    });
    expect(counts).toEqual([...counts].sort((a, b) => a - b));
    expect(counts[3]).toBeGreaterThan(counts[0]);
    expect(arcsAlong(at, 1e-9, 3)).toHaveLength(4);
  });
});
