/** Makes the table of how deep two pieces overlap. */
import type { Vec2 } from '../../geometry/vec.js';
import { APART, INSIDE, type OverlapTable } from './overlap-table.js';
import { extentOfSums, sidesOf, sumsOf, type Sums } from './sums.js';
import { NOISE } from '../../geometry/tolerance.js';

/** Nodes of a table each way: finer ones take longer to make than they save. */
const NODES = 32;

/** `a`, `b`: convex parts, counter-clockwise, each in its own piece's coordinates; the offset is from origin to
 *  origin. Pieces nearer than the gap and `slack`, mm, overlap. */
export const overlapTable = (
  a: readonly (readonly Vec2[])[],
  b: readonly (readonly Vec2[])[],
  gap: number,
  slack: number,
): OverlapTable => {
  const sums = sumsOf(a, b, gap);
  const [left, low, right, high] = extentOfSums(sums);
  // A free cell all round, so that the way out is found on every side.
  const [stepX, stepY] = [(right - left) / (NODES - 3), (high - low) / (NODES - 3)];
  const grid: Grid = { left: left - stepX, low: low - stepY, stepX, stepY };
  const { sides, starts } = sidesOf(sums, slack);
  if (sums.count === 1) return { ...oneCell(left, low, right, high), sides, starts };
  inside.fill(0);
  if (reaches.length < 2 * NODES * sums.count) reaches = new Int32Array(4 * NODES * sums.count);
  for (let k = 0; k < sums.count; k++) fillSum(sums, k, grid);
  const depth = waysOut(stepX, stepY);
  return {
    left: grid.left,
    low: grid.low,
    perX: 1 / stepX,
    perY: 1 / stepY,
    columns: NODES,
    depth,
    ...cellsOf(sums.count),
    sides,
    starts,
  };
};

/** Of two convex pieces the sides alone tell the depth, and quickly. */
const oneCell = (left: number, low: number, right: number, high: number): Omit<OverlapTable, 'sides' | 'starts'> => {
  const [perX, perY] = [0.5 / (right - left), 0.5 / (high - low)];
  return {
    left: left - 0.5 / perX / 4,
    low: low - 0.5 / perY / 4,
    perX,
    perY,
    columns: 2,
    depth: NO_DEPTH,
    cells: ONE_CELL,
    // Of its own: the side to look at first is written into it.
    lists: Uint32Array.of(1, 0),
  };
};

const NO_DEPTH = new Float32Array(4);
const ONE_CELL = new Int32Array(4);

interface Grid {
  readonly left: number;
  readonly low: number;
  readonly stepX: number;
  readonly stepY: number;
}

/** Marks the nodes inside a convex polygon; `reaches` gets the first and last cell that it touches of each row of cells. */
const fillSum = ({ corners, starts }: Sums, which: number, grid: Grid): void => {
  const [first, last, start] = [starts[which], starts[which + 1], 2 * NODES * which];
  for (let row = 0; row < NODES; row++) {
    spanLeft[row] = cellLeft[row] = Infinity;
    spanRight[row] = cellRight[row] = -Infinity;
  }
  for (let i = first; i < last; i += 2) {
    const j = i + 2 < last ? i + 2 : first;
    const x = (corners[i] - grid.left) / grid.stepX;
    const y = (corners[i + 1] - grid.low) / grid.stepY;
    const slope = (corners[j] - corners[i]) / grid.stepX / ((corners[j + 1] - corners[i + 1]) / grid.stepY);
    const end = (corners[j + 1] - grid.low) / grid.stepY;
    widenCell(Math.floor(y), x);
    if (y === Math.floor(y)) widenCell(y - 1, x);
    const [low, high] = y < end ? [y, end] : [end, y];
    for (let row = Math.ceil(low); row <= high; row++) {
      const crossing = low === high ? x : x + slope * (row - y);
      if (crossing < spanLeft[row]) spanLeft[row] = crossing;
      if (crossing > spanRight[row]) spanRight[row] = crossing;
      widenCell(row, crossing);
      widenCell(row - 1, crossing);
    }
  }
  for (let row = 0; row < NODES; row++) {
    for (let c = Math.ceil(spanLeft[row]), end = Math.floor(spanRight[row]); c <= end; c++) inside[row * NODES + c] = 1;
    const [from, to] = [cellLeft[row], cellRight[row]];
    reaches[start + 2 * row] = from > to ? 0 : Math.max(0, Math.floor(from - NOISE));
    reaches[start + 2 * row + 1] = from > to ? -1 : Math.min(NODES - 2, Math.floor(to + NOISE));
  }
};

