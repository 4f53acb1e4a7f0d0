/** How near the metal of a panel, as it is cut, comes to a point of the tub. */
import { flattenContour } from '../geometry/contour.js';
import { heightOver, toPlane } from '../geometry/frame.js';
import { distanceToSegment, isInside } from '../geometry/polygon.js';
import type { Vec2, Vec3 } from '../geometry/vec.js';
import { add2, scale2 } from '../geometry/vec.js';
import type { Contour } from '../fold/flat-pattern.js';
import type { FlatPlacement, Unfolded } from '../fold/unfolded.js';
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
  const outlines = new Map<FaceIndex, Vec2[]>();
  const outlineOf = (face: FaceIndex, region: Contour): Vec2[] => {
    const corners = outlines.get(face) ?? flattenContour(region, ARC_FINENESS);
    outlines.set(face, corners);
    return corners;
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
    const corners = outlineOf(face, panel.region);
    const height = heightOver(shape.faces[face].frame, point);
    const off = Math.max(0, height, -thickness - height);
    return Math.hypot(off, isInside(at, corners) ? 0 : distanceToOutline(at, corners));
  };
  return { distanceTo, toFlat };
};

const applyPlacement = ({ origin, u, v }: FlatPlacement, [x, y]: Vec2): Vec2 => add2(origin, add2(scale2(u, x), scale2(v, y)));

const distanceToOutline = (point: Vec2, corners: readonly Vec2[]): number => {
  let least = Infinity;
  for (let i = 0, j = corners.length - 1; i < corners.length; j = i++) {
    least = Math.min(least, distanceToSegment(point, corners[j], corners[i]));
  }
  return least;
};
