import type { Vec3 } from '../../geometry/vec.js';
import type { Bend } from '../../shape/shape.js';
import { weldVertices } from '../../geometry/weld-vertices.js';
import type { SeamRun } from './seam-runs.js';

/** What comes together at the points of a tub. */
export interface Meetings {
  /** All bends. */
  readonly bends: readonly Bend[];
  readonly runsAt: (point: Vec3) => readonly SeamRun[];
  readonly bendsAt: (point: Vec3) => readonly Bend[];
}

/** Ends of runs and of bends by place. Cost: O(n). */
export const meetingsOf = (runs: readonly SeamRun[], bends: Iterable<Bend>): Meetings => {
  const { indexOf } = weldVertices();
  const runsAt = new Map<number, SeamRun[]>();
  const bendsAt = new Map<number, Bend[]>();
  const put = <T>(map: Map<number, T[]>, point: Vec3, item: T): void => {
    const node = indexOf(point);
    const list = map.get(node);
    if (list) list.push(item);
    else map.set(node, [item]);
  };
  for (const run of runs) for (const end of [run.start, run.end]) put(runsAt, end, run);
  for (const bend of bends) for (const end of [bend.start, bend.end]) put(bendsAt, end, bend);
  return {
    bends: [...bends],
    runsAt: (point) => runsAt.get(indexOf(point)) ?? [],
    bendsAt: (point) => bendsAt.get(indexOf(point)) ?? [],
  };
};
