/**
 * Offsets at which two convex polygons overlap: the sum of the one with the other mirrored in its origin (Minkowski), a
 * convex polygon whose sides are the sides of both, sorted by direction.
 */
import { NOISE } from '../../geometry/tolerance.js';
import type { Vec2 } from '../../geometry/vec.js';

export interface Sides {
  /** Sides of the sums, pointing out: normal x, normal y, distance from the origin. */
  readonly sides: Float64Array;
  /** Where each sum starts in `sides`, and the end. */
  readonly starts: Int32Array;
}

/** Corners of p + (-q), both convex and counter-clockwise, as x, y, x, y ... */
export const sumWithMirrored = (p: readonly Vec2[], q: readonly Vec2[]): Float64Array => {
  const [n, m] = [p.length, q.length];
  const sum = new Float64Array(2 * (n + m));
  let i = lowestOf(p, 1);
  let j = lowestOf(q, -1);
  for (let k = 0, i0 = 0, j0 = 0; k < n + m; k++) {
    sum[2 * k] = p[i][0] - q[j][0];
    sum[2 * k + 1] = p[i][1] - q[j][1];
    const [pi, qj] = [p[(i + 1) % n], q[(j + 1) % m]];
    // The side of p, and that of -q, which runs the other way.
    const turn = (pi[0] - p[i][0]) * (q[j][1] - qj[1]) - (pi[1] - p[i][1]) * (q[j][0] - qj[0]);
    if (j0 === m || (i0 < n && turn >= 0)) {
      i = (i + 1) % n;
      i0++;
    } else {
      j = (j + 1) % m;
      j0++;
    }
  }
  return sum;
};

/** Cosine of the turn beyond which a corner is cut off rather than drawn out to a point (60 deg). */
const SHARP = 0.5;

/**
 * A convex polygon grown by `by`: its sides moved out by just that, sharp corners cut off as far from the corner. What is
 * within `by` of the polygon lies in it.
 */
export const grown = (sum: Float64Array, by: number): Float64Array => {
  if (by === 0) return sum;
  const sides = directionsOf(sum);
  const corners: number[] = [];
  for (let i = 0; i < sides.length; i++) {
    const [before, after] = [sides[(i + sides.length - 1) % sides.length], sides[i]];
    const { x, y } = after;
    const cosine = before.nx * after.nx + before.ny * after.ny;
    const between = [before.nx + after.nx, before.ny + after.ny];
    const length = Math.sqrt(between[0] * between[0] + between[1] * between[1]);
    if (cosine >= SHARP || length < NOISE) {
      const out = by / Math.max(NOISE, 1 + cosine);
      corners.push(x + out * between[0], y + out * between[1]);
      continue;
    }
    // The normals of both sides and one midway: the corners between each two of them.
    const middle = { nx: between[0] / length, ny: between[1] / length };
    for (const side of [before, after]) {
      const out = by / (1 + side.nx * middle.nx + side.ny * middle.ny);
      corners.push(x + out * (side.nx + middle.nx), y + out * (side.ny + middle.ny));
    }
  }
  return Float64Array.from(corners);
};

/** Sides of a polygon that have a length: where each starts, and its normal, pointing out. */
const directionsOf = (sum: Float64Array): { x: number; y: number; nx: number; ny: number }[] => {
  const sides: { x: number; y: number; nx: number; ny: number }[] = [];
  for (let i = 0, n = sum.length; i < n; i += 2) {
    const j = i + 2 < n ? i + 2 : 0;
    const [ex, ey] = [sum[j] - sum[i], sum[j + 1] - sum[i + 1]];
    const length = Math.sqrt(ex * ex + ey * ey);
    if (length > 0) sides.push({ x: sum[i], y: sum[i + 1], nx: ey / length, ny: -ex / length });
  }
  return sides;
};

/** Index of the lowest corner of `sign` times the polygon, the leftmost of these. */
const lowestOf = (polygon: readonly Vec2[], sign: number): number => {
  let best = 0;
  for (let i = 1; i < polygon.length; i++) {
    const dy = sign * (polygon[i][1] - polygon[best][1]);
    if (dy < 0 || (dy === 0 && sign * (polygon[i][0] - polygon[best][0]) < 0)) best = i;
  }
  return best;
};

export const extentOfSums = (sums: readonly Float64Array[]): [number, number, number, number] => {
  let [left, low, right, high] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const sum of sums) {
    for (let i = 0; i < sum.length; i += 2) {
      left = Math.min(left, sum[i]);
      right = Math.max(right, sum[i]);
      low = Math.min(low, sum[i + 1]);
      high = Math.max(high, sum[i + 1]);
    }
  }
  return [left, low, right, high];
};

export const sidesOf = (sums: readonly Float64Array[], slack: number): Sides => {
  const sides = new Float64Array(sums.reduce((count, sum) => count + 1.5 * sum.length, 0));
  const starts = new Int32Array(sums.length + 1);
  let at = 0;
  for (let k = 0; k < sums.length; k++) {
    const sum = sums[k];
    for (let i = 0, n = sum.length; i < n; i += 2) {
      const j = i + 2 < n ? i + 2 : 0;
      const ex = sum[j] - sum[i];
      const ey = sum[j + 1] - sum[i + 1];
      const length = Math.sqrt(ex * ex + ey * ey);
      if (length === 0) continue;
      sides[at] = ey / length;
      sides[at + 1] = -ex / length;
      sides[at + 2] = sides[at] * sum[i] + sides[at + 1] * sum[i + 1] + slack;
      at += 3;
    }
    starts[k + 1] = at;
  }
  return { sides, starts };
};
