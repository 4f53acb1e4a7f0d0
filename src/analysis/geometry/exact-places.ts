import type { Vec3 } from './vec.js';

/** Finds the first of some points that is at a place to the last bit (-0 is 0); undefined: none. Cost: O(n), each answer O(1). */
export const exactPlaces = (points: readonly Vec3[]): ((place: Vec3) => number | undefined) => {
  const size = 2 ** Math.ceil(Math.log2(Math.max(4, 2 * points.length)));
  const table = new Int32Array(size).fill(-1);
  const words = new Int32Array(2);
  const number = new Float64Array(words.buffer);
  const hashOf = (value: number): number => {
    // -0 and 0 are one place.
    number[0] = value + 0;
    return Math.imul(words[0], 0x85ebca77) ^ Math.imul(words[1], 0x9e3779b1);
  };
  /** Where a place stands in the table, or would. */
  const slotOf = (place: Vec3): number => {
    const hash = Math.imul(Math.imul(hashOf(place[0]), 31) + hashOf(place[1]), 31) + hashOf(place[2]);
    let slot = (hash ^ (hash >>> 15)) & (size - 1);
    for (let i = table[slot]; i >= 0; i = table[slot]) {
      if (isSame(points[i], place)) return slot;
      slot = (slot + 1) & (size - 1);
    }
    return slot;
  };
  points.forEach((point, i) => {
    const slot = slotOf(point);
    if (table[slot] < 0) table[slot] = i;
  });
  return (place) => {
    const found = table[slotOf(place)];
    return found < 0 ? undefined : found;
  };
};

const isSame = (a: Vec3, b: Vec3): boolean => a[0] === b[0] && a[1] === b[1] && a[2] === b[2];
