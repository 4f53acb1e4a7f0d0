import { lineMeeting } from '../geometry/polygon.js';
import { addScaled2, cross2, dot2, left2, subtract2, type Vec2 } from '../geometry/vec.js';
import type { Tub } from '../model.js';
import type { Face, Shape } from '../shape/shape.js';
import { SAME_DIRECTION, SAME_POINT } from '../tolerance.js';
import { lengthOfSide, sidesOf, type Side } from './face-sides.js';
import type { ContourVertex } from './flat-pattern.js';
import type { HemSize } from './hem.js';
import { followBend } from './profile-arc.js';
import type { FlatFault, Relief } from './unfolded.js';
import { toSpace } from '../geometry/frame.js';

/** The flat region of one face in its own frame (wet view, counter-clockwise): plain vertices, and tangent lines. */
export type LoopItem =
  | { readonly kind: 'vertex'; readonly vertex: ContourVertex }
  | { readonly kind: 'bend'; readonly bend: number; readonly from: Vec2; readonly to: Vec2 }
  | HemItem;

export interface HemItem {
  readonly kind: 'hem';
  readonly rim: number;
  readonly size: HemSize;
  readonly from: Vec2;
  readonly to: Vec2;
  readonly along: Vec2;
  /** How much the lip narrows at each end for every mm outward, so that it lies within the panel once folded. */
  readonly taper: readonly [number, number];
}

export interface TrimmedFace {
  readonly items: readonly LoopItem[];
  readonly faults: readonly FlatFault[];
  readonly reliefs: readonly Relief[];
}

/** What a junction of two sides leaves: the end of the one, vertices between, the start of the other. */
interface Junction {
  readonly end: Vec2;
  readonly between: readonly ContourVertex[];
  readonly start: Vec2;
  readonly relief: { readonly width: number; readonly depth: number } | undefined;
}

/**
 * Cuts a face back to its tangent lines and out to its cut edges.
 * Relief where a bend ends in the metal: at a corner of two bends a notch of (R + T) / 2, beside a bend that ends within an
 * edge a slot one thickness wide and R + T deep (at least to the tangent line). Common practice, no source.
 */
export const trimFace = (tub: Tub, shape: Shape, face: Face): TrimmedFace => {
  const sides = sidesOf(tub, shape, face);
  const thickness = tub.sheets[tub.panels[face.panel].sheet].thickness;
  const n = sides.length;
  const junctions = sides.map((side, i) => junctionOf(shape, face, thickness, side, sides[(i + 1) % n]));
  const items: LoopItem[] = [];
  const faults: FlatFault[] = [];
  const reliefs: Relief[] = [];
  sides.forEach((side, i) => {
    const before = junctions[(i + n - 1) % n];
    const after = junctions[i];
    faults.push(...tooShort(face, sides, i, before.start, after.end));
    items.push(...itemsOf(side, sides[(i + n - 1) % n], sides[(i + 1) % n], before.start, after.end));
    items.push(...after.between.map((vertex): LoopItem => ({ kind: 'vertex', vertex })));
    if (after.relief) reliefs.push({ ...after.relief, ...placeOfRelief(face, side, sides[(i + 1) % n]) });
  });
  return { items, faults, reliefs };
};

const isBent = (side: Side): boolean => side.join.kind !== 'free';

const placeOfRelief = (face: Face, side: Side, next: Side): Pick<Relief, 'bend' | 'face' | 'point'> => {
  const bend = [next, side]
    .map(({ join }) => (join.kind === 'bend' ? join.bend : undefined))
    .find((b) => b !== undefined);
  return { bend, face: face.panel, point: toSpace(face.frame, side.to) };
};

const itemsOf = (side: Side, previous: Side, next: Side, from: Vec2, to: Vec2): LoopItem[] => {
  const { join, along } = side;
  if (join.kind === 'bend') return [{ kind: 'bend', bend: join.bend, from, to }];
  if (join.kind === 'free') return [];
  const taper = [taperAt(along, previous, -1), taperAt(along, next, 1)] as const;
  return [{ kind: 'hem', rim: join.rim, size: join.size, from, to, along, taper }];
};

/** `end` -1: at the start of the hem, beside `neighbour` before it; 1: at its end. */
const taperAt = (along: Vec2, neighbour: Side, end: 1 | -1): number => {
  const away: Vec2 = end === 1 ? neighbour.along : [-neighbour.along[0], -neighbour.along[1]];
  const inward = left2(along);
  let direction = away;
  // Two lips in one corner share it: each is mitred to the bisector.
  if (neighbour.join.kind === 'hem') direction = [away[0] - end * along[0], away[1] - end * along[1]];
  const rise = dot2(direction, inward);
  if (rise <= SAME_DIRECTION) return 0;
  return Math.max(0, (-end * dot2(direction, along)) / rise);
};

const insetPoint = (side: Side, point: Vec2): Vec2 => addScaled2(point, left2(side.along), side.inset);

