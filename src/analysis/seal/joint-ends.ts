/** Which joints run up to a point of the tub: what closes a hole there. */
import type { Vec3 } from '../geometry/vec.js';
import type { Tub } from '../model/tub.js';
import { holeClosed } from '../join/seam/hole-closed.js';
import type { Joints } from '../join/joints.js';
import { weldVertices } from '../geometry/weld-vertices.js';

export interface JointEnds {
  /** Width of the widest single hole that a joint ending at this point closes, mm; 0 where none does. */
  readonly holeClosedAt: (point: Vec3) => number;
}

/** Collects the ends of all seam runs. Cost: O(n). */
export const jointEndsOf = (tub: Tub, joints: Joints): JointEnds => {
  const { indexOf } = weldVertices();
  const closed: number[] = [];
  const close = (node: number, width: number): void => {
    closed[node] = Math.max(width, closed[node] ?? 0);
  };
  for (const { seam, method, runs } of joints.seams) {
    for (const { run } of runs) {
      const thickness = Math.min(run.sides[0].thickness, run.sides[1].thickness);
      const width = holeClosed(method.closing, thickness, tub.seams[seam].sealant);
      close(indexOf(run.start), width);
      close(indexOf(run.end), width);
    }
  }
  return { holeClosedAt: (point) => closed[indexOf(point)] ?? 0 };
};
