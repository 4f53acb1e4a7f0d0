import { dot } from '../geometry/vec.js';
import type { Tub } from '../model/tub.js';
import type { FaceIndex } from '../shape/shape.js';
import { spoutOver } from '../shape/spouts.js';
import { spillCause } from './flow/route/spill-cause.js';
import { trianglesTouching, type Pool } from './standing/pools.js';
import type { Surface } from './surface/surface.js';
import type { Water } from './water.js';

/**
 * The divider that parts a pool, all outlets open, from those outlets, where the pool leaves over a rim or free edge that is no spout
 * before it comes over the divider; undefined: none does.
 */
export const partedOffBy = (tub: Tub, { surface, drained }: Water, pool: Pool): FaceIndex | undefined => {
  const { dividers, faces } = surface();
  if (dividers.size === 0) return undefined;
  const cause = spillCause(surface(), drained(), pool);
  if (cause.kind !== 'edge' || spoutOver(tub, faces, cause.stretch) >= 0) return undefined;
  return oneSided(surface(), pool);
};

/** The first divider that a pool wets on one of its sides only. */
const oneSided = (surface: Surface, pool: Pool): FaceIndex | undefined => {
  const { dividers, faces, mesh } = surface;
  const wet = new Map<FaceIndex, Set<boolean>>();
  for (const t of trianglesTouching(surface, pool.points)) {
    const { panel, frame } = faces[mesh.faceOf[t]];
    if (!dividers.has(panel)) continue;
    const way = dot(frame.normal, faces[panel].frame.normal);
    if (Math.abs(way) > SIDE) wet.set(panel, (wet.get(panel) ?? new Set()).add(way > 0));
  }
  return [...wet.keys()].sort((p, q) => p - q).find((panel) => wet.get(panel)!.size === 1);
};

/** Cosine: faces of a divider's sheet lie along it, its edges across. */
const SIDE = 0.5;
