import { lineMeeting } from '../../geometry/polygon.js';
import { addScaled2, distance2, dot2, left2, subtract2, unit2, type Vec2 } from '../../geometry/vec.js';
import type { Face, Shape } from '../../shape/shape.js';
import { ROUND_OFF, SAME_DIRECTION, SAME_POINT } from '../../geometry/tolerance.js';
import { isBent, radiusOf, SHALLOW_TURN, turnBetween, type FaceSide } from './face-sides.js';
import type { ContourVertex } from '../../geometry/contour.js';
import type { Metal } from './metal.js';
import { followBend } from './profile-arc.js';

/** What the meeting of two sides leaves: the end of the one, vertices between, the start of the other. */
export interface Junction {
  readonly end: Vec2;
  readonly between: readonly ContourVertex[];
  readonly start: Vec2;
  readonly relief: { readonly width: number; readonly depth: number } | undefined;
}

/**
 * How two sides of a face that follow one another meet, in the face's frame. Over a shallow corner, cut line and tangent line
 * would meet far from the sharp corner and leave a sliver between them; there they meet as within one edge.
 * Relief where a bend ends in the metal: at a corner of two bends a notch of (R + T) / 2, where a bend ends within an edge a
 * slot one thickness wide (or the shop's narrowest cut, if wider) and R + T deep (at least to the tangent line). Common practice, no source.
 */
export const junctionOf = (shape: Shape, face: Face, metal: Metal, side: FaceSide, next: FaceSide): Junction => {
  const junction = rawJunction(shape, face, metal, side, next);
  return { ...junction, between: withoutRepeats(junction, side, next) };
};

const rawJunction = (shape: Shape, face: Face, metal: Metal, side: FaceSide, next: FaceSide): Junction => {
  const turn = turnBetween(side, next);
  const a = insetPoint(side, side.to);
  const b = insetPoint(next, next.from);
  const corner = lineMeeting(a, addScaled2(a, side.along, 1), b, addScaled2(b, next.along, 1));
  const isShallow = Math.abs(turn) < SHALLOW_TURN;
  if (isShallow && !isPlainCorner(side, next, turn, corner)) return runOn(shape, metal, side, next);
  if (!corner) return step(a, b, side, next);
  if (isBent(side) && isBent(next)) return notch(shape, metal, [side, next], corner, turn);
  if (isBent(side) !== isBent(next) && turn < 0) return innerCorner(shape, metal, side, next, corner);
  const rounded = followBend(shape, face, side, next, corner);
  if (rounded) {
    const [first, last] = [rounded[0], rounded[rounded.length - 1]];
    return { end: [first.x, first.y], between: rounded, start: [last.x, last.y], relief: undefined };
  }
  const between = isBent(side) || isBent(next) ? [] : [vertexAt(corner)];
  return { end: corner, between, start: corner, relief: undefined };
};

/**
 * A shallow corner of two cut lines that meet beside the sharp corner: equally far from their edges, or both cut back over a
 * ridge where they stand for one plane.
 */
const isPlainCorner = (side: FaceSide, next: FaceSide, turn: number, corner: Vec2 | undefined): boolean => {
  if (isBent(side) || isBent(next) || Math.abs(turn) <= SAME_DIRECTION) return false;
  if (Math.abs(side.inset - next.inset) <= SAME_POINT) return true;
  const [least, most] = [Math.min(side.inset, next.inset), Math.max(side.inset, next.inset)];
  return least > SAME_POINT && corner !== undefined && distance2(corner, side.to) <= 2 * most;
};

/** Both sides run on in one line, or nearly so: within an edge, or over a shallow corner. */
const runOn = (shape: Shape, metal: Metal, side: FaceSide, next: FaceSide): Junction => {
  const isSlotted = isBent(side) || isBent(next);
  const isCut = !side.isCutBack && !next.isCutBack;
  if (isSlotted && isCut) return slot(shape, metal, side, next);
  const joined = step(insetPoint(side, side.to), insetPoint(next, next.from), side, next);
  return isSlotted ? { ...joined, relief: cutBackRelief(side.isCutBack ? side : next) } : joined;
};

const cutBackRelief = (side: FaceSide): Junction['relief'] => ({
  width: distance2(side.from, side.to),
  depth: side.inset,
});

/** From the one cut line straight over to the other. */
const step = (a: Vec2, b: Vec2, side: FaceSide, next: FaceSide): Junction => ({
  end: a,
  between: [...(isBent(side) ? [] : [vertexAt(a)]), ...(isBent(next) ? [] : [vertexAt(b)])],
  start: b,
  relief: undefined,
});

