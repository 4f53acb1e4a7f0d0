import type { Vec3 } from '../geometry/vec.js';

/** Lines of about one direction, either way round. Indices ascend. */
export interface DirectionGroup {
  /** The lines of this group: every line with a direction is in one group. */
  readonly asking: readonly number[];
  /** These, and every line of another group that runs within SAME_WAY of one of them. */
  readonly present: readonly number[];
}

/** rad, about: the width of a group. Narrow, so that the ribs of a cone are kept apart. */
const WIDTH = 0.02;
/**
 * rad, about: lines that differ by less share a group. Edges that run within a point tolerance of 0.001 mm of one another over
 * 0.4 mm and more do.
 */
const SAME_WAY = 0.005;

/**
 * Sorts directions (unit vectors) into cells on the faces of a cube. Around a cone's tip the boxes of all edges overlap, and
 * only the direction tells them apart. A vector without length is in no group. Cost: O(n).
 */
export const groupByDirection = (directions: readonly Vec3[]): readonly DirectionGroup[] => {
  const groups = new Map<number, { asking: number[]; present: number[] }>();
  directions.forEach((direction, i) => {
    const most = Math.max(Math.abs(direction[0]), Math.abs(direction[1]), Math.abs(direction[2]));
    if (!(most > 0)) return;
    const own = direction.findIndex((c) => Math.abs(c) === most);
    for (let axis = 0; axis < 3; axis++) {
      if (Math.abs(direction[axis]) < most * (1 - 2 * SAME_WAY)) continue;
      const a = direction[(axis + 1) % 3] / direction[axis];
      const b = direction[(axis + 2) % 3] / direction[axis];
      // Near the border of a cell also the one beyond.
      for (let p = cellOf(a - SAME_WAY); p <= cellOf(a + SAME_WAY); p++) {
        for (let q = cellOf(b - SAME_WAY); q <= cellOf(b + SAME_WAY); q++) {
          const group = groupAt(groups, keyOf(axis, p, q));
          group.present.push(i);
          if (axis === own && p === cellOf(a) && q === cellOf(b)) group.asking.push(i);
        }
      }
    }
  });
  return [...groups.values()];
};

const groupAt = <T>(groups: Map<number, { asking: T[]; present: T[] }>, key: number): { asking: T[]; present: T[] } => {
  const found = groups.get(key);
  if (found) return found;
  const group = { asking: [], present: [] };
  groups.set(key, group);
  return group;
};

/** Slopes lie within -1.02..1.02, so cells within -64..63. */
const keyOf = (axis: number, p: number, q: number): number => (axis * 128 + p + 64) * 128 + q + 64;

const cellOf = (slope: number): number => Math.floor(slope / WIDTH);