const junctionOf = (shape: Shape, face: Face, thickness: number, side: Side, next: Side): Junction => {
  if (side.edge === next.edge && side !== next) return junctionOnEdge(shape, thickness, side, next);
  const a = insetPoint(side, side.to);
  const b = insetPoint(next, next.from);
  const corner = lineMeeting(a, addScaled2(a, side.along, 1), b, addScaled2(b, next.along, 1));
  if (!corner || Math.abs(cross2(side.along, next.along)) < SAME_DIRECTION) return straightThrough(a, b, side, next);
  const turn = cross2(side.along, next.along);
  if (isBent(side) && isBent(next)) return notch(shape, thickness, side, next, corner);
  if (isBent(side) !== isBent(next) && turn < 0) return innerCorner(shape, thickness, side, next, corner);
  const rounded = followBend(shape, face, side, next, corner);
  if (rounded) {
    const [first, last] = [rounded[0], rounded[rounded.length - 1]];
    return { end: [first.x, first.y], between: rounded, start: [last.x, last.y], relief: undefined };
  }
  const between = isBent(side) || isBent(next) ? [] : [{ x: corner[0], y: corner[1], bulge: 0 }];
  return { end: corner, between, start: corner, relief: undefined };
};

/** A corner of 180 deg: both lines run on as they are. */
const straightThrough = (a: Vec2, b: Vec2, side: Side, next: Side): Junction => {
  const between = [
    ...(isBent(side) ? [] : [{ x: a[0], y: a[1], bulge: 0 }]),
    ...(isBent(next) || (!isBent(side) && Math.abs(side.inset - next.inset) <= SAME_POINT)
      ? []
      : [{ x: b[0], y: b[1], bulge: 0 }]),
  ];
  return { end: a, between, start: b, relief: undefined };
};

/** Where the treatment changes within one edge: a bend that ends there gets a slot beside it, in the free part. */
const junctionOnEdge = (shape: Shape, thickness: number, side: Side, next: Side): Junction => {
  const a = insetPoint(side, side.to);
  const b = insetPoint(next, next.from);
  if (isBent(side) === isBent(next)) return straightThrough(a, b, side, next);
  const bent = isBent(side) ? side : next;
  const free = isBent(side) ? next : side;
  const width = thickness;
  const depth = Math.max(bent.inset, radiusOf(shape, bent) + thickness);
  const outwards = bent === side ? 1 : -1;
  const inward = left2(bent.along);
  const mouth = bent === side ? next.from : side.to;
  const far = addScaled2(mouth, bent.along, outwards * width);
  const corners = [
    addScaled2(mouth, inward, depth),
    addScaled2(far, inward, depth),
    addScaled2(far, inward, free.inset),
  ].map(([x, y]): ContourVertex => ({ x, y, bulge: 0 }));
  const relief = { width, depth };
  return bent === side
    ? { end: a, between: corners, start: addScaled2(far, inward, free.inset), relief }
    : { end: addScaled2(far, inward, free.inset), between: corners.reverse(), start: b, relief };
};

/** Two bends meet in a corner: their zones need room. */
const notch = (shape: Shape, thickness: number, side: Side, next: Side, corner: Vec2): Junction => {
  const size = (Math.max(radiusOf(shape, side), radiusOf(shape, next)) + thickness) / 2;
  const end = addScaled2(corner, side.along, -size);
  const start = addScaled2(corner, next.along, size);
  const [x, y] = addScaled2(end, next.along, size);
  const relief = { width: size, depth: Math.max(side.inset, next.inset) + size };
  return { end, between: [{ x, y, bulge: 0 }], start, relief };
};

/** A bend ends where the panel turns in: the cut along the free edge goes on past the tangent line. */
const innerCorner = (shape: Shape, thickness: number, side: Side, next: Side, corner: Vec2): Junction => {
  const bent = isBent(side) ? side : next;
  const width = thickness;
  const deeper = Math.max(width, radiusOf(shape, bent) + thickness - bent.inset);
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

const radiusOf = (shape: Shape, { join }: Side): number => {
  if (join.kind === 'bend') return shape.bends[join.bend].radius;
  return join.kind === 'hem' ? join.size.radius : 0;
};

/** A side that its neighbours' setbacks use up, or a hem whose lip has no straight part. */
const tooShort = (face: Face, sides: readonly Side[], i: number, from: Vec2, to: Vec2): FlatFault[] => {
  const side = sides[i];
  const has = lengthOfSide(side);
  const left = dot2(subtract2(to, from), side.along);
  const faults: FlatFault[] = [];
  if (side.join.kind === 'hem' && side.join.size.lip <= SAME_POINT) {
    const { inset, lip } = side.join.size;
    faults.push({ kind: 'hem-too-short', rim: side.join.rim, face: face.panel, has: lip + inset, needs: inset });
  }
  if (left > SAME_POINT) return faults;
  const n = sides.length;
  const bends = [sides[(i + n - 1) % n], side, sides[(i + 1) % n]].flatMap(({ join }) =>
    join.kind === 'bend' ? [join.bend] : [],
  );
  faults.push({
    kind: 'leg-too-short',
    face: face.panel,
    edge: side.edge,
    has,
    needs: has - left,
    bends: [...new Set(bends)],
  });
  return faults;
};
