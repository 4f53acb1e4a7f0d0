/**
 * How deep one piece lies in another, for every offset between them: looked up in a table where that is clear, computed
 * from the outlines near the border between apart and overlapping.
 */
import type { Sides } from './sums.js';

export interface OverlapTable extends Sides {
  /** Of the grid: corner, cells per mm, nodes. */
  readonly left: number;
  readonly low: number;
  readonly perX: number;
  readonly perY: number;
  readonly columns: number;
  readonly rows: number;
  /** mm, at the nodes: how far the way out is. 0: apart. */
  readonly depth: Float32Array;
  /** Of the cell above and right of a node: `APART`, `INSIDE`, else where its list of parts starts. */
  readonly cells: Int32Array;
  /** Count, then the sums of parts that reach into the cell. */
  readonly lists: Uint32Array;
}

export const APART = -1;
export const INSIDE = -2;

/** mm: how far `b` at offset (dx, dy) from `a` has to move to be clear, about; exactly 0 if and only if it is clear. */
export const depthAt = (table: OverlapTable, dx: number, dy: number): number => {
  const u = (dx - table.left) * table.perX;
  const v = (dy - table.low) * table.perY;
  const columns = table.columns;
  if (!(u >= 0 && v >= 0 && u < columns - 1 && v < table.rows - 1)) return 0;
  const column = u | 0;
  const row = v | 0;
  const at = row * columns + column;
  const cell = table.cells[at];
  if (cell === APART) return 0;
  if (cell !== INSIDE) return deepestOf(table, cell, dx, dy);
  const depth = table.depth;
  const s = u - column;
  const t = v - row;
  return (
    (depth[at] * (1 - s) + depth[at + 1] * s) * (1 - t) +
    (depth[at + columns] * (1 - s) + depth[at + columns + 1] * s) * t
  );
};

const deepestOf = (table: OverlapTable, cell: number, dx: number, dy: number): number => {
  const { lists, sides, starts } = table;
  let deepest = 0;
  for (let k = cell + 1, end = cell + lists[cell]; k <= end; k++) {
    const sum = lists[k];
    let least = Infinity;
    for (let i = starts[sum], last = starts[sum + 1]; i < last; i += 3) {
      const inside = sides[i + 2] - sides[i] * dx - sides[i + 1] * dy;
      if (inside < least) {
        least = inside;
        if (least <= deepest) break;
      }
    }
    if (least > deepest) deepest = least;
  }
  return deepest;
};
