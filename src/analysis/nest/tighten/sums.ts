/**
 * Offsets at which two convex polygons overlap: the sum of the one with the other mirrored in its origin (Minkowski), a
 * convex polygon whose sides are the sides of both, sorted by direction.
 */
import { NOISE } from '../../geometry/tolerance.js';
import type { Vec2 } from '../../geometry/vec.js';
import { NEST_CONTACT } from '../../model/tolerance.js';

export interface Sides {
  /** Sides of the sums, pointing out: normal x, normal y, distance from the origin. */
  readonly sides: Float64Array;
  /** Where each sum starts in `sides`, and the end. */
  readonly starts: Int32Array;
}

/** Corners of convex polygons one after the other, x and y: from `starts[k]` to `starts[k + 1]` those of one. */
export interface Sums {
  readonly corners: Float64Array;
  readonly starts: Int32Array;
  readonly count: number;
}

/**
 * Every p + (-q) of the parts of two pieces, all of them convex and counter-clockwise, grown by `gap`. What comes back is used
 * again by the next call: there are a great many, and none is kept.
 */
export const sumsOf = (a: readonly (readonly Vec2[])[], b: readonly (readonly Vec2[])[], gap: number): Sums => {
  const count = a.length * b.length;
  if (starts.length <= count) starts = new Int32Array(2 * count + 1);
  let k = 0;
  let at = 0;
  for (const p of a) {
    for (const q of b) {
      starts[k++] = at;
      const most = 4 * (p.length + q.length);
      if (corners.length < at + most) corners = longer(corners, at + most);
      at = growInto(sumWithMirrored(p, q), gap, at);
    }
  }
  starts[k] = at;
  return { corners, starts, count };
};

// Used again for all sums: their corners and where each starts; of one sum its corners; and of each of its sides where it starts and its normal, pointing out.
let corners = new Float64Array(0);
let starts = new Int32Array(0);
let sum = new Float64Array(0);
let normals = new Float64Array(0);

const longer = (numbers: Float64Array, least: number): Float64Array<ArrayBuffer> => {
  const more = new Float64Array(2 * least);
  more.set(numbers);
  return more;
};

/** Fills `sum` with the corners of p + (-q); gives how many there are. */
const sumWithMirrored = (p: readonly Vec2[], q: readonly Vec2[]): number => {
  const [n, m] = [p.length, q.length];
  if (sum.length < 2 * (n + m)) sum = longer(sum, 2 * (n + m));
  let i = lowestOf(p, 1);
  let j = lowestOf(q, -1);
  for (let k = 0, i0 = 0, j0 = 0; k < n + m; k++) {
    sum[2 * k] = p[i][0] - q[j][0];
    sum[2 * k + 1] = p[i][1] - q[j][1];
    const nextI = i + 1 < n ? i + 1 : 0;
    const nextJ = j + 1 < m ? j + 1 : 0;
    // The side of p, and that of -q, which runs the other way.
    const turn = (p[nextI][0] - p[i][0]) * (q[j][1] - q[nextJ][1]) - (p[nextI][1] - p[i][1]) * (q[j][0] - q[nextJ][0]);
    if (j0 === m || (i0 < n && turn >= 0)) {
      i = nextI;
      i0++;
    } else {
      j = nextJ;
      j0++;
    }
  }
  return n + m;
};

/** Cosine of the turn beyond which a corner is cut off rather than drawn out to a point (60 deg). */
const SHARP = 0.5;

/**
 * The polygon in `sum` grown by `by`, into `corners` from `start` on: its sides moved out by just that, sharp corners cut off as far
 * from the corner, so that what is within `by` of it lies in it. Gives the end.
 */
