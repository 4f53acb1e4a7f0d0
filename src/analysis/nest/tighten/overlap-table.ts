/**
 * How deep one piece lies in another, for every offset between them: told by a table where that is clear, computed from
 * the outlines near the border between apart and overlapping.
 */
import type { Sides } from './sums.js';

export interface OverlapTable extends Sides {
  /** Of the grid: corner, cells per mm, nodes each way. */
  readonly left: number;
  readonly low: number;
  readonly perX: number;
  readonly perY: number;
  readonly columns: number;
  /** mm, at the nodes: how far the way out is. 0: apart. */
  readonly depth: Float32Array;
  /** Of the cell above and right of a node: `APART`, `INSIDE`, else where its list of parts starts. */
  readonly cells: Int32Array;
  /** Count, then the sums of parts that reach into the cell. */
  readonly lists: Uint32Array;
}

export const APART = -1;
export const INSIDE = -2;

/** Of an entry of the lists: its sum, and the side of that to look at first. */
const SUM_BITS = 20;
const SUM_MASK = (1 << SUM_BITS) - 1;

/**
 * mm: how deep an offset lies in the deepest of the parts that reach into its cell; 0: it is clear of all. The side that told
 * it of a part is looked at first the next time: it mostly tells at once that the part is clear or less deep than another.
 */
export const deepestOf = ({ lists, sides, starts }: OverlapTable, cell: number, dx: number, dy: number): number => {
  let deepest = 0;
  for (let k = cell + 1, end = cell + lists[cell]; k <= end; k++) {
    const sum = lists[k] & SUM_MASK;
    const first = starts[sum];
    const last = starts[sum + 1];
    const told = first + 3 * (lists[k] >>> SUM_BITS);
    let least = sides[told + 2] - sides[told] * dx - sides[told + 1] * dy;
    if (least <= deepest) continue;
    let nearest = told;
    for (let i = first; i < last; i += 3) {
      const inside = sides[i + 2] - sides[i] * dx - sides[i + 1] * dy;
      if (inside >= least) continue;
      least = inside;
      nearest = i;
      if (least <= deepest) break;
    }
    lists[k] = sum | (((nearest - first) / 3) << SUM_BITS);
    if (least > deepest) deepest = least;
  }
  return deepest;
};
