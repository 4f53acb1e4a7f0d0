/** The pieces round about one that is moved a little. */
import { depthAt } from './overlap-table.js';
import type { Pair } from './shapes.js';

/** The others round about a piece that is moved a little: what its overlap is made of, one after the other in memory. */
export interface Neighbours {
  count: number;
  readonly pairs: Pair[];
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly weight: Float64Array;
}

export const createNeighbours = (count: number): Neighbours => ({
  count: 0,
  pairs: [],
  x: new Float64Array(count),
  y: new Float64Array(count),
  weight: new Float64Array(count),
});

/** Weighted overlap at a place with the neighbours gathered; `limit` or more once that is reached. */
export const lossNear = (near: Neighbours, x: number, y: number, limit: number): number => {
  const { count, pairs, weight } = near;
  let loss = 0;
  for (let k = 0; k < count; k++) {
    const { table, cos, sin } = pairs[k];
    const dx = near.x[k] - x;
    const dy = near.y[k] - y;
    loss += weight[k] * depthAt(table, cos * dx + sin * dy, cos * dy - sin * dx);
    if (loss >= limit) return loss;
  }
  return loss;
};
