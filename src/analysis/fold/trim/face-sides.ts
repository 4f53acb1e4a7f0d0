import { toPlane } from '../../geometry/frame.js';
import {
  angleBetween,
  cross,
  cross2,
  distance2,
  dot,
  dot2,
  subtract,
  subtract2,
  unit,
  unit2,
  type Vec2,
  type Vec3,
} from '../../geometry/vec.js';
import type { Tub } from '../../model/tub.js';
import type { Face, Shape, Stretch } from '../../shape/shape.js';
import { SAME_POINT } from '../../geometry/tolerance.js';
import { hemOf, type HemSize } from './hem.js';
import { runOnAtFace, runOnAtSeam } from './seam-edge.js';
import { skinNormal } from '../../shape/feet.js';

/** A run of one edge that is treated alike: left free, bent, or hemmed. */
export interface FaceSide {
  readonly edge: number;
  readonly from: Vec2;
  readonly to: Vec2;
  readonly along: Vec2;
  /** How far the cut (or tangent line) lies inside the sharp edge; negative: the sheet runs on past it. */
  readonly inset: number;
  /** A free end too short to stand beside a relief: cut away with it, down to `inset`. */
  readonly isCutBack: boolean;
  readonly join: SideJoin;
  readonly first: Stretch;
  readonly last: Stretch;
}

export type SideJoin =
  | { readonly kind: 'free' }
  | { readonly kind: 'bend'; readonly bend: number }
  | { readonly kind: 'hem'; readonly rim: number; readonly size: HemSize };

/**
 * The sides of a face, counter-clockwise, in its own frame. Neighbouring stretches of an edge that are treated alike are one,
 * and so is a bend that runs over a corner of 180 deg.
 */
export const sidesOf = (tub: Tub, shape: Shape, face: Face): readonly FaceSide[] => {
  const sides: FaceSide[] = [];
  face.stretches.forEach((stretches, edge) => {
    for (const stretch of stretches) {
      const side = sideOfStretch(tub, shape, face, edge, stretch);
      const before = sides[sides.length - 1];
      if (before && isOne(before, side)) sides[sides.length - 1] = { ...before, to: side.to, last: stretch };
      else sides.push(side);
    }
  });
  const [first, last] = [sides[0], sides[sides.length - 1]];
  if (sides.length < 2 || !isSameBend(first, last)) return sides;
  return [{ ...last, to: first.to, last: first.last }, ...sides.slice(1, -1)];
};

const sideOfStretch = (tub: Tub, shape: Shape, face: Face, edge: number, stretch: Stretch): FaceSide => {
  const join = joinOf(tub, face, stretch);
  const corners = face.outline;
  // The whole edge's direction, not the stretch's own: a short stretch would round off worse.
  const line: readonly [Vec2, Vec2] = [corners[edge], corners[(edge + 1) % corners.length]];
  const ends: readonly [Vec2, Vec2] = [toPlane(face.frame, stretch.start), toPlane(face.frame, stretch.end)];
  const bentLine = join.kind === 'bend' ? lineOfBend(shape, face, join.bend) : undefined;
  const [start, end] = bentLine ?? line;
  const [from, to] = bentLine ?? ends;
  return {
    edge,
    from,
    to,
    along: unit2(subtract2(end, start)),
    join,
    inset: insetOf(tub, shape, face, stretch, join),
    isCutBack: false,
    first: stretch,
    last: stretch,
  };
};

/** Both faces take the line of the bend, not their own edges, which may differ from it by a rounded coordinate. */
const lineOfBend = (shape: Shape, face: Face, index: number): readonly [Vec2, Vec2] => {
  const { faces, start, end } = shape.bends[index];
  const [first, last] = [start, end].map((point) => toPlane(face.frame, point));
  return faces[0] === face.panel ? [first, last] : [last, first];
};

const joinOf = (tub: Tub, face: Face, stretch: Stretch): SideJoin => {
  if (stretch.bend !== undefined) return { kind: 'bend', bend: stretch.bend };
  const hem = stretch.rim === undefined ? undefined : tub.rims[stretch.rim].hem;
  if (stretch.rim === undefined || !hem) return { kind: 'free' };
  const { sheet, cutK } = tub.panels[face.panel];
  return { kind: 'hem', rim: stretch.rim, size: hemOf(hem, tub.sheets[sheet], cutK) };
};

const insetOf = (tub: Tub, shape: Shape, face: Face, stretch: Stretch, join: SideJoin): number => {
  if (join.kind === 'bend') return shape.bends[join.bend].setback;
  if (join.kind === 'hem') return join.size.inset;
  return -runOnOf(tub, shape, face, stretch);
};

/** How far a seam makes this face run on past its wet edge. */
const runOnOf = (tub: Tub, shape: Shape, face: Face, stretch: Stretch): number => {
  const seam = tub.seams[stretch.seams[0]];
  const members = seam?.members.map(({ panels }) => panels);
  const which = members?.findIndex((panels) => panels.includes(face.panel));
  if (!seam || (which !== 0 && which !== 1)) return 0;
  const isPartner = ({ face: other }: { readonly face: number }): boolean => members[1 - which].includes(other);
  const thicknessOf = (f: Face): number => tub.sheets[tub.panels[f.panel].sheet].thickness;
  const foot = stretch.feet?.find(isPartner);
  if (foot) return runOnAtFace(thicknessOf(face), cornerBetween(face, skinNormal(shape, foot), stretch));
  const mate = stretch.mates.find(isPartner);
  if (!mate) return 0;
  const other = shape.faces[mate.face];
  return runOnAtSeam(seam, {
    own: thicknessOf(face),
    other: thicknessOf(other),
    member: which,
    corner: cornerBetween(face, other.frame.normal, stretch),
  });
};

/** Angle between the skins of two faces that share a stretch, through the liquid, 0..2 pi. */
const cornerBetween = (face: Face, otherNormal: Vec3, { start, end }: Stretch): number => {
  const along = unit(subtract(end, start));
  const inward = cross(along, otherNormal);
  const turn = angleBetween(face.frame.normal, otherNormal);
  return dot(inward, face.frame.normal) >= 0 ? Math.PI - turn : Math.PI + turn;
};

const isOne = (a: FaceSide, b: FaceSide): boolean =>
  isSameBend(a, b) ||
  (a.edge === b.edge &&
    a.join.kind === b.join.kind &&
    a.join.kind !== 'bend' &&
    Math.abs(a.inset - b.inset) <= SAME_POINT);

const isSameBend = (a: FaceSide, b: FaceSide): boolean =>
  a.join.kind === 'bend' && b.join.kind === 'bend' && a.join.bend === b.join.bend;

/** Corners that turn less than this count as a point within one edge. */
export const SHALLOW_TURN = Math.PI / 6;

/** rad; positive: to the left, as at every corner of a convex face. */
export const turnBetween = (side: FaceSide, next: FaceSide): number =>
  Math.atan2(cross2(side.along, next.along), dot2(side.along, next.along));

/** Has it a tangent line instead of a cut? */
export const isBent = (side: FaceSide): boolean => side.join.kind !== 'free';

/** Inside radius of the side's bend; 0 where it is free. */
export const radiusOf = (shape: Shape, { join }: FaceSide): number => {
  if (join.kind === 'bend') return shape.bends[join.bend].radius;
  return join.kind === 'hem' ? join.size.radius : 0;
};

/** Length of a side on the sharp edge, mm. */
export const lengthOfSide = (side: FaceSide): number => distance2(side.from, side.to);
