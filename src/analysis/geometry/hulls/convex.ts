/** Convex polygons of the plane across a bend line: flat arrays x0 y0 x1 y1 …, counter-clockwise. Lengths mm. */
import earcut from 'earcut';
import type { Vec2 } from '../vec.js';
import { signedArea } from '../polygon.js';

export type Convex = Float64Array;

/** Convex hull of points x0 y0 x1 y1 … (any order), counter-clockwise, no three corners in line. O(n log n). */
export const hullOf = (points: Float64Array | readonly number[], count = points.length / 2): Convex => {
  const order = new Array<number>(count);
  for (let i = 0; i < count; i++) order[i] = i;
  order.sort((a, b) => points[2 * a] - points[2 * b] || points[2 * a + 1] - points[2 * b + 1]);
  const hull: number[] = [];
  const turnsLeft = (a: number, b: number, c: number): boolean =>
    (points[2 * b] - points[2 * a]) * (points[2 * c + 1] - points[2 * a + 1]) -
      (points[2 * b + 1] - points[2 * a + 1]) * (points[2 * c] - points[2 * a]) >
    0;
  const extend = (i: number, floor: number): void => {
    while (hull.length - floor >= 2 && !turnsLeft(hull[hull.length - 2], hull[hull.length - 1], i)) hull.pop();
    hull.push(i);
  };
  for (const i of order) extend(i, 0);
  const lower = hull.length;
  for (let k = count - 2; k >= 0; k--) extend(order[k], lower - 1);
  hull.pop();
  const result = new Float64Array(2 * hull.length);
  hull.forEach((i, k) => {
    result[2 * k] = points[2 * i];
    result[2 * k + 1] = points[2 * i + 1];
  });
  return result;
};

/**
 * Widest gap between the points and the polygon over the polygon's own edge directions, mm: > 0 proves them apart by at
 * least that much; <= 0 says nothing of other directions.
 */
export const gapAlongEdges = (polygon: Convex, points: Float64Array, count = points.length / 2): number => {
  let widest = -Infinity;
  const n = polygon.length;
  for (let i = 0, j = n - 2; i < n; j = i, i += 2) {
    const ex = polygon[i] - polygon[j];
    const ey = polygon[i + 1] - polygon[j + 1];
    const length = Math.sqrt(ex * ex + ey * ey);
    if (length === 0) continue;
    // Outward normal of a counter-clockwise polygon.
    const nx = ey / length;
    const ny = -ex / length;
    let nearest = Infinity;
    for (let k = 0; k < 2 * count; k += 2) {
      const gap = (points[k] - polygon[j]) * nx + (points[k + 1] - polygon[j + 1]) * ny;
      if (gap < nearest) nearest = gap;
    }
    if (nearest > widest) widest = nearest;
  }
  return widest;
};

/**
 * Separation of two convex polygons, mm: > 0 apart (never more than the true distance), < 0 overlapping by the least
 * shift that would part them (exact).
 */
export const gapBetween = (a: Convex, b: Convex): number => Math.max(gapAlongEdges(a, b), gapAlongEdges(b, a));

/** A simple polygon in convex pieces: itself when it is convex, else triangles. Corners in either sense. */
export const convexPieces = (corners: readonly Vec2[]): readonly Convex[] => {
  const ccw = signedArea(corners) >= 0 ? corners : [...corners].reverse();
  const flat = ccw.flat();
  if (isConvex(ccw)) return [Float64Array.from(flat)];
  const triangles = earcut(flat);
  const pieces: Convex[] = [];
  for (let i = 0; i < triangles.length; i += 3) {
    const points = triangles.slice(i, i + 3).flatMap((k) => [flat[2 * k], flat[2 * k + 1]]);
    const piece = hullOf(points);
    if (piece.length >= 6) pieces.push(piece);
  }
  return pieces;
};

const isConvex = (corners: readonly Vec2[]): boolean => {
  const n = corners.length;
  for (let i = 0; i < n; i++) {
    const [a, b, c] = [corners[i], corners[(i + 1) % n], corners[(i + 2) % n]];
    if ((b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0]) < 0) return false;
  }
  return true;
};

/** Half of a polygon above (`+1`) or below (`-1`) a level; empty when nothing is there. */
export const cutAtHeight = (corners: readonly Vec2[], level: number, keep: 1 | -1): readonly Vec2[] => {
  const kept: Vec2[] = [];
  corners.forEach((point, i) => {
    const next = corners[(i + 1) % corners.length];
    const [a, b] = [(point[1] - level) * keep, (next[1] - level) * keep];
    if (a >= 0) kept.push(point);
    if (a > 0 !== b > 0 && a !== 0 && b !== 0) kept.push([point[0] + ((next[0] - point[0]) * a) / (a - b), level]);
  });
  return Math.abs(signedArea(kept)) > 0 ? kept : [];
};

export const mirrored = (polygon: Convex): Convex => {
  const n = polygon.length;
  const result = new Float64Array(n);
  for (let i = 0; i < n; i += 2) {
    result[i] = -polygon[n - 2 - i];
    result[i + 1] = polygon[n - 1 - i];
  }
  return result;
};
