/** How deep any two turned shapes overlap, found without following a reference: most of the work is done here. */
import { APART, deepestOf, INSIDE, type OverlapTable } from './overlap-table.js';

/** The overlap of two turned shapes by their table, whose axes are turned: x' = cos x + sin y, y' = -sin x + cos y. */
export interface Pair {
  readonly table: OverlapTable;
  readonly cos: number;
  readonly sin: number;
}

export interface Pairs {
  readonly shapes: number;
  /** Of `a` and `b` at `a * shapes + b`: where its pair is kept; `UNKNOWN`: not made yet. */
  readonly slots: Int32Array;
  /** Of each pair: what makes an offset on the sheet, mm, one in cells of its table, and how many cells that has each way. */
  heads: Float64Array;
  /** Of each pair: cosine and sine. */
  turns: Float64Array;
  readonly tables: OverlapTable[];
  readonly make: (a: number, b: number) => Pair;
}

export const UNKNOWN = -1;
const HEAD = 8;

export const createPairs = (shapes: number, make: Pairs['make']): Pairs => ({
  shapes,
  slots: new Int32Array(shapes * shapes).fill(UNKNOWN),
  heads: new Float64Array(64 * HEAD),
  turns: new Float64Array(64 * 2),
  tables: [],
  make,
});

/** Where the pair of two turned shapes is kept: it is made when first asked for. */
export const slotOf = (pairs: Pairs, a: number, b: number): number => {
  const slot = pairs.slots[a * pairs.shapes + b];
  return slot === UNKNOWN ? addPair(pairs, a, b) : slot;
};

const addPair = (pairs: Pairs, a: number, b: number): number => {
  const { table, cos, sin } = pairs.make(a, b);
  const slot = pairs.tables.push(table) - 1;
  if (pairs.heads.length < HEAD * (slot + 1)) {
    pairs.heads = doubled(pairs.heads);
    pairs.turns = doubled(pairs.turns);
  }
  const { left, low, perX, perY, columns } = table;
  pairs.heads.set([cos * perX, sin * perX, left * perX, cos * perY, sin * perY, low * perY, columns - 1], HEAD * slot);
  pairs.turns.set([cos, sin], 2 * slot);
  pairs.slots[a * pairs.shapes + b] = slot;
  return slot;
};

const doubled = (numbers: Float64Array): Float64Array => {
  const more = new Float64Array(2 * numbers.length);
  more.set(numbers);
  return more;
};

/** mm: how far the second of a pair at offset (dx, dy) from the first has to move to be clear, about; exactly 0 if and only
 *  if it is clear. */
export const depthOf = (pairs: Pairs, slot: number, dx: number, dy: number): number => {
  const { heads } = pairs;
  const h = HEAD * slot;
  const u = heads[h] * dx + heads[h + 1] * dy - heads[h + 2];
  const v = heads[h + 3] * dy - heads[h + 4] * dx - heads[h + 5];
  const cells = heads[h + 6];
  if (!(u >= 0 && v >= 0 && u < cells && v < cells)) return 0;
  const table = pairs.tables[slot];
  const columns = table.columns;
  const column = u | 0;
  const row = v | 0;
  const at = row * columns + column;
  const cell = table.cells[at];
  if (cell === APART) return 0;
  if (cell !== INSIDE) {
    const { turns } = pairs;
    const [cos, sin] = [turns[2 * slot], turns[2 * slot + 1]];
    return deepestOf(table, cell, cos * dx + sin * dy, cos * dy - sin * dx);
  }
  const depth = table.depth;
  const s = u - column;
  const t = v - row;
  return (
    (depth[at] * (1 - s) + depth[at + 1] * s) * (1 - t) +
    (depth[at + columns] * (1 - s) + depth[at + columns + 1] * s) * t
  );
};
