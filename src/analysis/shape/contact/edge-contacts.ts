import { SAME_POINT } from '../../geometry/tolerance.js';
import { indexBoxes } from '../../geometry/box-index.js';
import { addScaled, distance, scale, subtract, type Vec3 } from '../../geometry/vec.js';
import { memoBy } from '../../cache/memo.js';
import { cellsOf, groupByDirection, type DirectionCells } from '../../geometry/group-by-direction.js';

/** A length of one edge, and the other edges that lie along all of it. `from`, `to` in mm from the edge's start. */
export interface EdgeStretch {
  readonly from: number;
  readonly to: number;
  readonly start: Vec3;
  readonly end: Vec3;
  readonly mates: readonly EdgeContact[];
}

export interface EdgeContact {
  readonly loop: number;
  readonly edge: number;
  /** Does the mate run the same way as this edge? */
  readonly sameWay: boolean;
}

/** Per loop and edge, the contacts from start to end. */
export type Contacts = readonly (readonly (readonly EdgeStretch[])[])[];

export interface Box {
  readonly low: Vec3;
  readonly high: Vec3;
}

/** A side of a closed line. */
export interface EdgeSide extends Box {
  readonly start: Vec3;
  readonly end: Vec3;
  readonly along: Vec3;
  readonly length: number;
  readonly cells: DirectionCells;
}

export interface FaceEdge {
  readonly loop: number;
  readonly edge: number;
  readonly side: EdgeSide;
}

export interface Overlap {
  readonly from: number;
  readonly to: number;
  readonly mate: EdgeContact;
}

/** Per loop and edge. */
export type Overlaps = readonly (readonly (readonly Overlap[])[])[];

/**
 * Cuts every edge of every closed loop where its neighbours change.
 *
 * Inputs: loops of corners in space; an empty loop takes no part. Returns per loop and edge the contacts from start to
 * end, which cover the edge. Two edges touch where they run within SAME_POINT of each other over more than that.
 * Cost: O(n log n) in edges: only edges of about one direction are compared, through a spatial index on their two widest axes.
 */
export const findEdgeContacts = (loops: readonly (readonly Vec3[])[]): Contacts => {
  const overlaps = findOverlaps(loops);
  return loops.map((corners, loop) => cutSides(corners, overlaps[loop]));
};

/** Cuts each side of a loop at its overlaps. */
export const cutSides = (corners: readonly Vec3[], overlaps: readonly (readonly Overlap[])[]): Contacts[number] =>
  sidesOf(corners).map((side, edge) => cutAtOverlaps(side, overlaps[edge]));

/** Kept by the corners: an edit changes few. */
export const sidesOf = memoBy((corners: readonly Vec3[]): readonly EdgeSide[] =>
  corners.map((start, i): EdgeSide => {
    const end = corners[i + 1 < corners.length ? i + 1 : 0];
    const length = distance(start, end);
    const along: Vec3 = length > 0 ? scale(subtract(end, start), 1 / length) : [0, 0, 0];
    const low: Vec3 = [Math.min(start[0], end[0]), Math.min(start[1], end[1]), Math.min(start[2], end[2])];
    const high: Vec3 = [Math.max(start[0], end[0]), Math.max(start[1], end[1]), Math.max(start[2], end[2])];
    return { start, end, length, along, low, high, cells: cellsOf(along) };
  }),
);

/** Per loop and edge, the edges of other loops along it; ascending. */
export const findOverlaps = (loops: readonly (readonly Vec3[])[]): Overlaps => {
  const edges: FaceEdge[] = [];
  loops.forEach((corners, loop) => sidesOf(corners).forEach((side, edge) => edges.push({ loop, edge, side })));
  const overlaps = loops.map((corners) => corners.map(() => NONE));
  for (const { asking, present } of groupByDirection(edges.map(({ side }) => side.cells))) {
    if (asking.length === 0 || present.length === 1) continue;
    const near = neighbourFinder(edges, present);
    for (const i of asking) {
      const { loop, edge, side } = edges[i];
      const found: Overlap[] = [];
      for (const j of near(edges[i])) {
        const overlap = overlapOf(side, edges[j]);
        if (overlap) found.push(overlap);
      }
      if (found.length > 0) overlaps[loop][edge] = found;
    }
  }
  return overlaps;
};

/** The same between two edges alone. */
export const overlapBetween = (side: EdgeSide, other: FaceEdge): Overlap | undefined =>
  side.cells.own !== undefined && other.side.cells.all.includes(side.cells.own) && isNear(side, other.side)
    ? overlapOf(side, other)
    : undefined;

/** Do two boxes come within SAME_POINT of each other? */
export const isNear = (box: Box, other: Box): boolean => {
  for (let axis = 0; axis < 3; axis++) {
    if (other.low[axis] > box.high[axis] + SAME_POINT || other.high[axis] < box.low[axis] - SAME_POINT) return false;
  }
  return true;
};

