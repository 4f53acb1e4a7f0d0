import { ON_LINE } from '../tolerance.js';
import earcut from 'earcut';
import { indexBoxes } from '../box-index.js';
import { cross2, dot2, subtract2, type Vec2 } from '../vec.js';

/** Indices of three points. */
export type Corners = readonly [number, number, number];

/**
 * Triangles of a plane region, counter-clockwise, whose sides meet corner to corner.
 *
 * `points`: all corners; `outline` counter-clockwise and `holes` clockwise index them. Corners that lie straight on a
 * side are kept: a side is split there, which the general triangulation does not promise.
 */
export const triangulate = (
  points: readonly Vec2[],
  outline: readonly number[],
  holes: readonly (readonly number[])[],
): readonly Corners[] => {
  const order = [...outline, ...holes.flat()];
  if (order.length < 3) return [];
  const flat: number[] = [];
  for (const i of order) flat.push(points[i][0], points[i][1]);
  const starts: number[] = [];
  let next = outline.length;
  for (const hole of holes) {
    starts.push(next);
    next += hole.length;
  }
  const found = earcut(flat, starts);
  const triangles: Corners[] = [];
  for (let i = 0; i + 2 < found.length; i += 3) {
    const corners: Corners = [order[found[i]], order[found[i + 1]], order[found[i + 2]]];
    if (isFlat(points, corners)) continue;
    const [a, b, c] = corners;
    triangles.push(twiceArea(points, corners) > 0 ? corners : [a, c, b]);
  }
  // Every corner was cut off once, so none lies on a side.
  if (holes.length === 0 && triangles.length === outline.length - 2) return triangles;
  return splitAtCorners(points, order, [outline, ...holes], triangles);
};

const twiceArea = (points: readonly Vec2[], [a, b, c]: Corners): number =>
  cross2(subtract2(points[b], points[a]), subtract2(points[c], points[a]));

const isFlat = (points: readonly Vec2[], corners: Corners): boolean => {
  const [a, b, c] = [points[corners[0]], points[corners[1]], points[corners[2]]];
  const longest = Math.max(length(a, b), length(b, c), length(c, a));
  return Math.abs(twiceArea(points, corners)) <= ON_LINE * longest;
};

const length = (a: Vec2, b: Vec2): number => Math.hypot(b[0] - a[0], b[1] - a[1]);

/** Splits every triangle side that has another corner on it, until each inner side has its fellow. */
const splitAtCorners = (
  points: readonly Vec2[],
  order: readonly number[],
  rings: readonly (readonly number[])[],
  triangles: Corners[],
): readonly Corners[] => {
  const size = points.length;
  const between = betweenCorners(points, order);
  const onRing = new Set(rings.flatMap((ring) => ring.map((a, i) => a * size + ring[(i + 1) % ring.length])));
  for (;;) {
    const sides = new Set(triangles.flatMap(([a, b, c]) => [a * size + b, b * size + c, c * size + a]));
    let isSplit = false;
    triangles = triangles.flatMap((corners): Corners[] => {
      for (let i = 0; i < 3; i++) {
        const [a, b, c] = [corners[i], corners[(i + 1) % 3], corners[(i + 2) % 3]];
        if (sides.has(b * size + a) || onRing.has(a * size + b)) continue;
        const met = between(a, b);
        if (met.length === 0) continue;
        isSplit = true;
        const stops = [a, ...met, b];
        return stops.slice(1).map((stop, k): Corners => [stops[k], stop, c]);
      }
      return [corners];
    });
    if (!isSplit) return triangles;
  }
};

/** Which corners lie on the line between two of them, in its order. Each look costs O(log n). */
const betweenCorners = (
  points: readonly Vec2[],
  order: readonly number[],
): ((a: number, b: number) => readonly number[]) => {
  const corners = [...new Set(order)];
  const boxes = new Float64Array(corners.flatMap((i) => [...points[i], ...points[i]]));
  const search = indexBoxes(boxes);
  const around = 2 * ON_LINE;
  return (a, b) => {
    const [p, q] = [points[a], points[b]];
    const along = subtract2(q, p);
    const span = Math.hypot(along[0], along[1]);
    const near = search(
      Math.min(p[0], q[0]) - around,
      Math.min(p[1], q[1]) - around,
      Math.max(p[0], q[0]) + around,
      Math.max(p[1], q[1]) + around,
    );
    return near
      .map((k) => corners[k])
      .filter((i) => i !== a && i !== b)
      .map((i) => ({ i, offset: subtract2(points[i], p) }))
      .map(({ i, offset }) => ({ i, t: dot2(offset, along) / span, off: Math.abs(cross2(along, offset)) / span }))
      .filter(({ t, off }) => t > ON_LINE && t < span - ON_LINE && off <= 2 * ON_LINE)
      .sort((first, second) => first.t - second.t)
      .map(({ i }) => i);
  };
};
