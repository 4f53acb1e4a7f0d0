import type { Stretch } from '../../../shape/shape.js';
import type { Drainage } from '../drainage.js';
import { isHole } from '../flow-net.js';
import { listOf } from '../../surface/mesh.js';
import type { Pool } from '../../standing/pools.js';
import type { Surface } from '../../surface/surface.js';

/** What holds a pool back. */
export type SpillCause =
  /** It runs off over the rim of an opening, after rising over a raised edge if it has one. */
  | { readonly kind: 'rim'; readonly opening: number }
  /** It runs off over a free edge or rim, after rising over a hem turned to the wet side if `dam` > 0. */
  | { readonly kind: 'edge'; readonly stretch: Stretch; readonly dam: number }
  /** It runs on over a crest of the sheet. */
  | { readonly kind: 'crest'; readonly point: number }
  | { readonly kind: 'none' };

export const spillCause = (surface: Surface, { flood, open }: Drainage, pool: Pool): SpillCause => {
  if (!Number.isFinite(pool.level)) return { kind: 'none' };
  let at = pool.points[0];
  while (flood.next[at] >= 0 && surface.points[at][2] < pool.level) at = flood.next[at];
  if (flood.next[at] !== -1) return { kind: 'crest', point: at };
  const edge = flood.exitEdge[at];
  const hole = listOf(surface.mesh.trianglesOfEdge, edge).find((t) => isHole({ surface, open }, t));
  if (hole !== undefined) return { kind: 'rim', opening: surface.mesh.openingOf[hole] };
  const border = surface.mesh.borders.get(edge);
  return border ? { kind: 'edge', stretch: border.stretch, dam: border.dam } : { kind: 'crest', point: at };
};
