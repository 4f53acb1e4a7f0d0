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
  /** It runs off over a free edge or rim, or over the hem of one. */
  | { readonly kind: 'edge'; readonly stretch: Stretch }
  /** It runs on over a crest of the sheet. */
  | { readonly kind: 'crest'; readonly point: number }
  | { readonly kind: 'none' };

export const spillCause = (surface: Surface, { flood, open }: Drainage, pool: Pool): SpillCause => {
  if (!Number.isFinite(pool.level)) return { kind: 'none' };
  let at = pool.points[0];
  while (flood.next[at] >= 0 && surface.points[at][2] < pool.level) at = flood.next[at];
  const hem = hemAt(surface, at);
  if (hem) return { kind: 'edge', stretch: hem };
  if (flood.next[at] !== -1) return { kind: 'crest', point: at };
  const edge = flood.exitEdge[at];
  const hole = listOf(surface.mesh.trianglesOfEdge, edge).find((t) => isHole({ surface, open }, t));
  if (hole !== undefined) return { kind: 'rim', opening: surface.mesh.openingOf[hole] };
  const border = surface.mesh.borders.get(edge);
  return border ? { kind: 'edge', stretch: border.stretch } : { kind: 'crest', point: at };
};

/** The edge that is turned back at a point. */
const hemAt = ({ mesh, hems }: Surface, point: number): Stretch | undefined => {
  for (const t of listOf(mesh.trianglesAt, point)) {
    const hem = hems.get(mesh.faceOf[t]);
    if (hem) return hem.rim;
  }
  return undefined;
};
