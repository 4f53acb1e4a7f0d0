import type { Vec3 } from '../../geometry/vec.js';
import { memoBy } from '../../cache/memo.js';
import { LruCache } from '../../cache/lru-cache.js';
import {
  cutSides,
  findOverlaps,
  isNear,
  overlapBetween,
  sidesOf,
  type Box,
  type Contacts,
  type Overlap,
  type Overlaps,
} from './edge-contacts.js';

type Loops = readonly (readonly Vec3[])[];

interface Run {
  readonly loops: Loops;
  readonly overlaps: Overlaps;
  readonly contacts: Contacts;
}

/** Runs kept: of tubs that are open side by side. */
const KEPT = 8;
/** With more changed edges than this all are looked at anew, through a spatial index. */
const MOST_CHANGED = 256;

const lastRuns = new LruCache<Run>(KEPT);

/**
 * As `findEdgeContacts`, and what the same loops (by identity) met when loops of that name were last looked at is not
 * looked for again: only what a changed loop lies along. A loop whose contacts are the same gets the same object.
 * Cost: O(n) in loops for each changed edge.
 */
export const knownContacts = (name: string, loops: Loops): Contacts => {
  const before = lastRuns.get(name);
  const run = (before && updated(before, loops)) ?? newRun(loops);
  lastRuns.set(name, run);
  return run.contacts;
};

const newRun = (loops: Loops): Run => {
  const overlaps = findOverlaps(loops);
  return { loops, overlaps, contacts: loops.map((corners, loop) => cutSides(corners, overlaps[loop])) };
};

/** Undefined when too much has changed. */
const updated = (before: Run, loops: Loops): Run | undefined => {
  if (loops.length !== before.loops.length) return undefined;
  const changed = loops.flatMap((corners, loop) => (corners === before.loops[loop] ? [] : [loop]));
  if (changed.length === 0) return before;
  if (changed.reduce((sum, loop) => sum + loops[loop].length, 0) > MOST_CHANGED) return undefined;
  const overlaps = updatedOverlaps(before, loops, new Set(changed));
  const contacts = loops.map((corners, loop) =>
    overlaps[loop] === before.overlaps[loop] ? before.contacts[loop] : cutSides(corners, overlaps[loop]),
  );
  return { loops, overlaps, contacts };
};

const updatedOverlaps = (before: Run, loops: Loops, changed: ReadonlySet<number>): Overlaps => {
  const overlaps: (readonly (readonly Overlap[])[])[] = before.overlaps.map((edges) =>
    edges.some((list) => list.some(({ mate }) => changed.has(mate.loop)))
      ? edges.map((list) => list.filter(({ mate }) => !changed.has(mate.loop)))
      : edges,
  );
  for (const loop of changed) overlaps[loop] = loops[loop].map(() => []);
  const add = (loop: number, edge: number, overlap: Overlap | undefined): void => {
    if (!overlap) return;
    if (overlaps[loop] === before.overlaps[loop]) overlaps[loop] = [...overlaps[loop]];
    const list = [...overlaps[loop][edge], overlap];
    (overlaps[loop] as (readonly Overlap[])[])[edge] = list.sort(inOrder);
  };
  for (const loop of changed) {
    for (const [edge, side] of sidesOf(loops[loop]).entries()) {
      for (let other = 0; other < loops.length; other++) {
        if (other === loop || !isNear(side, boxOf(loops[other]))) continue;
        for (const [otherEdge, otherSide] of sidesOf(loops[other]).entries()) {
          add(loop, edge, overlapBetween(side, { loop: other, edge: otherEdge, side: otherSide }));
          if (!changed.has(other)) add(other, otherEdge, overlapBetween(otherSide, { loop, edge, side }));
        }
      }
    }
  }
  return overlaps;
};

const inOrder = ({ mate: p }: Overlap, { mate: q }: Overlap): number => p.loop - q.loop || p.edge - q.edge;

/** A little wider than its sides, so that no rounding hides one. */
const boxOf = memoBy((corners: readonly Vec3[]): Box => {
  const least = (axis: 0 | 1 | 2): number => Math.min(...corners.map((corner) => corner[axis])) - 1;
  const most = (axis: 0 | 1 | 2): number => Math.max(...corners.map((corner) => corner[axis])) + 1;
  return { low: [least(0), least(1), least(2)], high: [most(0), most(1), most(2)] };
});
