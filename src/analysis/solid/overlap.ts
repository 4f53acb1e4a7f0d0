/** How much room two bodies share. */
import type { Vec3 } from '../geometry/vec.js';
import { boxedPrisms, depthOf, overlapAlong, type Body, type Box } from './prisms.js';

export interface Overlap {
  /** How far one would have to move to be clear of the other where they overlap most, mm. */
  readonly depth: number;
  /** In the middle of what they share there. */
  readonly point: Vec3;
  /** Middles of all that prisms of both share. */
  readonly places: readonly Vec3[];
}

/** mm. Metal that overlaps by less gives way when it is bent and joined. Common practice, no source. */
const LEAST_SHARED = 0.1;

/** Cost: the pairs of their prisms whose boxes meet. */
export const overlapOf = (a: Body, b: Body): Overlap | undefined => {
  // Most neighbours lie wholly on one side of one another.
  if ([...a.faces, ...b.faces].some((axis) => overlapAlong(axis, a.corners, b.corners) <= LEAST_SHARED))
    return undefined;
  const shared: { readonly depth: number; readonly point: Vec3 }[] = [];
  const near = boxedPrisms(b).filter((q) => boxesMeet(q, a));
  for (const p of near.length > 0 ? boxedPrisms(a) : []) {
    if (!boxesMeet(p, b)) continue;
    for (const q of near) {
      if (!boxesMeet(p, q)) continue;
      const depth = depthOf(p, q, LEAST_SHARED);
      if (depth > LEAST_SHARED) shared.push({ depth, point: middleOf(p, q) });
    }
  }
  if (shared.length === 0) return undefined;
  const { depth, point } = shared.reduce((most, each) => (each.depth > most.depth ? each : most));
  return { depth, point, places: shared.map((each) => each.point) };
};

/** A flat one may lie within the other's box. */
const boxesMeet = (p: Box, q: Box): boolean =>
  [0, 1, 2].every((k) => Math.min(p.high[k], q.high[k]) >= Math.max(p.low[k], q.low[k]));

/** Of the box that both are in. */
const middleOf = (p: Box, q: Box): Vec3 =>
  [0, 1, 2].map((k) => (Math.max(p.low[k], q.low[k]) + Math.min(p.high[k], q.high[k])) / 2) as unknown as Vec3;
