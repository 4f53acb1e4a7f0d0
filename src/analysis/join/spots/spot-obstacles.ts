/** Sheet in the way of an arm: what of it stands in a region beside the spot. */
import { clipPolygon } from '../../geometry/clip-polygon.js';
import type { Vec3 } from '../../geometry/vec.js';

/** What stands ahead within an arm's width: how far it goes, and between which heights over the panel. */
export interface Obstacle {
  readonly along: number;
  readonly low: number;
  readonly high: number;
}

/** Along the way x, to its left y, over the panel z; mm from the spot. */
export interface Turned {
  readonly corners: readonly Vec3[];
  readonly x: Range;
  readonly y: Range;
}

type Range = readonly [least: number, most: number];

export const turnedBy = (angle: number, polygons: readonly (readonly Vec3[])[]): readonly Turned[] => {
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  return polygons.map((polygon) => {
    const corners = polygon.map(([x, y, h]): Vec3 => [x * c + y * s, y * c - x * s, h]);
    return { corners, x: rangeOf(corners, 0), y: rangeOf(corners, 1) };
  });
};

const rangeOf = (corners: readonly Vec3[], axis: 0 | 1): Range => {
  let [least, most] = [Infinity, -Infinity];
  for (const corner of corners) {
    least = Math.min(least, corner[axis]);
    most = Math.max(most, corner[axis]);
  }
  return [least, most];
};

/** A part of the plane about the spot, seen from over the panel. */
export interface Region {
  readonly x: Range;
  readonly y: Range;
}

/** What stands in the region; most of what is near stands all beside it. */
export const obstaclesIn = (region: Region, polygons: readonly Turned[]): readonly Obstacle[] =>
  polygons.flatMap((polygon) =>
    isApart(polygon.x, region.x) || isApart(polygon.y, region.y) ? [] : (obstacleOf(clipped(polygon, region)) ?? []),
  );

const isApart = (a: Range, b: Range): boolean => a[1] < b[0] || b[1] < a[0];

/** Only the borders of the region that the polygon crosses cut it. */
const clipped = (polygon: Turned, { x, y }: Region): readonly Vec3[] => {
  let { corners } = polygon;
  if (polygon.x[0] < x[0]) corners = clipPolygon(corners, [1, 0, 0], -x[0]);
  if (polygon.x[1] > x[1]) corners = clipPolygon(corners, [-1, 0, 0], x[1]);
  if (polygon.y[0] < y[0]) corners = clipPolygon(corners, [0, 1, 0], -y[0]);
  if (polygon.y[1] > y[1]) corners = clipPolygon(corners, [0, -1, 0], y[1]);
  return corners;
};

const obstacleOf = (corners: readonly Vec3[]): Obstacle | undefined => {
  if (corners.length === 0) return undefined;
  const heights = corners.map((corner) => corner[2]);
  return {
    along: Math.max(...corners.map((corner) => corner[0])),
    low: Math.min(...heights),
    high: Math.max(...heights),
  };
};
