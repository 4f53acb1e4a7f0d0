import type { Vec3 } from './vec.js';
import { SAME_WAY } from './tolerance.js';

/** Cells of directions that a line lies in; empty for one without length. */
export interface DirectionCells {
  /** The one it is of. */
  readonly own: number | undefined;
  /** That one, and those it comes within SAME_WAY of. */
  readonly all: readonly number[];
}

/** Lines of about one direction, either way round. Indices ascend. */
export interface DirectionGroup {
  /** The lines of this group: every line with a direction is in one group. */
  readonly asking: readonly number[];
  /** These, and every line of another group that runs within SAME_WAY of one of them. */
  readonly present: readonly number[];
}

/** rad, about: the width of a cell. Narrow, so that the ribs of a cone are kept apart. */
const WIDTH = 0.02;

/**
 * Where a direction (unit vector) lies among cells on the faces of a cube. Around a cone's tip the boxes of all edges overlap,
 * and only the direction tells them apart.
 */
export const cellsOf = (direction: Vec3): DirectionCells => {
  const most = Math.max(Math.abs(direction[0]), Math.abs(direction[1]), Math.abs(direction[2]));
  const all: number[] = [];
  let own: number | undefined;
  if (!(most > 0)) return { own, all };
  for (let axis = 0; axis < 3; axis++) {
    const length = Math.abs(direction[axis]);
    if (length < most * (1 - 2 * SAME_WAY)) continue;
    const a = direction[(axis + 1) % 3] / direction[axis];
    const b = direction[(axis + 2) % 3] / direction[axis];
    if (own === undefined && length === most) own = keyOf(axis, cellAt(a), cellAt(b));
    // Near the border of a cell also the one beyond.
    for (let p = cellAt(a - SAME_WAY); p <= cellAt(a + SAME_WAY); p++) {
      for (let q = cellAt(b - SAME_WAY); q <= cellAt(b + SAME_WAY); q++) all.push(keyOf(axis, p, q));
    }
  }
  return { own, all };
};

/** Groups lines by their cells. Cost: O(n). */
export const groupByDirection = (lines: readonly DirectionCells[]): readonly DirectionGroup[] => {
  const groups = new Map<number, { asking: number[]; present: number[] }>();
  lines.forEach(({ own, all }, i) => {
    for (const cell of all) {
      let group = groups.get(cell);
      if (!group) groups.set(cell, (group = { asking: [], present: [] }));
      group.present.push(i);
      if (cell === own) group.asking.push(i);
    }
  });
  return [...groups.values()];
};

/** Slopes lie within -1.02..1.02, so cells within -64..63. */
const keyOf = (axis: number, p: number, q: number): number => (axis * 128 + p + 64) * 128 + q + 64;

const cellAt = (slope: number): number => Math.floor(slope / WIDTH);
