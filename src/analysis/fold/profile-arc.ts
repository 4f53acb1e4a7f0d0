import { bulgeOver } from '../geometry/contour.js';
import { toPlane } from '../geometry/frame.js';
import { add, addScaled, cross, dot, scale, subtract, unit, type Vec2, type Vec3 } from '../geometry/vec.js';
import { addScaled2, cross2, dot2, left2, unit2 } from '../geometry/vec.js';
import type { Bend, Face, Shape } from '../shape/shape.js';
import { SAME_DIRECTION, SAME_POINT } from '../tolerance.js';
import type { ContourVertex } from './flat-pattern.js';
import type { Side } from './face-sides.js';

/** Below this cosine between bend line and face the section runs too far along the bend to be cut as a corner. */
export const LEAST_COSINE = 0.2;
/** Arcs that stand for the ellipse of an oblique section; 8 stay within 0.002 mm for radii up to 10 mm at 45 deg. */
const ELLIPSE_PIECES = 8;

/**
 * Rounds the corner of a face where it closes a bend of its neighbour: a sharp corner there would leave a hole (ridge) or
 * stand in the metal (valley). `corner` is where the two cut lines meet, in the face's frame; vertices come back from the
 * first tangent point to the last. Undefined: the corner stays sharp.
 */
export const followBend = (
  shape: Shape,
  face: Face,
  before: Side,
  after: Side,
  corner: Vec2,
): ContourVertex[] | undefined => {
  if (before.join.kind !== 'free' || after.join.kind !== 'free') return undefined;
  if (Math.abs(before.inset - after.inset) > SAME_POINT) return undefined;
  const bend = bendBetween(shape, before, after);
  if (!bend) return undefined;
  const wetRadius = bend.wet === 'inside' ? bend.radius : bend.radius + bend.thickness;
  const along = unit(subtract(bend.end, bend.start));
  const cosine = Math.abs(dot(along, face.frame.normal));
  if (cosine < LEAST_COSINE) return undefined;
  const turn = Math.atan2(cross2(before.along, after.along), dot2(before.along, after.along));
  // An inset below 0 runs on past the wet edge: around a valley the radius grows by as much, over a ridge it shrinks.
  const radius = wetRadius - (turn > 0 ? before.inset : -before.inset);
  if (radius <= SAME_POINT) return undefined;
  if (cosine > 1 - SAME_DIRECTION) return roundCorner(corner, before.along, after.along, turn, radius);
  return obliqueSection(shape, face, bend, before, after, along);
};

/** The bend whose end stands in the corner: on the neighbour's edge before or after the one that this face lies along. */
const bendBetween = (shape: Shape, before: Side, after: Side): Bend | undefined => {
  for (const { face, edge } of before.last.mates) {
    const { stretches } = shape.faces[face];
    const beside = [edge + 1, edge + stretches.length - 1].flatMap((e) => stretches[e % stretches.length]);
    for (const stretch of beside) {
      const bend = stretch.bend === undefined ? undefined : shape.bends[stretch.bend];
      if (bend && after.first.mates.some((mate) => bend.faces.includes(mate.face) && mate.face !== face)) return bend;
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

/** The bend's wet cylinder cut by the face's plane: an ellipse, set off by the sides' inset, as a run of arcs. */
const obliqueSection = (
  shape: Shape,
  face: Face,
  bend: Bend,
  before: Side,
  after: Side,
  along: Vec3,
): ContourVertex[] | undefined => {
  const first = before.last.mates.find((mate) => bend.faces.includes(mate.face));
  const second = after.first.mates.find((mate) => bend.faces.includes(mate.face));
  if (!first || !second) return undefined;
  const normals = [first, second].map((mate) => shape.faces[mate.face].frame.normal);
  const inside = bend.wet === 'inside';
  const radius = inside ? bend.radius : bend.radius + bend.thickness;
  const sign = inside ? 1 : -1;
  const [p, q] = normals;
  const center = scale(add(p, q), (sign * radius) / (1 + dot(p, q)));
  const sharp = before.last.end;
  const slope = dot(along, face.frame.normal);
  const inPlane = (vector: Vec3): Vec3 => addScaled(vector, along, -dot(vector, face.frame.normal) / slope);
  const sideways = unit(cross(cross(p, q), p));
  const at = (share: number): Vec2 => {
    const turn = share * bend.angle;
    const normal = addScaled(scale(p, Math.cos(turn)), sideways, Math.sin(turn));
    const onward = addScaled(scale(sideways, Math.cos(turn)), p, -Math.sin(turn));
    const point = toPlane(face.frame, add(sharp, inPlane(addScaled(center, normal, -sign * radius))));
    const tip = toPlane(face.frame, addScaled(face.frame.origin, inPlane(onward), -sign));
    return addScaled2(point, left2(unit2(tip)), before.inset);
  };
  return Array.from({ length: ELLIPSE_PIECES + 1 }, (_, i): ContourVertex => {
    const [x, y] = at(i / ELLIPSE_PIECES);
    if (i === ELLIPSE_PIECES) return { x, y, bulge: 0 };
    return { x, y, bulge: bulgeOver([x, y], at((i + 0.5) / ELLIPSE_PIECES), at((i + 1) / ELLIPSE_PIECES)) };
  });
};
