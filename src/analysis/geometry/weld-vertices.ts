import type { Vec3 } from './vec.js';
import { SAME_POINT } from './tolerance.js';

export interface MergedPoints {
  readonly points: readonly Vec3[];
  /** Index of the first point within SAME_POINT, else of this one, newly added. */
  readonly indexOf: (point: Vec3) => number;
  /** Index of this point, added without looking for others. */
  readonly add: (point: Vec3) => number;
}

/** Collects points, one for all that lie within SAME_POINT. Cost: O(1) each, by a grid of cells that hold few points. */
export const weldVertices = (): MergedPoints => {
  const points: Vec3[] = [];
  /** Per slot the point that came last, and per point the one before it in its slot and the key of its cell; -1: none. */
  let last = new Int32Array(64).fill(-1);
  const before: number[] = [];
  const keys: number[] = [];
  const cell = 4 * SAME_POINT;
  // Cells may share a key, and keys a slot, which costs a little time: the distance decides.
  const keyOf = (x: number, y: number, z: number): number =>
    (Math.imul(x, 73_856_093) ^ Math.imul(y, 19_349_663) ^ Math.imul(z, 83_492_791)) >>> 2;
  const low = (value: number): number => Math.floor((value - SAME_POINT) / cell);
  const high = (value: number): number => Math.floor((value + SAME_POINT) / cell);
  /** The first point of the cell within SAME_POINT; -1: none. */
  const firstIn = (key: number, point: Vec3): number => {
    let found = -1;
    for (let i = last[key & (last.length - 1)]; i >= 0; i = before[i]) if (isSame(points[i], point)) found = i;
    return found;
  };
  const nearest = (point: Vec3): number => {
    for (let x = low(point[0]); x <= high(point[0]); x++) {
      for (let y = low(point[1]); y <= high(point[1]); y++) {
        for (let z = low(point[2]); z <= high(point[2]); z++) {
          const near = firstIn(keyOf(x, y, z), point);
          if (near >= 0) return near;
        }
      }
    }
    return -1;
  };
  const add = (point: Vec3): number => {
    before.push(-1);
    keys.push(-1);
    return points.push(point) - 1;
  };
  const link = (i: number): void => {
    const slot = keys[i] & (last.length - 1);
    before[i] = last[slot];
    last[slot] = i;
  };
  const indexOf = (point: Vec3): number => {
    const known = nearest(point);
    if (known >= 0) return known;
    const index = add(point);
    keys[index] = keyOf(Math.floor(point[0] / cell), Math.floor(point[1] / cell), Math.floor(point[2] / cell));
    if (index < last.length) link(index);
    else {
      last = new Int32Array(2 * last.length).fill(-1);
      for (let i = 0; i <= index; i++) if (keys[i] >= 0) link(i);
    }
    return index;
  };
  return { points, indexOf, add };
};

const isSame = (a: Vec3, b: Vec3): boolean =>
  (a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2 + (a[2] - b[2]) ** 2 <= SAME_POINT * SAME_POINT;
