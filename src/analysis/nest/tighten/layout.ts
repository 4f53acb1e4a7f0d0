/** Where all pieces lie, overlapping or not, and what their overlaps weigh. Flat arrays: this is the inner loop. */
import { createNeighbours, type Neighbours } from './neighbours.js';
import { depthOf, slotOf, UNKNOWN } from './pairs.js';
import type { Shapes } from './shapes.js';

/** Room on one blank: from its corner, mm. The length may be less than the blank has. */
export interface Bin {
  length: number;
  readonly width: number;
  readonly isRemnant: boolean;
}

export interface Spot {
  readonly turned: number;
  readonly bin: number;
  /** Of the piece's origin. */
  readonly x: number;
  readonly y: number;
}

export interface Layout {
  readonly shapes: Shapes;
  readonly count: number;
  readonly bins: readonly Bin[];
  /** For each piece: its shape, its turned shape (index into `shapes.turned`), its bin, its origin. */
  readonly shape: Int32Array;
  /** 1: it stays where it is. */
  readonly fixed: Uint8Array;
  readonly turned: Int32Array;
  readonly bin: Int32Array;
  readonly x: Float64Array;
  readonly y: Float64Array;
  /** Its box on the bin. */
  readonly left: Float64Array;
  readonly low: Float64Array;
  readonly right: Float64Array;
  readonly high: Float64Array;
  /** Of every pair of pieces, row by row: how deep they overlap, mm, and how much a millimetre of it weighs. */
  readonly depth: Float64Array;
  readonly weight: Float64Array;
  /** What each pair weighs at first. */
  readonly firstWeight: Float64Array;
  /** Used again for every move. */
  readonly near: Neighbours;
  /** Places that were weighed so far: what work is counted in. */
  tried: number;
}

export const createLayout = (
  shapes: Shapes,
  shape: readonly number[],
  fixed: readonly boolean[],
  bins: readonly Bin[],
): Layout => {
  const count = shape.length;
  const numbers = (): Float64Array => new Float64Array(count);
  return {
    shapes,
    count,
    bins,
    shape: Int32Array.from(shape),
    fixed: Uint8Array.from(fixed, Number),
    turned: new Int32Array(count),
    bin: new Int32Array(count),
    x: numbers(),
    y: numbers(),
    left: numbers(),
    low: numbers(),
    right: numbers(),
    high: numbers(),
    depth: new Float64Array(count * count),
    weight: new Float64Array(count * count),
    firstWeight: firstWeights(shapes, shape),
    near: createNeighbours(count),
    tried: 0,
  };
};

/** A millimetre between large pieces weighs more: once they lie well, small ones find room between them. */
const firstWeights = ({ areas }: Shapes, shape: readonly number[]): Float64Array => {
  const count = shape.length;
  const mean = shape.reduce((sum, of) => sum + areas[of], 0) / count;
  const weights = new Float64Array(count * count);
  for (let i = 0; i < count; i++)
    for (let j = 0; j < count; j++)
      weights[i * count + j] = Math.sqrt(Math.sqrt(areas[shape[i]] * areas[shape[j]]) / mean);
  return weights;
};

/** Puts a piece down; its overlaps are told by `weigh`. */
export const put = (layout: Layout, piece: number, { turned, bin, x, y }: Spot): void => {
  const box = layout.shapes.turned[turned];
  layout.turned[piece] = turned;
  layout.bin[piece] = bin;
  layout.x[piece] = x;
  layout.y[piece] = y;
  layout.left[piece] = x + box.left;
  layout.low[piece] = y + box.low;
  layout.right[piece] = x + box.right;
  layout.high[piece] = y + box.high;
};

/** Weighted overlap of a piece at a place with all others; `limit` or more once that is reached. */
export const lossAt = (layout: Layout, piece: number, { turned, bin, x, y }: Spot, limit: number): number => {
  const { shapes, count, left, low, right, high, weight } = layout;
  const { reach, pairs } = shapes;
  const box = shapes.turned[turned];
  const x0 = x + box.left - reach;
  const y0 = y + box.low - reach;
  const x1 = x + box.right + reach;
  const y1 = y + box.high + reach;
  const row = piece * count;
  const pairRow = turned * pairs.shapes;
  let loss = 0;
  for (let j = 0; j < count; j++) {
    if (left[j] >= x1 || right[j] <= x0 || low[j] >= y1 || high[j] <= y0) continue;
    if (layout.bin[j] !== bin || j === piece) continue;
    const other = layout.turned[j];
    const known = pairs.slots[pairRow + other];
    const slot = known === UNKNOWN ? slotOf(pairs, turned, other) : known;
    const depth = depthOf(pairs, slot, layout.x[j] - x, layout.y[j] - y);
    if (depth === 0) continue;
    loss += weight[row + j] * depth;
    if (loss >= limit) return loss;
  }
  return loss;
};

/** Gathers all whose boxes come nearer than `reach` to the box of the piece at a place. */
export const gather = (layout: Layout, piece: number, { turned, bin, x, y }: Spot, reach: number): void => {
  const { shapes, count, left, low, right, high, near } = layout;
  const box = shapes.turned[turned];
  const [x0, y0, x1, y1] = [x + box.left - reach, y + box.low - reach, x + box.right + reach, y + box.high + reach];
  let found = 0;
  for (let j = 0; j < count; j++) {
    if (left[j] >= x1 || right[j] <= x0 || low[j] >= y1 || high[j] <= y0) continue;
    if (layout.bin[j] !== bin || j === piece) continue;
    near.slots[found] = slotOf(shapes.pairs, turned, layout.turned[j]);
    near.x[found] = layout.x[j];
    near.y[found] = layout.y[j];
    near.weight[found] = layout.weight[piece * count + j];
    found++;
  }
  near.count = found;
};

/** Works out how deep a piece overlaps each other one where it lies. */
export const weigh = (layout: Layout, piece: number): void => {
  const { shapes, count, depth, left, low, right, high } = layout;
  const { reach } = shapes;
  const [x0, y0, x1, y1] = [left[piece] - reach, low[piece] - reach, right[piece] + reach, high[piece] + reach];
  for (let j = 0; j < count; j++) {
    let deep = 0;
    const isNear = left[j] < x1 && right[j] > x0 && low[j] < y1 && high[j] > y0;
    const bothFixed = layout.fixed[j] === 1 && layout.fixed[piece] === 1;
    if (isNear && !bothFixed && j !== piece && layout.bin[j] === layout.bin[piece]) {
      const slot = slotOf(shapes.pairs, layout.turned[piece], layout.turned[j]);
      deep = depthOf(shapes.pairs, slot, layout.x[j] - layout.x[piece], layout.y[j] - layout.y[piece]);
    }
    depth[piece * count + j] = deep;
    depth[j * count + piece] = deep;
  }
};
