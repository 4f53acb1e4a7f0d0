import type { Hem, Tub } from '../model/tub.js';
import { accountEdges } from './edge-account.js';
import type { Shape, Stretch } from './shape.js';

/** What ends the sheet along an edge. */
export interface Border {
  readonly stretch: Stretch;
  /**
   * `free`: a rim or free edge; water that gets there leaves. `shut`: a gap that is meant to be closed (another edge runs
   * close by, or the rest of the edge is joined); the water figures show the tub as intended, the leak checks the gap.
   */
  readonly kind: 'free' | 'shut';
  /** Height of a hem that stands up on the wet face, mm along z; water has to rise over it. */
  readonly dam: number;
}

/** The border along each stretch that no other face meets. Cost: O(n log n) in stretches. */
export const findBorders = (tub: Tub, shape: Shape): ReadonlyMap<Stretch, Border> => {
  const borders = new Map<Stretch, Border>();
  for (const { stretch, use } of accountEdges(shape).entries) {
    if (stretch.mates.length > 0) continue;
    const hem = stretch.rim === undefined ? undefined : tub.rims[stretch.rim].hem;
    const { normal } = shape.faces[stretch.face].frame;
    const thickness = tub.sheets[tub.panels[stretch.face].sheet]?.thickness ?? 0;
    const dam = hemHeight(hem, thickness) * Math.max(0, normal[2]);
    borders.set(stretch, { stretch, kind: use === 'rim' || use === 'free' ? 'free' : 'shut', dam });
  }
  return borders;
};

/** A hem turned to the wet side lies on it: its gap and its own thickness stand in the way. */
const hemHeight = (hem: Hem | undefined, thickness: number): number =>
  hem?.turned === 'wet' ? hem.gap + thickness : 0;