const growInto = (length: number, by: number, start: number): number => {
  let n = start;
  const count = fillNormals(length);
  for (let i = 0; i < count; i++) {
    const before = 4 * (i === 0 ? count - 1 : i - 1);
    const after = 4 * i;
    const x = normals[after];
    const y = normals[after + 1];
    const cosine = normals[before + 2] * normals[after + 2] + normals[before + 3] * normals[after + 3];
    const betweenX = normals[before + 2] + normals[after + 2];
    const betweenY = normals[before + 3] + normals[after + 3];
    const between = Math.sqrt(betweenX * betweenX + betweenY * betweenY);
    if (cosine >= SHARP || between < NOISE) {
      const out = by / Math.max(NOISE, 1 + cosine);
      corners[n++] = x + out * betweenX;
      corners[n++] = y + out * betweenY;
      continue;
    }
    // The normals of both sides and one midway: the corners between each two of them.
    const out = by / (1 + between / 2);
    corners[n++] = x + out * (normals[before + 2] + betweenX / between);
    corners[n++] = y + out * (normals[before + 3] + betweenY / between);
    corners[n++] = x + out * (normals[after + 2] + betweenX / between);
    corners[n++] = y + out * (normals[after + 3] + betweenY / between);
  }
  return n;
};

/** Of the polygon in `sum`, with so many corners; gives how many of its sides have a length. */
const fillNormals = (length: number): number => {
  if (normals.length < 4 * length) normals = longer(normals, 4 * length);
  let count = 0;
  for (let i = 0; i < length; i++) {
    const j = i + 1 < length ? i + 1 : 0;
    const ex = sum[2 * j] - sum[2 * i];
    const ey = sum[2 * j + 1] - sum[2 * i + 1];
    const side = Math.sqrt(ex * ex + ey * ey);
    if (side === 0) continue;
    normals[4 * count] = sum[2 * i];
    normals[4 * count + 1] = sum[2 * i + 1];
    normals[4 * count + 2] = ey / side;
    normals[4 * count + 3] = -ex / side;
    count++;
  }
  return count;
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

export const extentOfSums = ({ corners, starts, count }: Sums): [number, number, number, number] => {
  let [left, low, right, high] = [Infinity, Infinity, -Infinity, -Infinity];
  for (let i = 0; i < starts[count]; i += 2) {
    if (corners[i] < left) left = corners[i];
    if (corners[i] > right) right = corners[i];
    if (corners[i + 1] < low) low = corners[i + 1];
    if (corners[i + 1] > high) high = corners[i + 1];
  }
  return [left, low, right, high];
};

export const sidesOf = ({ corners, starts, count }: Sums, slack: number): Sides => {
  const sides = new Float64Array(1.5 * starts[count]);
  const ends = new Int32Array(count + 1);
  let at = 0;
  for (let k = 0; k < count; k++) {
    const [start, end] = [starts[k], starts[k + 1]];
    for (let i = start; i < end; i += 2) {
      const j = i + 2 < end ? i + 2 : start;
      const ex = corners[j] - corners[i];
      const ey = corners[j + 1] - corners[i + 1];
      const length = Math.sqrt(ex * ex + ey * ey);
      if (length === 0) continue;
      sides[at] = ey / length;
      sides[at + 1] = -ex / length;
      sides[at + 2] = sides[at] * corners[i] + sides[at + 1] * corners[i + 1] + slack;
      at += 3;
    }
    ends[k + 1] = at;
  }
  return { sides, starts: ends };
};

/**
 * How far along the ray from a point the first of the sums begins, taken `within` mm inside its sides; `most`: none does before.
 * Pieces end as deep in touch as half of what counts as clear, so that round-off leaves them clear.
 */
export const entryInto = ({ sides, starts }: Sides, from: Vec2, along: Vec2, most: number, within: number): number => {
  let room = most;
  for (let k = 0; k + 1 < starts.length; k++) {
    let enters = 0;
    let deepEnters = 0;
    let leaves = room;
    for (let i = starts[k]; i < starts[k + 1] && deepEnters < leaves; i += 3) {
      const inside = sides[i + 2] - within - sides[i] * from[0] - sides[i + 1] * from[1];
      const closing = sides[i] * along[0] + sides[i + 1] * along[1];
      const deep = inside - NEST_CONTACT / 2;
      if (closing > 0) leaves = Math.min(leaves, deep / closing);
      else if (closing < 0) {
        enters = Math.max(enters, inside / closing);
        deepEnters = Math.max(deepEnters, deep / closing);
      } else if (deep <= 0) leaves = -1;
    }
    if (deepEnters < leaves) room = enters;
  }
  return room;
};
