/** How near the metal of a panel, as it is cut, comes to a point of the tub. */
import Flatbush from 'flatbush';
import { flattenContour } from '../geometry/contour.js';
import { heightOver, toPlane } from '../geometry/frame.js';
import { distanceToSegment, sideOf } from '../geometry/polygon.js';
import type { Vec2, Vec3 } from '../geometry/vec.js';
import { add2, distance2, scale2 } from '../geometry/vec.js';
import type { Contour } from '../fold/flat-pattern.js';
import type { FlatPlacement, Unfolded } from '../fold/unfolded.js';
import { ROUND_OFF } from '../tolerance.js';
import type { FaceIndex, Shape } from '../shape/shape.js';

/** mm. Fineness with which the arcs of a panel's outline are followed. */
const ARC_FINENESS = 0.002;

export interface PlateReach {
  /** Distance from a point to the panel's metal between its tangent lines, mm; 0 inside it. Undefined: not laid flat. */
  readonly distanceTo: (face: FaceIndex, point: Vec3) => number | undefined;
  /** A point of the panel's plane, from the face's frame to the flat of its part. */
  readonly toFlat: (face: FaceIndex, point: Vec3) => Vec2 | undefined;
}

/** Looks panels up in the flats that hold them; outlines are flattened once, when first asked for. */
export const plateReachOf = (shape: Shape, unfolded: readonly Unfolded[]): PlateReach => {
  const placements = new Map<FaceIndex, FlatPlacement>();
  const regions = new Map<FaceIndex, { readonly region: Contour; readonly thickness: number }>();
  for (const { flat, toFlat } of unfolded) {
    for (const [face, placement] of toFlat) placements.set(face, placement);
    for (const { face, region } of flat?.panels ?? []) {
      if (face !== undefined && flat) regions.set(face, { region, thickness: flat.thickness });
    }
  }
  const outlines = new Map<FaceIndex, Outline>();
  const outlineOf = (face: FaceIndex, region: Contour): Outline => {
    const outline = outlines.get(face) ?? indexOutline(flattenContour(region, ARC_FINENESS));
    outlines.set(face, outline);
    return outline;
  };
  const toFlat = (face: FaceIndex, point: Vec3): Vec2 | undefined => {
    const placement = placements.get(face);
    return placement && applyPlacement(placement, toPlane(shape.faces[face].frame, point));
  };
  const distanceTo = (face: FaceIndex, point: Vec3): number | undefined => {
    const panel = regions.get(face);
    const at = toFlat(face, point);
    if (!panel || !at) return undefined;
    const { thickness } = panel;
    const outline = outlineOf(face, panel.region);
    const height = heightOver(shape.faces[face].frame, point);
    const off = Math.max(0, height, -thickness - height);
    return Math.hypot(off, distanceOutside(at, outline));
  };
  return { distanceTo, toFlat };
};

const applyPlacement = ({ origin, u, v }: FlatPlacement, [x, y]: Vec2): Vec2 =>
  add2(origin, add2(scale2(u, x), scale2(v, y)));

interface Outline {
  readonly corners: readonly Vec2[];
  /** Boxes of the edges; edge `i` runs from corner `i` to the next. */
  readonly index: Flatbush;
  readonly size: number;
}

const indexOutline = (corners: readonly Vec2[]): Outline => {
  const index = new Flatbush(corners.length);
  corners.forEach(([ax, ay], i) => {
    const [bx, by] = corners[(i + 1) % corners.length];
    index.add(Math.min(ax, bx), Math.min(ay, by), Math.max(ax, bx), Math.max(ay, by));
  });
  index.finish();
  return { corners, index, size: Math.hypot(index.maxX - index.minX, index.maxY - index.minY) };
};

/** mm. First search around a point; widened until an edge is found that is no farther than the search. */
const FIRST_REACH = 1;

/** Distance to a counter-clockwise outline for a point outside it, 0 inside. The nearest edge tells the side. */
const distanceOutside = (point: Vec2, outline: Outline): number => {
  const { corners, index } = outline;
  for (let reach = FIRST_REACH; ; reach *= 4) {
    const [x, y] = point;
    const near = index.search(x - reach, y - reach, x + reach, y + reach);
    const distances = near.map((i) => distanceToSegment(point, corners[i], corners[(i + 1) % corners.length]));
    const least = Math.min(Infinity, ...distances);
    const isLast = reach > 2 * (outline.size + distance2(point, corners[0]));
    if (least > reach && !isLast) continue;
    return isOnInnerSide(
      point,
      corners,
      near.filter((_, k) => distances[k] <= least + ROUND_OFF),
    )
      ? 0
      : least;
  }
};

/** Left of the nearest edge; where two share the nearest corner, left of both at a corner that sticks out, of either at one that goes in. */
const isOnInnerSide = (point: Vec2, corners: readonly Vec2[], nearest: readonly number[]): boolean => {
  const n = corners.length;
  const lefts = nearest.map((i) => sideOf(corners[i], corners[(i + 1) % n], point) >= 0);
  if (nearest.length < 2) return lefts[0] ?? false;
  const [first, second] = nearest[0] === (nearest[1] + 1) % n ? [nearest[1], nearest[0]] : [nearest[0], nearest[1]];
  const sticksOut = sideOf(corners[first], corners[second], corners[(second + 1) % n]) > 0;
  return sticksOut ? lefts.every(Boolean) : lefts.some(Boolean);
};
