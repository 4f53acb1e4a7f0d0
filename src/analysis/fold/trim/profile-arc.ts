import { arcsAlong } from '../../geometry/arcs-along.js';
import { toPlane, toSpace } from '../../geometry/frame.js';
import { add, addScaled, cross, dot, scale, subtract, unit, type Vec2, type Vec3 } from '../../geometry/vec.js';
import { addScaled2, cross2, distance2, dot2, left2, unit2 } from '../../geometry/vec.js';
import { pointToSegment } from '../../geometry/gap-between.js';
import { facesAlong } from '../../shape/feet.js';
import type { Bend, Face, Shape, Stretch } from '../../shape/shape.js';
import { OFF_PLANE, SECTION_ERROR } from '../../model/tolerance.js';
import { SAME_DIRECTION, SAME_POINT } from '../../geometry/tolerance.js';
import type { ContourVertex } from '../../geometry/contour.js';
import type { FaceSide } from './face-sides.js';

/** Below this cosine between bend line and face the section runs too far along the bend to be cut as a corner. */
export const LEAST_COSINE = 0.2;
/** Arcs for one section: enough for radii of 10 mm at 45 deg and 120 deg of turn. */
export const MOST_ARCS = 8;

/**
 * Rounds the corner of a face where it closes a bend of its neighbour: a sharp corner there would leave a hole (ridge) or
 * stand in the metal (valley). `corner` is where the two cut lines meet, in the face's frame; vertices come back from the
 * first tangent point to the last. Undefined: the corner stays sharp.
 */
export const followBend = (
  shape: Shape,
  face: Face,
  before: FaceSide,
  after: FaceSide,
  corner: Vec2,
): readonly ContourVertex[] | undefined => {
  if (before.join.kind !== 'free' || after.join.kind !== 'free') return undefined;
  // Cut back beside both legs: over a ridge, where the dry edges meet; in a trough, where the legs run on below this panel.
  const isSetBack = Math.min(before.inset, after.inset) > SAME_POINT;
  if (!isSetBack && Math.abs(before.inset - after.inset) > SAME_POINT) return undefined;
  const bend = bendBetween(shape, before, after);
  if (!bend) return undefined;
  const [wetRadius, dryRadius] = radiiOf(bend);
  const cosine = Math.abs(dot(alongOf(bend), face.frame.normal));
  if (cosine < LEAST_COSINE) return undefined;
  if (isSetBack && cosine <= 1 - SAME_DIRECTION) {
    const radius = isRisingFrom(shape, face, before) ? wetRadius : dryRadius;
    return radius <= SAME_POINT
      ? undefined
      : obliqueSection(shape, face, bend, [before, after], {
          radius,
          sharp: toSpace(face.frame, corner),
          offset: 0,
        });
  }
  const turn = Math.atan2(cross2(before.along, after.along), dot2(before.along, after.along));
  // An inset below 0 runs on past the wet edge: around a valley the radius grows by as much, over a ridge it shrinks.
  const radius = wetRadius - (turn > 0 ? before.inset : -before.inset);
  if (radius <= SAME_POINT) return undefined;
  if (cosine > 1 - SAME_DIRECTION) return roundCorner(corner, before.along, after.along, turn, radius);
  const section = { radius: wetRadius, sharp: before.last.end, offset: before.inset };
  return obliqueSection(shape, face, bend, [before, after], section);
};

const alongOf = ({ start, end }: Bend): Vec3 => unit(subtract(end, start));

/** Does the face rise from the wet side of the panel along this side of it? */
const isRisingFrom = (shape: Shape, face: Face, { along, last }: FaceSide): boolean => {
  const [x, y] = left2(along);
  const inward = add(scale(face.frame.u, x), scale(face.frame.v, y));
  return facesAlong(last).some((other) => dot(shape.faces[other].frame.normal, inward) > SAME_DIRECTION);
};

/** Of the wet skin and of the dry. */
const radiiOf = ({ wet, radius, thickness }: Bend): readonly [number, number] =>
  wet === 'inside' ? [radius, radius + thickness] : [radius + thickness, radius];

