/** What two bodies that take the same room share, and the least move that parts them. */
import { NO_AXIS, ROUND_OFF, SAME_TURN } from '../../geometry/tolerance.js';
import { addScaled, dot, lengthOf, scale, subtract, type Vec3 } from '../../geometry/vec.js';
import { boxedPrisms, spanOf, type Body, type Box, type Prism } from '../bodies/prisms.js';
import { windowOf, type Window } from './window.js';

/** A point within both of two convex pieces that share room: the middle of where lines between corners of one are in the other. */
export const middleOfShared = (p: Prism & Box, q: Prism & Box): Vec3 => {
  const ends = [...endsWithin(p, q), ...endsWithin(q, p)];
  if (ends.length === 0) return middleOfBoxes(p, q);
  const sum = ends.reduce<Vec3>((all, end) => addScaled(all, end, 1), [0, 0, 0]);
  return scale(sum, 1 / ends.length);
};

/** Of the room that lies in both boxes. */
export const middleOfBoxes = (p: Box, q: Box): Vec3 =>
  [0, 1, 2].map((k) => (Math.max(p.low[k], q.low[k]) + Math.min(p.high[k], q.high[k])) / 2) as unknown as Vec3;

const endsWithin = ({ corners }: Prism, into: Prism): readonly Vec3[] => {
  const slabs = into.normals.map((normal) => ({ normal, span: spanOf(normal, into.corners) }));
  return corners.flatMap((start, i) =>
    corners.slice(i + 1).flatMap((end): readonly Vec3[] => {
      const along = subtract(end, start);
      let [from, to] = [0, 1];
      for (const { normal, span } of slabs) {
        const [at, moves] = [dot(normal, start), dot(normal, along)];
        const [one, other] = span.map((bound) => (bound - at) / moves);
        if (Math.abs(moves) <= ROUND_OFF) {
          if (at < span[0] || at > span[1]) return [];
          continue;
        }
        [from, to] = [Math.max(from, Math.min(one, other)), Math.min(to, Math.max(one, other))];
        if (from > to) return [];
      }
      return [addScaled(start, along, from), addScaled(start, along, to)];
    }),
  );
};

/**
 * How far one body must go, straight along a normal of a side of either, to be clear of the other, mm: the least of these. `at`: two of
 * their pieces that share room. Cost: for each such way the pieces whose boxes the swept ones meet.
 */
export const leastMoveApart = (a: Body, b: Body, at: readonly [Prism, Prism]): number => {
  let least = Infinity;
  const axes = [...a.faces, ...b.faces, ...at.flatMap(({ normals }) => normals)];
  for (const way of waysAlong(axes)) least = Math.min(least, clearAfter(a, b, way, least));
  return least;
};

/** Unit ways along axes and back, each once. */
export const waysAlong = (axes: readonly Vec3[]): readonly Vec3[] => {
  const ways: Vec3[] = [];
  for (const axis of axes) {
    const length = lengthOf(axis);
    if (length < NO_AXIS) continue;
    const way = scale(axis, 1 / length);
    if (!ways.some((known) => Math.abs(dot(known, way)) > 1 - SAME_TURN)) ways.push(way);
  }
  return ways.flatMap((way) => [way, scale(way, -1)]);
};

/** mm until nothing is shared; what is `most` or more is not followed to its end. */
const clearAfter = (a: Body, b: Body, way: Vec3, most: number): number => {
  const windows: Window[] = [];
  for (const p of boxedPrisms(a)) {
    for (const q of boxedPrisms(b)) {
      const window = couldMeet(p, q, way, most) ? windowOf(p, q, way, 0) : undefined;
      if (window && window[1] > 0) windows.push(window);
    }
  }
  let at = 0;
  for (const [from, to] of windows.sort((one, other) => one[0] - other[0])) {
    if (from > at + ROUND_OFF) break;
    at = Math.max(at, to);
    if (at >= most) return most;
  }
  return at;
};

export const couldMeet = (p: Box, q: Box, way: Vec3, reach: number): boolean =>
  [0, 1, 2].every((k) => {
    const low = way[k] < -ROUND_OFF ? p.low[k] + way[k] * reach : p.low[k];
    const high = way[k] > ROUND_OFF ? p.high[k] + way[k] * reach : p.high[k];
    return low <= q.high[k] && high >= q.low[k];
  });
