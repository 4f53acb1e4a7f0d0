import { heightOver, toPlane, type Frame } from '../geometry/frame.js';
import type { Lean } from '../geometry/lean.js';
import { levelAxes } from '../geometry/level-axes.js';
import { distanceToSegment, isInside } from '../geometry/polygon.js';
import { addScaled, dot, subtract, type Vec2, type Vec3 } from '../geometry/vec.js';
import { roleOf } from '../model/around/roles.js';
import type { Opening, Tub } from '../model/tub.js';
import { OFF_PLANE } from '../model/tolerance.js';
import { SAME_POINT } from '../geometry/tolerance.js';
import { placeNotch, type PlacedNotch } from './place-notch.js';
import type { Face, FaceOpening, ShapeFault } from './shape.js';

/** Puts the tub's openings onto its faces: per face, its openings in text order. Faults: off the plane, over the edge. */
export const placeOpenings = (
  tub: Tub,
  faces: readonly Face[],
): { readonly onFace: readonly (readonly FaceOpening[])[]; readonly faults: readonly ShapeFault[] } => {
  const onFace: FaceOpening[][] = faces.map(() => []);
  const faults: ShapeFault[] = [];
  tub.openings.forEach((opening, index) => {
    const face = faces[opening.panel];
    if (!face?.usable) return;
    const off = Math.max(...pointsOf(opening).map((point) => Math.abs(heightOver(face.frame, point))));
    if (off > OFF_PLANE) faults.push({ kind: 'opening-off-plane', opening: index, off });
    const lean = roleOf(tub, opening.panel) === 'existing' ? undefined : tub.stands;
    const { edge, fault, ...shape } = placedOn(face, opening, lean);
    if (fault) faults.push({ kind: 'notch-off-edge', opening: index, fault });
    const placed: FaceOpening = {
      opening: index,
      use: opening.use,
      shape: opening.fastener?.hex && shape.shape.kind === 'round' ? { ...shape.shape, hex: true } : shape.shape,
      ...(edge === undefined ? undefined : { edge }),
    };
    onFace[opening.panel].push(placed);
    const over = reachBeyond(placed.shape, face.outline);
    if (over > SAME_POINT) faults.push({ kind: 'opening-outside', opening: index, over });
  });
  return { onFace, faults };
};

const pointsOf = ({ shape }: Opening): readonly Vec3[] => {
  if (shape.kind === 'vee') return [shape.tip];
  return shape.kind === 'window' || shape.kind === 'notch' ? [shape.from, shape.to] : [shape.center];
};

const placedOn = (
  face: Face,
  { shape }: Opening,
  lean: Lean | undefined,
): Pick<FaceOpening, 'shape'> & Partial<Pick<PlacedNotch, 'edge' | 'fault'>> => {
  if (shape.kind !== 'notch' && shape.kind !== 'vee') return { shape: shapeOn(face.frame, shape, lean) };
  const { corners, edge, fault } = placeNotch(face, shape, lean);
  return { shape: { kind: 'polygon', corners }, edge, fault };
};

type Closed = Exclude<Opening['shape'], { kind: 'notch' | 'vee' }>;

const shapeOn = (frame: Frame, shape: Closed, lean: Lean | undefined): FaceOpening['shape'] => {
  const { level, upright } = levelAxes(frame.normal, lean);
  if (shape.kind === 'round')
    return { kind: 'round', center: toPlane(frame, shape.center), radius: shape.diameter / 2 };
  if (shape.kind === 'slot') {
    const along = shape.along === 'upright' ? upright : level;
    const half = Math.max(0, (shape.length - shape.width) / 2);
    return {
      kind: 'slot',
      from: toPlane(frame, addScaled(shape.center, along, -half)),
      to: toPlane(frame, addScaled(shape.center, along, half)),
      radius: shape.width / 2,
    };
  }
  const diagonal = subtract(shape.to, shape.from);
  const wide = dot(diagonal, level);
  const high = dot(diagonal, upright);
  const corners = [
    shape.from,
    addScaled(shape.from, level, wide),
    addScaled(addScaled(shape.from, level, wide), upright, high),
    addScaled(shape.from, upright, high),
  ].map((corner) => toPlane(frame, corner));
  return { kind: 'polygon', corners };
};

/** How far an opening reaches over an outline in the face's frame, mm; 0 or less: it is inside. */
export const reachBeyond = (shape: FaceOpening['shape'], outline: readonly Vec2[]): number => {
  if (shape.kind === 'round') return outsideOf(outline, shape.center) + shape.radius;
  if (shape.kind === 'slot') return reachOfSlot(shape, outline);
  const corners = shape.corners.map((corner) => outsideOf(outline, corner));
  // A notch may reach into a window between its corners.
  const notches = outline.filter((p) => isInside(p, shape.corners)).map((p) => -outsideOf(shape.corners, p));
  return Math.max(...corners, ...notches);
};

/** Distance of a point from the outline: positive outside, negative inside. */
const outsideOf = (outline: readonly Vec2[], point: Vec2): number => {
  let nearest = Infinity;
  for (let i = 0; i < outline.length; i++) {
    nearest = Math.min(nearest, distanceToSegment(point, outline[i], outline[(i + 1) % outline.length]));
  }
  return isInside(point, outline) ? -nearest : nearest;
};

const reachOfSlot = (
  { from, to, radius }: Extract<FaceOpening['shape'], { kind: 'slot' }>,
  outline: readonly Vec2[],
): number => {
  const ends = Math.max(outsideOf(outline, from), outsideOf(outline, to));
  // A notch may reach in between the ends.
  const notches = outline.map((corner) => -distanceToSegment(corner, from, to));
  return Math.max(ends, ...notches) + radius;
};
