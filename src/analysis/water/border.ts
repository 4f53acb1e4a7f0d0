import { heightOver, toPlane } from '../geometry/frame.js';
import { distanceToSegment, isInside } from '../geometry/polygon.js';
import { lerp, type Vec3 } from '../geometry/vec.js';
import type { Hem, Tub } from '../model.js';
import type { Face, Shape, Stretch } from '../shape/shape.js';
import { indexFaces, type FaceIndexBox } from './face-index.js';

/**
 * mm. An edge that runs this near to another face without meeting it is taken as meant to be closed: the water figures
 * then show the tub as intended, and the watertightness checks report the gap. About three sheet thicknesses; common
 * practice, no source.
 */
export const NEAR_MISS = 3;

/** What ends the sheet along an edge. */
export interface Border {
  readonly stretch: Stretch;
  /** `free`: water that gets there leaves. `shut`: a gap that is meant to be closed. */
  readonly kind: 'free' | 'shut';
  /** Height of a hem that stands up on the wet face, mm along z; water has to rise over it. */
  readonly dam: number;
}

/** Tells the border along a stretch; undefined where another face meets it. */
export const borderFinder = (tub: Tub, shape: Shape): ((stretch: Stretch) => Border | undefined) => {
  const index = indexFaces(shape.faces);
  return (stretch) => {
    if (stretch.mates.length > 0) return undefined;
    const hem = stretch.rim === undefined ? undefined : tub.rims[stretch.rim].hem;
    const face = shape.faces[stretch.face];
    const thickness = tub.sheets[tub.panels[stretch.face].sheet]?.thickness ?? 0;
    const shut = stretch.rim === undefined && isNearMiss(shape, index, stretch);
    return { stretch, kind: shut ? 'shut' : 'free', dam: hemHeight(hem, thickness) * Math.max(0, face.frame.normal[2]) };
  };
};

/** A hem turned to the wet side lies on it: its gap and its own thickness stand in the way. */
const hemHeight = (hem: Hem | undefined, thickness: number): number =>
  hem?.turned === 'wet' ? hem.gap + thickness : 0;

const isNearMiss = (shape: Shape, index: FaceIndexBox, { face, start, end }: Stretch): boolean => {
  const joined = new Set(shape.faces[face].stretches.flat().flatMap(({ mates }) => mates.map((mate) => mate.face)));
  const probes = [0.1, 0.5, 0.9].map((t) => lerp(start, end, t));
  return index
    .near(probes[1], NEAR_MISS)
    .some((other) => other !== face && !joined.has(other) && probes.every((p) => isNear(shape.faces[other], p)));
};

const isNear = (face: Face, point: Vec3): boolean => {
  if (Math.abs(heightOver(face.frame, point)) > NEAR_MISS) return false;
  const at = toPlane(face.frame, point);
  const { outline } = face;
  return (
    isInside(at, outline) ||
    outline.some((corner, i) => distanceToSegment(at, corner, outline[(i + 1) % outline.length]) <= NEAR_MISS)
  );
};
