/** What of a flat is dimensioned from its corner, on paper and on the screen. */
import { ROUND_OFF, SAME_TURN } from '../../geometry/tolerance.js';
import type { FlatPattern } from '../../fold/flat-pattern.js';
import { feetOn } from '../../fold/marked-side.js';
import type { ContourVertex, Extent } from '../../geometry/contour.js';
import { distance2, type Vec2 } from '../../geometry/vec.js';

/** A dimension from the lower left corner of the flat's box along one axis. */
export interface Ordinate {
  /** Distance from the corner, mm of the part. */
  readonly value: number;
  /** Where the witness line ends, across the axis, mm of the part from the corner. */
  readonly reach: number;
  /** The greater, the sooner it is shown. */
  readonly weight: number;
}

const EXTENT_WEIGHT = 1000;

const BEND_WEIGHT = 500;

/** What weighs as much as a hole is measured from the corner's own side. */
export const HOLE_WEIGHT = 300;

/** Along x (0) or y (1). O(n) in vertices, bends and holes. */
export const ordinatesOf = (flat: FlatPattern, extent: Extent, axis: 0 | 1): Ordinate[] => {
  const across = (1 - axis) as 0 | 1;
  const at = (point: Vec2, weight: number): Ordinate => ({
    value: point[axis] - extent.min[axis],
    reach: point[across] - extent.min[across],
    weight,
  });
  const corners = flat.outline.flatMap((from, i): Ordinate[] => {
    const [before, to] = [
      flat.outline[(i + flat.outline.length - 1) % flat.outline.length],
      flat.outline[(i + 1) % flat.outline.length],
    ];
    if (isOnTheWay(before, from, to)) return [];
    return [at([from.x, from.y], Math.hypot(to.x - from.x, to.y - from.y) / 100)];
  });
  const square = flat.bends.filter(
    ({ start, end }) => Math.abs(start[axis] - end[axis]) <= SAME_TURN * distance2(start, end),
  );
  const bends = square.flatMap(({ start, end }) => [
    at(start[across] < end[across] ? start : end, BEND_WEIGHT + distance2(start, end) / 100),
  ]);
  const holes = flat.holes.flatMap(({ circle }) => (circle ? [at(circle.center, HOLE_WEIGHT)] : []));
  const feet = feetOn(flat).flatMap(({ points: [start, end] }) => [at(start, HOLE_WEIGHT), at(end, HOLE_WEIGHT)]);
  const ends = [extent.min, extent.max].map((corner): Ordinate => ({
    ...nearestCorner(corners, corner[axis] - extent.min[axis]),
    weight: EXTENT_WEIGHT,
  }));
  return [...ends, ...bends, ...holes, ...feet, ...corners];
};

/** Does a straight line only pass through the vertex? */
const isOnTheWay = (before: ContourVertex, at: ContourVertex, to: ContourVertex): boolean => {
  if (before.bulge !== 0 || at.bulge !== 0) return false;
  const [ax, ay, bx, by] = [at.x - before.x, at.y - before.y, to.x - at.x, to.y - at.y];
  return Math.abs(ax * by - ay * bx) <= SAME_TURN * Math.hypot(ax, ay) * Math.hypot(bx, by);
};

/** The corner that stands at an end of the extent; the lowest when there are several. */
const nearestCorner = (corners: readonly Ordinate[], value: number): Ordinate => {
  const there = corners.filter((corner) => Math.abs(corner.value - value) < ROUND_OFF);
  return {
    value,
    weight: 0,
    reach: there.reduce((low, { reach }) => Math.min(low, reach), there.length > 0 ? Infinity : 0),
  };
};