/** A slot square to the bend, one cut wide: in the free part beside a bend that ends, or half in each of two bends. */
const slot = (shape: Shape, metal: Metal, side: FaceSide, next: FaceSide): Junction => {
  const bent = [side, next].filter(isBent);
  const depth = Math.max(...bent.map((s) => Math.max(s.inset, radiusOf(shape, s) + metal.thickness)));
  const missing = Math.max(0, metal.cut - distance2(side.to, next.from));
  const isBetweenBends = bent.length === 2;
  const wider = isBetweenBends
    ? missing / 2 + splayOf(side, next, { missing, depth, least: LEAST_BOTTOM * metal.cut })
    : 0;
  const back = isBetweenBends ? wider : isBent(side) ? 0 : metal.cut;
  const on = isBetweenBends ? wider : metal.cut - back;
  const first = slotWall(side, isBent(side) ? side : next, side.to, -back, depth);
  const last = slotWall(next, isBent(next) ? next : side, next.from, on, depth);
  const walls = [first.mouth, first.bottom, last.bottom, last.mouth].slice(isBent(side) ? 1 : 0, isBent(next) ? 3 : 4);
  const width = Math.max(metal.cut, distance2(side.to, next.from));
  return { end: first.mouth, between: walls.map(vertexAt), start: last.mouth, relief: { width, depth } };
};

/** Of a cut: width that the bottom of a slot keeps where its walls lean to one another over a corner. Common practice, no source. */
const LEAST_BOTTOM = 0.1;

/** How much farther apart the walls of a slot over a corner begin at either bend, so that they do not meet before its bottom. */
const splayOf = (
  side: FaceSide,
  next: FaceSide,
  { missing, depth, least }: { readonly missing: number; readonly depth: number; readonly least: number },
): number => {
  const bottoms = [
    slotWall(side, side, side.to, -missing / 2, depth),
    slotWall(next, next, next.from, missing / 2, depth),
  ];
  const [{ bottom: first }, { bottom: last }] = bottoms;
  const across = unit2([side.along[0] + next.along[0], side.along[1] + next.along[1]]);
  const between = dot2(subtract2(last, first), across);
  return Math.max(0, (least - between) / 2 / dot2(side.along, across));
};

/** One wall of a slot: square to the bent side `bent`, from the cut line of `side` down to `depth` below the sharp edge. */
const slotWall = (
  side: FaceSide,
  bent: FaceSide,
  at: Vec2,
  shift: number,
  depth: number,
): { mouth: Vec2; bottom: Vec2 } => {
  const inward = left2(bent.along);
  const foot = addScaled2(at, bent.along, shift);
  const onCut = insetPoint(side, side.from);
  const mouth = lineMeeting(foot, addScaled2(foot, inward, 1), onCut, addScaled2(onCut, side.along, 1));
  return { mouth: mouth ?? foot, bottom: addScaled2(foot, inward, depth) };
};

/** Two bends meet in a corner: their zones need room. One that ends before the corner keeps its end. */
const notch = (
  shape: Shape,
  metal: Metal,
  [side, next]: readonly [FaceSide, FaceSide],
  corner: Vec2,
  turn: number,
): Junction => {
  const size = (Math.max(radiusOf(shape, side), radiusOf(shape, next)) + metal.thickness) / 2;
  const back = Math.max(size, dot2(subtract2(corner, side.to), side.along));
  const on = Math.max(size, dot2(subtract2(next.from, corner), next.along));
  const end = addScaled2(corner, side.along, -back);
  const start = addScaled2(corner, next.along, on);
  // Reflex: there is no metal outside of the tangent lines to cut away; the zones just stop short of one another.
  const between = turn > 0 ? addScaled2(end, next.along, on) : corner;
  const relief = { width: Math.max(back, on), depth: Math.max(side.inset, next.inset) + size };
  return { end, between: [vertexAt(between)], start, relief };
};

/** A bend ends where the panel turns in: the cut along the free edge goes on past the tangent line. */
const innerCorner = (shape: Shape, metal: Metal, side: FaceSide, next: FaceSide, corner: Vec2): Junction => {
  const bent = isBent(side) ? side : next;
  const width = metal.cut;
  const deeper = Math.max(width, radiusOf(shape, bent) + metal.thickness - bent.inset);
  const relief = { width, depth: bent.inset + deeper };
  if (bent === next) {
    const bottom = addScaled2(corner, side.along, deeper);
    const start = addScaled2(corner, next.along, width);
    const far = addScaled2(bottom, next.along, width);
    return { end: bottom, between: [vertexAt(bottom), vertexAt(far)], start, relief };
  }
  const end = addScaled2(corner, side.along, -width);
  const bottom = addScaled2(corner, next.along, -deeper);
  const far = addScaled2(bottom, side.along, -width);
  return { end, between: [vertexAt(far), vertexAt(bottom)], start: bottom, relief };
};

const vertexAt = ([x, y]: Vec2): ContourVertex => ({ x, y, bulge: 0 });

const insetPoint = (side: FaceSide, point: Vec2): Vec2 => addScaled2(point, left2(side.along), side.inset);

/** A vertex where a tangent line ends already would leave an edge without length. */
const withoutRepeats = (
  { end, between, start }: Junction,
  side: FaceSide,
  next: FaceSide,
): readonly ContourVertex[] => {
  const isAt = (vertex: ContourVertex, point: Vec2): boolean => distance2([vertex.x, vertex.y], point) <= ROUND_OFF;
  return between.filter((vertex, i) => {
    if (vertex.bulge !== 0) return true;
    if ((isBent(side) && isAt(vertex, end)) || (isBent(next) && isAt(vertex, start))) return false;
    return i === 0 || !isAt(vertex, [between[i - 1].x, between[i - 1].y]);
  });
};
