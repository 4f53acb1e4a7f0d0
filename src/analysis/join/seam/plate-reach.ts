/** How near the metal of a panel, as it is cut, comes to a point of the tub. */
import { flattenContour } from '../../geometry/contour.js';
import { heightOver, type Frame } from '../../geometry/frame.js';
import { dot2, subtract2, type Vec2, type Vec3 } from '../../geometry/vec.js';
import type { Contour } from '../../geometry/contour.js';
import type { FlatPlacement, Unfolded } from '../../fold/unfolded.js';
import { memoBy } from '../../cache/memo.js';
import type { FaceIndex, Shape } from '../../shape/shape.js';
import { distanceOutside, distanceWithin, outlineOf } from './outline.js';

/** mm. Fineness with which the arcs of a panel's outline are followed. */
const ARC_FINENESS = 0.002;

export interface PlateReach {
  /** Distance from a point to the panel's metal between its tangent lines, mm; 0 inside it. Undefined: not laid flat. */
  readonly distanceTo: (face: FaceIndex, point: Vec3) => number | undefined;
  /** From a point of the panel's plane to where its flat metal ends, mm; negative: it lies off it. Undefined: not laid flat. */
  readonly roomAt: (face: FaceIndex, point: Vec3) => number | undefined;
  /** The panel's flat metal between its tangent lines, in the face's own frame. Undefined: not laid flat. */
  readonly regionOf: (face: FaceIndex) => readonly Vec2[] | undefined;
  /** A point of the panel's plane, from the face's frame to the flat of its part. */
  readonly toFlat: (face: FaceIndex, point: Vec3) => Vec2 | undefined;
}

const regionOutline = memoBy((region: Contour) => outlineOf(flattenContour(region, ARC_FINENESS)));

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
  const toFlat = (face: FaceIndex, point: Vec3): Vec2 | undefined => {
    const placement = placements.get(face);
    return placement && placeOnFlat(shape.faces[face].frame, placement, point);
  };
  const distanceTo = (face: FaceIndex, point: Vec3): number | undefined => {
    const panel = regions.get(face);
    const at = toFlat(face, point);
    if (!panel || !at) return undefined;
    const { region, thickness } = panel;
    const height = heightOver(shape.faces[face].frame, point);
    const off = Math.max(0, height, -thickness - height);
    return Math.hypot(off, distanceOutside(at, regionOutline(region)));
  };
  const roomAt = (face: FaceIndex, point: Vec3): number | undefined => {
    const panel = regions.get(face);
    const at = toFlat(face, point);
    return panel && at && distanceWithin(at, regionOutline(panel.region));
  };
  const regionOf = (face: FaceIndex): readonly Vec2[] | undefined => {
    const [panel, placement] = [regions.get(face), placements.get(face)];
    if (!panel || !placement) return undefined;
    const { origin, u, v } = placement;
    return flattenContour(panel.region, ARC_FINENESS).map((point): Vec2 => {
      const off = subtract2(point, origin);
      return [dot2(off, u), dot2(off, v)];
    });
  };
  return { distanceTo, roomAt, regionOf, toFlat };
};

/** Through the face's frame onto the flat; in plain numbers, as every corner of every mark comes this way. */
const placeOnFlat = (frame: Frame, { origin, u, v }: FlatPlacement, point: Vec3): Vec2 => {
  const [dx, dy, dz] = [point[0] - frame.origin[0], point[1] - frame.origin[1], point[2] - frame.origin[2]];
  const x = dx * frame.u[0] + dy * frame.u[1] + dz * frame.u[2];
  const y = dx * frame.v[0] + dy * frame.v[1] + dz * frame.v[2];
  return [origin[0] + (u[0] * x + v[0] * y), origin[1] + (u[1] * x + v[1] * y)];
};
