import { distance, type Vec3 } from '../../geometry/vec.js';
import { weldVertices } from '../../geometry/weld-vertices.js';
import { accountEdges, lowEnd, type EdgeEntry } from './edge-account.js';
import type { Shape, Stretch } from '../shape.js';

/** What ends the sheet along an edge. */
export interface Border {
  readonly stretch: Stretch;
  /**
   * `free`: a rim or free edge; water that gets there leaves. `shut`: a gap that is meant to be closed (another edge runs
   * close by, or the rest of the edge is joined); levels show the tub as intended, the leak checks the gap.
   */
  readonly kind: 'free' | 'shut';
}

/** The border along each stretch that no other face meets. Cost: O(n log n) in stretches. */
export const findBorders = (shape: Shape): ReadonlyMap<Stretch, Border> => {
  const borders = new Map<Stretch, Border>();
  const { entries } = accountEdges(shape);
  const isBesideGap = besideGaps(entries);
  for (const entry of entries) {
    const { stretch, use } = entry;
    if (stretch.mates.length > 0) continue;
    const isFree = use === 'rim' || (use === 'free' && !isBesideGap(stretch));
    borders.set(stretch, { stretch, kind: isFree ? 'free' : 'shut' });
  }
  return borders;
};

/** Sine of the slope from which a free edge stands up rather than lies along a rim: 30 deg. */
const STANDS_UP = 0.5;

/**
 * Is it the upright side of an open place: an edge that rises from where another is left open? It then belongs to the gap.
 * The rim is above it, and the water would stand up to that if the place were closed.
 */
const besideGaps = (entries: readonly EdgeEntry[]): ((stretch: Stretch) => boolean) => {
  const open = entries.filter(({ use }) => use === 'uncovered' || use === 'near');
  if (open.length === 0) return () => false;
  const { indexOf } = weldVertices();
  const ends = new Set(open.flatMap(({ stretch }) => [indexOf(stretch.start), indexOf(stretch.end)]));
  return (stretch) => standsUp(stretch.start, stretch.end) && ends.has(indexOf(lowEnd(stretch)));
};

const standsUp = (from: Vec3, to: Vec3): boolean => Math.abs(from[2] - to[2]) > STANDS_UP * distance(from, to);
