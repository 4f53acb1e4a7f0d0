import { describe, expect, it } from 'vitest';
import type { FlatPattern } from '../../../src/analysis/fold/flat-pattern.js';
import { flattenContour } from '../../../src/analysis/geometry/contour.js';
import type { Vec2, Vec3 } from '../../../src/analysis/geometry/vec.js';
import { sheetOf, toRad } from '../../support/random/arbitrary-part.js';
import { geometryOf } from '../../support/oracles/geometry-of.js';
import { tubOf } from '../../support/tub-of.js';

const [T, R, K] = [1.5, 3, 0.4];
const LONG = 120;
const HIGH = 90;

/** A floor at z = 0 and a wall that rises from it at y = LONG, closed at the left by the plane x = lean . (y - LONG, z). */
const strip = (degrees: number, lean: Vec2): FlatPattern => {
  const angle = toRad(degrees);
  const profile: readonly Vec2[] = [
    [-LONG, 0],
    [0, 0],
    [HIGH * Math.cos(angle), HIGH * Math.sin(angle)],
  ];
  const left = ([y, z]: Vec2): Vec3 => [lean[0] * y + lean[1] * z, LONG + y, z];
  const right = ([y, z]: Vec2): Vec3 => [400, LONG + y, z];
  const [a, b, c] = profile;
  const { flats } = geometryOf(
    tubOf({
      sheets: [sheetOf(T, R, { kFactor: K })],
      panels: {
        floor: [left(a), right(a), right(b), left(b)],
        wall: [left(b), right(b), right(c), left(c)],
        side: [left(a), left(b), left(c), [lean[0] * -LONG + lean[1] * HIGH, 0, HIGH]],
      },
      bends: [['floor', 'wall']],
    }),
  );
  return flats.find((flat) => flat?.bends.length === 1)!;
};

/**
 * The outline across the zone at the end that the side closes, as fine points: how far beyond the floor's tangent line, and
 * how far along the bend from the tangent point into the strip.
 */
const zoneEnd = (flat: FlatPattern): readonly Vec2[] => {
  const [bend] = flat.bends;
  const [parent, child] = bend.tangents;
  const floor = flat.panels[bend.parent].name === 'floor' ? parent : child;
  const wall = floor === parent ? child : parent;
  // Seen from the dry side, x runs against the tub's: the side at x = 0 stands at the right.
  const at = floor[0][0] > floor[1][0] ? 0 : 1;
  const [from, other] = [floor[at], floor[1 - at]];
  const length = Math.hypot(other[0] - from[0], other[1] - from[1]);
  const along: Vec2 = [(other[0] - from[0]) / length, (other[1] - from[1]) / length];
  const away = Math.sign(along[0] * (wall[at][1] - from[1]) - along[1] * (wall[at][0] - from[0]));
  return flattenContour(flat.outline, 1e-6)
    .map(([x, y]): Vec2 => {
      const [dx, dy] = [x - from[0], y - from[1]];
      return [away * (along[0] * dy - along[1] * dx), along[0] * dx + along[1] * dy];
    })
    .filter(([beyond, on]) => beyond > -1e-6 && beyond < bend.allowance + 1e-6 && on < length / 2);
};

describe('the end of a bend zone that a leaning side closes', () => {
  /*
   * Closed form, by hand. The wet cylinder of radius R touches the floor at y = -R tan(angle / 2) from the sharp edge; at a
   * turn t from there its line lies at y + R sin t, z = R (1 - cos t). On the side's plane x changes by
   * p y + q z = R (p sin t + q (1 - cos t)): the developed sinusoid that sheet-metal layout draws for a cylinder cut by a
   * plane (form recalled from descriptive geometry, from memory). In the flat the turn t lies at t (R + K T).
   */
  it.each([
    ['square bend, side leaning out', 90, [0, -0.4]],
    ['square bend, side turned in plan', 90, [0.5, 0]],
    ['square bend, both', 90, [0.3, 0.45]],
    ['60 deg', 60, [-0.2, 0.35]],
    ['130 deg', 130, [0.25, -0.5]],
  ] as const)('is the developed sinusoid within 0.002 mm, in few arcs: %s', (_, degrees, [p, q]) => {
    const flat = strip(degrees, [p, q]);
    const angle = toRad(degrees);
    const allowance = angle * (R + K * T);
    const points = zoneEnd(flat);
    expect(points.length).toBeGreaterThan(50);
    expect(points[0][0] + points[points.length - 1][0]).toBeCloseTo(allowance, 6);
    let mostBow = 0;
    for (const [beyond, on] of points) {
      const t = (beyond / allowance) * angle;
      const sinusoid = (turn: number): number => R * (p * Math.sin(turn) + q * (1 - Math.cos(turn)));
      // Across a slope of 1 in s a point strays sqrt(1 + s^2) times as far along the bend as off the curve.
      const slope = (R * Math.hypot(p, q)) / (R + K * T);
      expect(Math.abs(on - sinusoid(t))).toBeLessThan(0.002 * Math.hypot(1, slope) + 1e-5);
      mostBow = Math.max(mostBow, Math.abs(on - (sinusoid(angle) * t) / angle));
    }
    expect(mostBow).toBeGreaterThan(0.1);
    const arcs = flat.outline.filter(({ bulge }) => bulge !== 0).length;
    expect(arcs).toBeGreaterThan(0);
    expect(arcs).toBeLessThanOrEqual(degrees > 90 ? 5 : 3);
  });

  it('carries the end of the line to mark on its middle', () => {
    const flat = strip(90, [0.3, 0.45]);
    const [{ start, end }] = flat.bends;
    const nearest = [start, end].map((tip) =>
      Math.min(...flattenContour(flat.outline, 1e-9).map(([x, y]) => Math.hypot(x - tip[0], y - tip[1]))),
    );
    expect(Math.min(...nearest)).toBeLessThan(1e-3);
  });

  it('is one straight line where the side stands square, or so nearly that no cutter could tell', () => {
    for (const lean of [
      [0, 0],
      [1e-4, -1e-4],
    ] as const) {
      const { outline } = strip(90, lean);
      expect(outline.map(({ bulge }) => bulge)).toEqual(outline.map(() => 0));
      expect(outline).toHaveLength(8);
    }
  });

  it('stays straight where no panel closes it, however slanted', () => {
    const { flats } = geometryOf(
      tubOf({
        sheets: [sheetOf(T, R)],
        panels: {
          floor: [
            [0, 0, 0],
            [400, 0, 0],
            [400, 100, 0],
            [40, 100, 0],
          ],
          wall: [
            [40, 100, 0],
            [400, 100, 0],
            [400, 100, 80],
            [80, 100, 80],
          ],
        },
        bends: [['floor', 'wall']],
      }),
    );
    expect(flats[0]!.outline.map(({ bulge }) => bulge)).toEqual(flats[0]!.outline.map(() => 0));
  });
});