const NONE: readonly Overlap[] = [];

/** Which of `present` (indices, ascending) are edges of other loops that come near an edge; ascending. */
const neighbourFinder = (
  edges: readonly FaceEdge[],
  present: readonly number[],
): ((edge: FaceEdge) => readonly number[]) => {
  const [a, b] = widestAxes(edges, present);
  const third = 3 - a - b;
  const boxes = new Float64Array(4 * present.length);
  for (let k = 0; k < present.length; k++) {
    const { low, high } = edges[present[k]].side;
    boxes[4 * k] = low[a];
    boxes[4 * k + 1] = low[b];
    boxes[4 * k + 2] = high[a];
    boxes[4 * k + 3] = high[b];
  }
  const search = indexBoxes(boxes);
  const d = SAME_POINT;
  return ({ loop, side: { low, high } }) => {
    const [from, to] = [low[third] - d, high[third] + d];
    const accept = (k: number): boolean => {
      const other = edges[present[k]];
      return other.loop !== loop && other.side.low[third] <= to && other.side.high[third] >= from;
    };
    const found = search(low[a] - d, low[b] - d, high[a] + d, high[b] + d, accept);
    for (let k = 0; k < found.length; k++) found[k] = present[found[k]];
    return found;
  };
};

/** The two axes along which the edges spread most: they separate best. */
const widestAxes = (edges: readonly FaceEdge[], present: readonly number[]): readonly [number, number] => {
  const low = [Infinity, Infinity, Infinity];
  const high = [-Infinity, -Infinity, -Infinity];
  for (const i of present) {
    const { start } = edges[i].side;
    for (let axis = 0; axis < 3; axis++) {
      if (start[axis] < low[axis]) low[axis] = start[axis];
      if (start[axis] > high[axis]) high[axis] = start[axis];
    }
  }
  const narrowest = [0, 1, 2].sort((p, q) => high[p] - low[p] - (high[q] - low[q]))[0];
  return [(narrowest + 1) % 3, (narrowest + 2) % 3];
};

const overlapOf = (side: EdgeSide, { loop, edge, side: other }: FaceEdge): Overlap | undefined => {
  const t0 = placeAlong(side, other.start);
  const t1 = placeAlong(side, other.end);
  const from = Math.max(0, Math.min(t0, t1));
  const to = Math.min(side.length, Math.max(t0, t1));
  if (to - from <= SAME_POINT) return undefined;
  const isApart = (t: number): boolean => {
    const onOther = addScaled(other.start, other.along, ((t - t0) / (t1 - t0)) * other.length);
    return distance(onOther, addScaled(side.start, side.along, t)) > SAME_POINT;
  };
  return isApart(from) || isApart(to) ? undefined : { from, to, mate: { loop, edge, sameWay: t1 > t0 } };
};

/** Where the foot of a point lies on the line of a side, mm from its start. */
const placeAlong = ({ start, along }: EdgeSide, point: Vec3): number =>
  (point[0] - start[0]) * along[0] + (point[1] - start[1]) * along[1] + (point[2] - start[2]) * along[2];

const cutAtOverlaps = ({ start, end, along, length }: EdgeSide, overlaps: readonly Overlap[]): EdgeStretch[] => {
  if (overlaps.length === 0) return [{ from: 0, to: length, start, end, mates: [] }];
  const stops = stopsOf(overlaps, length);
  const point = (t: number): Vec3 => (t === 0 ? start : t === length ? end : addScaled(start, along, t));
  const contacts: EdgeStretch[] = [];
  for (let i = 1; i < stops.length; i++) {
    const [from, to] = [stops[i - 1], stops[i]];
    const middle = (from + to) / 2;
    const mates: EdgeContact[] = [];
    for (const overlap of overlaps) if (overlap.from < middle && middle < overlap.to) mates.push(overlap.mate);
    contacts.push({ from, to, start: point(from), end: point(to), mates });
  }
  return contacts;
};

/** Both ends of an edge, and the places between at which an overlap begins or ends, ascending. */
const stopsOf = (overlaps: readonly Overlap[], length: number): readonly number[] => {
  const cuts: number[] = [];
  for (const { from, to } of overlaps) cuts.push(from, to);
  cuts.push(length);
  // One overlap comes in order; most edges have no other.
  if (overlaps.length > 1) cuts.sort((p, q) => p - q);
  const stops = [0];
  for (const cut of cuts) if (cut - stops[stops.length - 1] > SAME_POINT) stops.push(cut);
  if (stops.length > 1) stops[stops.length - 1] = length;
  else stops.push(length);
  return stops;
};