const widenCell = (row: number, x: number): void => {
  if (row < 0 || row >= NODES) return;
  if (x < cellLeft[row]) cellLeft[row] = x;
  if (x > cellRight[row]) cellRight[row] = x;
};

// Used again for every table: which nodes are inside. And for every sum: where the polygon crosses each row of nodes, and how far it reaches in each row of cells.
const inside = new Uint8Array(NODES * NODES);
let reaches = new Int32Array(0);
const [spanLeft, spanRight, cellLeft, cellRight] = [0, 1, 2, 3].map(() => new Float64Array(NODES));

/** Distance of each node inside to the nearest one outside, by steps to the eight neighbours: at most 8 % too long. */
const waysOut = (stepX: number, stepY: number): Float32Array => {
  const depth = new Float32Array(NODES * NODES);
  const aslant = Math.hypot(stepX, stepY);
  for (let at = NODES + 1; at < NODES * (NODES - 1) - 1; at++) {
    if (inside[at] === 0) continue;
    let least = depth[at - 1] + stepX;
    const below = at - NODES;
    if (depth[below - 1] + aslant < least) least = depth[below - 1] + aslant;
    if (depth[below] + stepY < least) least = depth[below] + stepY;
    if (depth[below + 1] + aslant < least) least = depth[below + 1] + aslant;
    depth[at] = least;
  }
  for (let at = NODES * (NODES - 1) - 2; at > NODES; at--) {
    if (inside[at] === 0) continue;
    let least = depth[at];
    const above = at + NODES;
    if (depth[at + 1] + stepX < least) least = depth[at + 1] + stepX;
    if (depth[above + 1] + aslant < least) least = depth[above + 1] + aslant;
    if (depth[above] + stepY < least) least = depth[above] + stepY;
    if (depth[above - 1] + aslant < least) least = depth[above - 1] + aslant;
    depth[at] = least;
  }
  return depth;
};

/** For each cell how it is decided; `reaches`: for each sum and row of cells, the first and last cell it touches. */
const cellsOf = (sums: number): Pick<OverlapTable, 'cells' | 'lists'> => {
  const cells = new Int32Array(NODES * NODES).fill(APART);
  counts.fill(0);
  for (let k = 0; k < 2 * NODES * sums; k += 2) {
    const row = ((k / 2) % NODES) * NODES;
    for (let cell = row + reaches[k], end = row + reaches[k + 1]; cell <= end; cell++) counts[cell]++;
  }
  let next = 0;
  for (let cell = 0; cell < cells.length; cell++) {
    if (counts[cell] === 0) continue;
    if (isDeep(cell)) {
      cells[cell] = INSIDE;
      continue;
    }
    cells[cell] = next;
    next += counts[cell] + 1;
  }
  const lists = new Uint32Array(next);
  for (let sum = 0, k = 0; sum < sums; sum++) {
    for (let row = 0; row < NODES; row++, k += 2) {
      for (let cell = row * NODES + reaches[k], end = row * NODES + reaches[k + 1]; cell <= end; cell++) {
        const start = cells[cell];
        if (start >= 0) lists[start + ++lists[start]] = sum;
      }
    }
  }
  return { cells, lists };
};

const counts = new Int32Array(NODES * NODES);

/** Is every node round about a cell inside? */
const isDeep = (cell: number): boolean => {
  for (let at = cell - NODES; at <= cell + 2 * NODES; at += NODES) {
    if ((inside[at - 1] & inside[at] & inside[at + 1] & inside[at + 2]) === 0) return false;
  }
  return true;
};
