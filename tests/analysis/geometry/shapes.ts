/** Random shapes for the tests of the kernels, and areas by the plainest way. */
import fc from 'fast-check';
import type { Vec2, Vec3 } from '../../../src/analysis/geometry/vec.js';

export const real = (min: number, max: number): fc.Arbitrary<number> =>
  fc.double({ min, max, noNaN: true, noDefaultInfinity: true });

export const point3: fc.Arbitrary<Vec3> = fc.tuple(real(-50, 50), real(-50, 50), real(-50, 50));

/** Counter-clockwise about the origin, every corner between the two radii: simple, mostly not convex. */
export const starBetween = (low: number, high: number): fc.Arbitrary<readonly Vec2[]> =>
  fc.array(real(low, high), { minLength: 5, maxLength: 24 }).map((radii) =>
    radii.map((radius, i): Vec2 => {
      const angle = (2 * Math.PI * i) / radii.length;
      return [radius * Math.cos(angle), radius * Math.sin(angle)];
    }),
  );

/** Counter-clockwise, by its corners. */
export const disc = ([x, y]: Vec2, radius: number, corners = 12): readonly Vec2[] =>
  Array.from({ length: corners }, (_, i): Vec2 => {
    const angle = (2 * Math.PI * i) / corners;
    return [x + radius * Math.cos(angle), y + radius * Math.sin(angle)];
  });

/** Shoelace, positive when counter-clockwise. */
export const shoelace = (ring: readonly Vec2[]): number =>
  ring.reduce((sum, [x, y], i) => {
    const [nx, ny] = ring[(i + 1) % ring.length];
    return sum + (x * ny - nx * y) / 2;
  }, 0);

/** Turns of the ring about a point, by the angles under which its sides are seen: 1 inside, 0 outside. */
export const windingAbout = ([px, py]: Vec2, ring: readonly Vec2[]): number =>
  Math.round(
    ring.reduce((sum, [x, y], i) => {
      const [nx, ny] = ring[(i + 1) % ring.length];
      const [ax, ay, bx, by] = [x - px, y - py, nx - px, ny - py];
      return sum + Math.atan2(ax * by - ay * bx, ax * bx + ay * by);
    }, 0) /
      (2 * Math.PI),
  );
