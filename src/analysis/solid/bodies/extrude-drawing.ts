/** Outlines of a drawing, drawn out to a body. */
import { isInside, signedArea } from '../../geometry/polygon.js';
import { triangulateRings } from '../../geometry/triangles/triangulate-rings.js';
import type { Vec2, Vec3 } from '../../geometry/vec.js';
import type { ThingMesh } from '../../model/around/thing.js';

/**
 * From z 0 to `by`, which may be negative: what lies in an odd number of outlines is full. Outlines must not cross. Cost: O(n^2) in
 * outlines, O(n log n) in corners.
 */
export const extrudeOutlines = (outlines: readonly (readonly Vec2[])[], by: number): ThingMesh => {
  const depths = outlines.map((own, i) => outlines.filter((other, k) => k !== i && isInside(own[0], other)).length);
  const positions: Vec3[] = [];
  const triangles: (readonly [number, number, number])[] = [];
  const [low, high] = [Math.min(0, by), Math.max(0, by)];
  outlines.forEach((outline, i) => {
    if (depths[i] % 2 === 1) return;
    const holes = outlines.filter((hole, k) => depths[k] === depths[i] + 1 && isInside(hole[0], outline));
    const rings = [turned(outline, 1), ...holes.map((hole) => turned(hole, -1))];
    const first = positions.length;
    const count = rings.reduce((sum, ring) => sum + ring.length, 0);
    for (const level of [low, high]) for (const [x, y] of rings.flat()) positions.push([x, y, level]);
    for (const [a, b, c] of triangulateRings(rings)) {
      triangles.push([first + c, first + b, first + a], [first + count + a, first + count + b, first + count + c]);
    }
    let start = first;
    for (const ring of rings) {
      ring.forEach((_, k) => {
        const [a, b] = [start + k, start + ((k + 1) % ring.length)];
        triangles.push([a, b, b + count], [a, b + count, a + count]);
      });
      start += ring.length;
    }
  });
  return { positions, triangles, isClosed: true };
};

/** Counter-clockwise for 1, clockwise for -1. */
const turned = (ring: readonly Vec2[], way: 1 | -1): readonly Vec2[] =>
  Math.sign(signedArea(ring)) === way ? ring : [...ring].reverse();
