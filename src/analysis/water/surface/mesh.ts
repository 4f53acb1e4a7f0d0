import type { FaceIndex } from '../../shape/shape.js';
import type { Border } from '../../shape/account/border.js';

/** Lists of whole numbers, one after the other: list `i` is `items[start[i]]` up to, without, `items[start[i + 1]]`. */
export interface Lists {
  readonly start: Int32Array;
  readonly items: Int32Array;
}

/** Triangles before they are joined. Three corners each, counter-clockwise, and their places in the face's frame. */
export interface Pieces {
  readonly faceOf: Int32Array;
  /** Index into `Tub.openings`; -1: sheet. */
  readonly openingOf: Int32Array;
  readonly corners: Int32Array;
  /** x, y of each corner. */
  readonly plane: Float64Array;
}

/** A line between two points that may have sheet on one side only, and what ends the sheet there. */
export interface BorderLine {
  readonly from: number;
  readonly to: number;
  readonly border: Border;
}

/**
 * Triangles that meet corner to corner, as flat lists of numbers: a tub has tens of thousands of them, and every edit
 * makes them anew. Side `3 t + i` of triangle `t` runs from corner `3 t + i` to the next.
 */
export interface SurfaceMesh extends Pieces {
  readonly count: number;
  /** The edge that each side is. */
  readonly sides: Int32Array;
  /** Two points per edge, the lower first. */
  readonly ends: Int32Array;
  readonly trianglesOfEdge: Lists;
  /** Around each point, in index order. */
  readonly trianglesAt: Lists;
  readonly edgesAt: Lists;
  /** By edge; only edges with one triangle. */
  readonly borders: ReadonlyMap<number, Border>;
}

/** Joins triangles along common corners. Edges are numbered in the order of the sides. O(n). */
export const joinPieces = (pieces: Pieces, points: number, lines: readonly BorderLine[]): SurfaceMesh => {
  const { corners } = pieces;
  const edges = edgeFinder(corners.length);
  const sides = new Int32Array(corners.length);
  for (let side = 0; side < sides.length; side++) {
    const next = side % 3 === 2 ? side - 2 : side + 1;
    sides[side] = edges.make(corners[side], corners[next]);
  }
  const ends = edges.ends();
  const trianglesOfEdge = listsOf(ends.length / 2, sides, 3);
  const borders = new Map<number, Border>();
  for (const { from, to, border } of lines) {
    const edge = edges.find(from, to);
    if (edge >= 0 && lengthOfList(trianglesOfEdge, edge) === 1) borders.set(edge, border);
  }
  return {
    ...pieces,
    count: corners.length / 3,
    sides,
    ends,
    trianglesOfEdge,
    trianglesAt: listsOf(points, corners, 3),
    edgesAt: listsOf(points, ends, 2),
    borders,
  };
};

/** The other end of an edge. */
export const otherEnd = ({ ends }: SurfaceMesh, edge: number, point: number): number =>
  ends[2 * edge] === point ? ends[2 * edge + 1] : ends[2 * edge];

/** One list, not copied. For loops over many lists go by the places instead. */
export const listOf = ({ start, items }: Lists, list: number): Int32Array =>
  items.subarray(start[list], start[list + 1]);

const lengthOfList = ({ start }: Lists, list: number): number => start[list + 1] - start[list];

export const trianglesOfFace = ({ faceOf }: SurfaceMesh, face: FaceIndex): readonly number[] => placesOf(faceOf, face);

export const trianglesOfOpening = ({ openingOf }: SurfaceMesh, opening: number): readonly number[] =>
  placesOf(openingOf, opening);

const placesOf = (list: Int32Array, value: number): readonly number[] => {
  const found: number[] = [];
  for (let i = list.indexOf(value); i >= 0; i = list.indexOf(value, i + 1)) found.push(i);
  return found;
};

/** For each number from 0 to `count`, where it stands in `members`: the place divided by `per`, in order. */
const listsOf = (count: number, members: Int32Array, per: number): Lists => {
  const start = new Int32Array(count + 1);
  for (const member of members) start[member + 1]++;
  for (let i = 0; i < count; i++) start[i + 1] += start[i];
  const items = new Int32Array(members.length);
  const next = start.slice(0, count);
  for (let i = 0; i < members.length; i++) items[next[members[i]]++] = Math.floor(i / per);
  return { start, items };
};

interface EdgeFinder {
  /** Index of the edge between two points, a new one when there is none. */
  readonly make: (a: number, b: number) => number;
  /** -1: none. */
  readonly find: (a: number, b: number) => number;
  readonly ends: () => Int32Array;
}

/** Numbers the edges between pairs of points: a hash table on flat lists, for up to `most` edges. O(1) each. */
const edgeFinder = (most: number): EdgeFinder => {
  const size = 2 ** Math.ceil(Math.log2(Math.max(4, 2 * most)));
  const table = new Int32Array(size).fill(-1);
  const ends = new Int32Array(2 * most);
  let count = 0;
  /** Where the edge from `low` to `high` stands in the table, or would. */
  const slotOf = (low: number, high: number): number => {
    const hash = Math.imul(low, 0x9e3779b1) ^ Math.imul(high, 0x85ebca77);
    let slot = (hash ^ (hash >>> 15)) & (size - 1);
    for (let edge = table[slot]; edge >= 0; edge = table[slot]) {
      if (ends[2 * edge] === low && ends[2 * edge + 1] === high) return slot;
      slot = (slot + 1) & (size - 1);
    }
    return slot;
  };
  return {
    make: (a, b) => {
      const [low, high] = a < b ? [a, b] : [b, a];
      const slot = slotOf(low, high);
      if (table[slot] >= 0) return table[slot];
      ends[2 * count] = low;
      ends[2 * count + 1] = high;
      return (table[slot] = count++);
    },
    find: (a, b) => table[a < b ? slotOf(a, b) : slotOf(b, a)],
    ends: () => ends.slice(0, 2 * count),
  };
};
