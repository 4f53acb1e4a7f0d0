/** The pieces round about one that is moved a little. */
import { depthOf, type Pairs } from './pairs.js';

/** The others round about a piece that is moved a little: what its overlap is made of, one after the other in memory. */
export interface Neighbours {
  count: number;
  readonly slots: Int32Array;
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly weight: Float64Array;
}

export const createNeighbours = (count: number): Neighbours => ({
  count: 0,
  slots: new Int32Array(count),
  x: new Float64Array(count),
  y: new Float64Array(count),
  weight: new Float64Array(count),
});

/** Weighted overlap at a place with the neighbours gathered; `limit` or more once that is reached. */
export const lossNear = (pairs: Pairs, near: Neighbours, x: number, y: number, limit: number): number => {
  const { count, slots, weight } = near;
  let loss = 0;
  for (let k = 0; k < count; k++) {
    loss += weight[k] * depthOf(pairs, slots[k], near.x[k] - x, near.y[k] - y);
    if (loss >= limit) return loss;
  }
  return loss;
};
