import { NO_CROSS } from './tolerance.js';
import { orient2d } from 'robust-predicates';
import { boxesOfSides, indexBoxes } from './box-index.js';
import { add, scale, type Vec2, type Vec3 } from './vec.js';

/** Twice the area vector of a closed line in space (Newell): its direction is the normal by the right-hand rule. */
export const areaVector = (corners: readonly Vec3[]): Vec3 => {
  // In plain numbers: every panel goes through here several times after each edit.
  let [sx, sy, sz] = [0, 0, 0];
  const origin = corners[0];
  for (let i = 1; i + 1 < corners.length; i++) {
    const [p, q] = [corners[i], corners[i + 1]];
    const [ax, ay, az] = [p[0] - origin[0], p[1] - origin[1], p[2] - origin[2]];
    const [bx, by, bz] = [q[0] - origin[0], q[1] - origin[1], q[2] - origin[2]];
    sx += ay * bz - az * by;
    sy += az * bx - ax * bz;
    sz += ax * by - ay * bx;
  }
  return [sx, sy, sz];
};

/** Mean of the corners. */
export const middleOf = (corners: readonly Vec3[]): Vec3 =>
  scale(corners.reduce<Vec3>(add, [0, 0, 0]), 1 / Math.max(1, corners.length));

/** Area of a plane polygon, positive when counter-clockwise, mm2. */
export const signedArea = (corners: readonly Vec2[]): number => {
  let twice = 0;
  for (let i = 0, j = corners.length - 1; i < corners.length; j = i++) {
    twice += (corners[j][0] - corners[i][0]) * (corners[j][1] + corners[i][1]);
  }
  return twice / 2;
};

/** Is `c` to the left of the line from `a` to `b` (y up)? Exact sign: 1 left, -1 right, 0 on it. */
export const sideOf = (a: Vec2, b: Vec2, c: Vec2): number =>
  // robust-predicates has y down, so its sign is the other way round.
  -Math.sign(orient2d(a[0], a[1], b[0], b[1], c[0], c[1]));

/** Does the point lie inside the polygon (even-odd)? Points on the border may come out either way. */
export const isInside = (point: Vec2, corners: readonly Vec2[]): boolean => {
  let inside = false;
  for (let i = 0, j = corners.length - 1; i < corners.length; j = i++) {
    const [xi, yi] = corners[i];
    const [xj, yj] = corners[j];
    if (yi > point[1] !== yj > point[1] && point[0] < ((xj - xi) * (point[1] - yi)) / (yj - yi) + xi) inside = !inside;
  }
  return inside;
};

/** Distance from a point to a segment, mm. */
export const distanceToSegment = (point: Vec2, a: Vec2, b: Vec2): number => {
  const dx = b[0] - a[0];
  const dy = b[1] - a[1];
  const lengthSquared = dx * dx + dy * dy;
  const t = lengthSquared > 0 ? ((point[0] - a[0]) * dx + (point[1] - a[1]) * dy) / lengthSquared : 0;
  const clamped = Math.min(1, Math.max(0, t));
  return Math.hypot(point[0] - (a[0] + dx * clamped), point[1] - (a[1] + dy * clamped));
};

/** Do two segments cross in a point inside both? Touching ends and lying along each other do not count. */
export const segmentsCross = (a: Vec2, b: Vec2, c: Vec2, d: Vec2): boolean =>
  sideOf(a, b, c) * sideOf(a, b, d) < 0 && sideOf(c, d, a) * sideOf(c, d, b) < 0;

/** Where the lines through `a b` and `c d` meet; undefined when they are parallel. */
export const lineMeeting = (a: Vec2, b: Vec2, c: Vec2, d: Vec2): Vec2 | undefined => {
  const [rx, ry] = [b[0] - a[0], b[1] - a[1]];
  const [sx, sy] = [d[0] - c[0], d[1] - c[1]];
  const denominator = rx * sy - ry * sx;
  if (Math.abs(denominator) <= NO_CROSS * Math.hypot(rx, ry) * Math.hypot(sx, sy)) return undefined;
  const t = ((c[0] - a[0]) * sy - (c[1] - a[1]) * sx) / denominator;
  return [a[0] + rx * t, a[1] + ry * t];
};

/**
 * First pair of edges of a closed polygon that cross or touch, with the point; undefined when it is simple. Edges that follow
 * one another touch when the second runs back over the first. `tolerance` in mm: nearer than this is touching. O(n log n).
 */
export const firstSelfCrossing = (
  corners: readonly Vec2[],
  tolerance: number,
): { readonly edges: readonly [number, number]; readonly point: Vec2 } | undefined => {
  const near = sidesNear(corners, tolerance);
  for (let i = 0; i < corners.length; i++) {
    for (const j of near(i)) {
      const point = sidesMeet(corners, i, j, tolerance);
      if (point) return { edges: [i, j], point };
    }
  }
  return undefined;
};

/** Up to so many sides, trying every pair is quicker than looking for those that are near. */
const FEW_SIDES = 12;

/** Which sides after side `i` may come within the tolerance of it; ascending. */
const sidesNear = (corners: readonly Vec2[], tolerance: number): ((i: number) => readonly number[]) => {
  if (corners.length <= FEW_SIDES) {
    const all = corners.map((_, i) => i);
    return (i) => all.slice(i + 1);
  }
  const boxes = boxesOfSides(corners);
  const search = indexBoxes(boxes);
  return (i) =>
    search(
      boxes[4 * i] - tolerance,
      boxes[4 * i + 1] - tolerance,
      boxes[4 * i + 2] + tolerance,
      boxes[4 * i + 3] + tolerance,
      (other) => other > i,
    );
};

/** Where two sides of a closed polygon cross or touch, `i` < `j`. */
const sidesMeet = (corners: readonly Vec2[], i: number, j: number, tolerance: number): Vec2 | undefined => {
  const n = corners.length;
  const [a, b, c, d] = [corners[i], corners[i + 1], corners[j], corners[(j + 1) % n]];
  const isFar = (axis: 0 | 1): boolean =>
    Math.max(a[axis], b[axis]) + tolerance < Math.min(c[axis], d[axis]) ||
    Math.min(a[axis], b[axis]) - tolerance > Math.max(c[axis], d[axis]);
  if (isFar(0) || isFar(1)) return undefined;
  const touches = (point: Vec2, from: Vec2, to: Vec2): boolean => distanceToSegment(point, from, to) <= tolerance;
  const isAfter = j === i + 1;
  const isBefore = (j + 1) % n === i;
  if (isAfter || isBefore) {
    const [far, shared, end] = isAfter ? [a, b, d] : [b, a, c];
    if (touches(end, far, shared)) return end;
    return touches(far, shared, end) ? far : undefined;
  }
  if (segmentsCross(a, b, c, d)) return lineMeeting(a, b, c, d);
  return [a, b].find((p) => touches(p, c, d)) ?? [c, d].find((p) => touches(p, a, b));
};

/** rad, 0..pi/2. How far the plane of a flat polygon is from level. */
export const inclinationOf = (corners: readonly Vec3[]): number => {
  const [x, y, z] = areaVector(corners);
  return Math.atan2(Math.hypot(x, y), Math.abs(z));
};