/** The bend whose end stands in the corner: on the neighbour's edge before or after the one that this face lies along. */
const bendBetween = (shape: Shape, before: FaceSide, after: FaceSide): Bend | undefined => {
  for (const { face, edge } of before.last.mates) {
    const { stretches } = shape.faces[face];
    const beside = [edge + 1, edge + stretches.length - 1].flatMap((e) => stretches[e % stretches.length]);
    for (const stretch of beside) {
      const bend = stretch.bend === undefined ? undefined : shape.bends[stretch.bend];
      if (bend && after.first.mates.some((mate) => bend.faces.includes(mate.face) && mate.face !== face)) return bend;
    }
  }
  return bendUnderfoot(shape, before.last, after.first);
};

/** The bend over which the face goes on from standing on one panel to standing on the next. */
const bendUnderfoot = (shape: Shape, before: Stretch, after: Stretch): Bend | undefined => {
  for (const { face, skin } of before.feet ?? []) {
    if (skin === 'dry') continue;
    const onto = (after.feet ?? []).filter((foot) => foot.face !== face && foot.skin === 'wet');
    for (const { bend: index } of onto.length > 0 ? shape.faces[face].stretches.flat() : []) {
      const bend = index === undefined ? undefined : shape.bends[index];
      if (!bend || !onto.some((foot) => bend.faces.includes(foot.face))) continue;
      if (pointToSegment(before.end, bend.start, bend.end) <= OFF_PLANE) return bend;
    }
  }
  return undefined;
};

const roundCorner = (corner: Vec2, before: Vec2, after: Vec2, turn: number, radius: number): ContourVertex[] => {
  const reach = radius * Math.tan(Math.abs(turn) / 2);
  const [x0, y0] = addScaled2(corner, before, -reach);
  const [x1, y1] = addScaled2(corner, after, reach);
  return [
    { x: x0, y: y0, bulge: Math.tan(turn / 4) },
    { x: x1, y: y1, bulge: 0 },
  ];
};

interface Section {
  /** Of the skin that is cut, and where its two planes and the face's would meet in a corner. */
  readonly radius: number;
  readonly sharp: Vec3;
  /** From the section inward to the cut. */
  readonly offset: number;
}

/** A skin of the bend cut by the face's plane: an ellipse, as a run of arcs. */
const obliqueSection = (
  shape: Shape,
  face: Face,
  bend: Bend,
  [before, after]: readonly [FaceSide, FaceSide],
  { radius, sharp, offset }: Section,
): readonly ContourVertex[] | undefined => {
  const first = facesAlong(before.last).find((other) => bend.faces.includes(other));
  const second = facesAlong(after.first).find((other) => bend.faces.includes(other));
  if (first === undefined || second === undefined) return undefined;
  const normals = [first, second].map((other) => shape.faces[other].frame.normal);
  const sign = bend.wet === 'inside' ? 1 : -1;
  const [p, q] = normals;
  const center = scale(add(p, q), (sign * radius) / (1 + dot(p, q)));
  const along = alongOf(bend);
  const slope = dot(along, face.frame.normal);
  const inPlane = (vector: Vec3): Vec3 => addScaled(vector, along, -dot(vector, face.frame.normal) / slope);
  const sideways = unit(cross(cross(p, q), p));
  const at = (share: number): Vec2 => {
    const turn = share * bend.angle;
    const normal = addScaled(scale(p, Math.cos(turn)), sideways, Math.sin(turn));
    const onward = addScaled(scale(sideways, Math.cos(turn)), p, -Math.sin(turn));
    const point = toPlane(face.frame, add(sharp, inPlane(addScaled(center, normal, -sign * radius))));
    const tip = toPlane(face.frame, addScaled(face.frame.origin, inPlane(onward), -sign));
    return addScaled2(point, left2(unit2(tip)), offset);
  };
  return distance2(at(0), at(1)) <= SAME_POINT ? undefined : arcsAlong(at, SECTION_ERROR, MOST_ARCS);
};
