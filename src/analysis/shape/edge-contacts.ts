import { SAME_POINT } from '../tolerance.js';
import { indexBoxes } from '../geometry/box-index.js';
import { addScaled, distance, dot, scale, subtract, type Vec3 } from '../geometry/vec.js';
import { groupByDirection } from './group-by-direction.js';

/** A length of one edge, and the other edges that lie along all of it. `from`, `to` in mm from the edge's start. */
export interface Contact {
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

interface Edge {
  readonly loop: number;
  readonly edge: number;
  readonly start: Vec3;
  readonly end: Vec3;
  readonly along: Vec3;
  readonly length: number;
}

interface Overlap {
  readonly from: number;
  readonly to: number;
  readonly mate: EdgeContact;
}

/**
 * Cuts every edge of every closed loop where its neighbours change.
 *
 * Inputs: loops of corners in space; an empty loop takes no part. Returns per loop and edge the contacts from start to
 * end, which cover the edge. Two edges touch where they run within SAME_POINT of each other over more than that.
 * Cost: O(n log n) in edges: only edges of about one direction are compared, through a spatial index on their two widest axes.
 */
export const findEdgeContacts = (loops: readonly (readonly Vec3[])[]): readonly (readonly (readonly Contact[])[])[] => {
  const edges = loops.flatMap(edgesOf);
  const overlaps = findOverlaps(edges);
  const result: Contact[][][] = loops.map(() => []);
  edges.forEach((edge, i) => {
    result[edge.loop][edge.edge] = cutAtOverlaps(edge, overlaps[i]);
  });
  return result;
};

const edgesOf = (corners: readonly Vec3[], loop: number): Edge[] =>
  corners.map((start, edge) => {
    const end = corners[(edge + 1) % corners.length];
    const length = distance(start, end);
    return { loop, edge, start, end, length, along: length > 0 ? scale(subtract(end, start), 1 / length) : [0, 0, 0] };
  });

const findOverlaps = (edges: readonly Edge[]): readonly (readonly Overlap[])[] => {
  const groups = groupByDirection(edges.map((edge) => edge.along));
  const overlaps: (readonly Overlap[])[] = edges.map(() => NONE);
  for (const { asking, present } of groups) {
    const near = neighbourFinder(edges, present);
    for (const i of asking) {
      const found: Overlap[] = [];
      for (const j of near(edges[i])) {
        const overlap = overlapOf(edges[i], edges[j]);
        if (overlap) found.push(overlap);
      }
      if (found.length > 0) overlaps[i] = found;
    }
  }
  return overlaps;
};

const NONE: readonly Overlap[] = [];

/** Which of `present` (indices, ascending) are edges of other loops that come near an edge; ascending. */
const neighbourFinder = (edges: readonly Edge[], present: readonly number[]): ((edge: Edge) => readonly number[]) => {
  const [a, b] = widestAxes(present.map((i) => edges[i]));
  const third = 3 - a - b;
  const low = (edge: Edge, axis: number): number => Math.min(edge.start[axis], edge.end[axis]);
  const high = (edge: Edge, axis: number): number => Math.max(edge.start[axis], edge.end[axis]);
  const boxes = new Float64Array(4 * present.length);
  present.forEach((i, k) => {
    const edge = edges[i];
    boxes[4 * k] = low(edge, a);
    boxes[4 * k + 1] = low(edge, b);
    boxes[4 * k + 2] = high(edge, a);
    boxes[4 * k + 3] = high(edge, b);
  });
  const search = indexBoxes(boxes);
  const d = SAME_POINT;
  return (edge) => {
    const [from, to] = [low(edge, third) - d, high(edge, third) + d];
    const isNear = (k: number): boolean => {
      const other = edges[present[k]];
      return other.loop !== edge.loop && low(other, third) <= to && high(other, third) >= from;
    };
    const found = search(low(edge, a) - d, low(edge, b) - d, high(edge, a) + d, high(edge, b) + d, isNear);
    for (let k = 0; k < found.length; k++) found[k] = present[found[k]];
    return found;
  };
};

/** The two axes along which the edges spread most: they separate best. */
const widestAxes = (edges: readonly Edge[]): readonly [number, number] => {
  const low = [Infinity, Infinity, Infinity];
  const high = [-Infinity, -Infinity, -Infinity];
  for (const edge of edges) {
    for (let axis = 0; axis < 3; axis++) {
      low[axis] = Math.min(low[axis], edge.start[axis]);
      high[axis] = Math.max(high[axis], edge.start[axis]);
    }
  }
  const narrowest = [0, 1, 2].sort((p, q) => high[p] - low[p] - (high[q] - low[q]))[0];
  return [(narrowest + 1) % 3, (narrowest + 2) % 3];
};

const overlapOf = (edge: Edge, other: Edge): Overlap | undefined => {
  const t0 = dot(subtract(other.start, edge.start), edge.along);
  const t1 = dot(subtract(other.end, edge.start), edge.along);
  const from = Math.max(0, Math.min(t0, t1));
  const to = Math.min(edge.length, Math.max(t0, t1));
  if (to - from <= SAME_POINT) return undefined;
  const onOther = (t: number): Vec3 => addScaled(other.start, other.along, ((t - t0) / (t1 - t0)) * other.length);
  const onEdge = (t: number): Vec3 => addScaled(edge.start, edge.along, t);
  if (distance(onOther(from), onEdge(from)) > SAME_POINT || distance(onOther(to), onEdge(to)) > SAME_POINT)
    return undefined;
  return { from, to, mate: { loop: other.loop, edge: other.edge, sameWay: t1 > t0 } };
};

const cutAtOverlaps = (edge: Edge, overlaps: readonly Overlap[]): Contact[] => {
  if (overlaps.length === 0) return [{ from: 0, to: edge.length, start: edge.start, end: edge.end, mates: [] }];
  const cuts = new Float64Array(2 * overlaps.length + 1);
  overlaps.forEach(({ from, to }, i) => {
    cuts[2 * i] = from;
    cuts[2 * i + 1] = to;
  });
  cuts[2 * overlaps.length] = edge.length;
  cuts.sort();
  const stops: number[] = [0];
  for (const cut of cuts) if (cut - stops[stops.length - 1] > SAME_POINT) stops.push(cut);
  if (stops.length > 1) stops[stops.length - 1] = edge.length;
  else stops.push(edge.length);
  const point = (t: number): Vec3 =>
    t === 0 ? edge.start : t === edge.length ? edge.end : addScaled(edge.start, edge.along, t);
  const contacts: Contact[] = [];
  for (let i = 1; i < stops.length; i++) {
    const [from, to] = [stops[i - 1], stops[i]];
    const middle = (from + to) / 2;
    const mates: EdgeContact[] = [];
    for (const overlap of overlaps) if (overlap.from < middle && middle < overlap.to) mates.push(overlap.mate);
    contacts.push({ from, to, start: point(from), end: point(to), mates });
  }
  return contacts;
};
