import type { Vec3 } from '../../geometry/vec.js';
import type { Box } from '../../model/tub.js';
import { trianglesTouching, type Pool } from './pools.js';
import type { Surface } from '../surface/surface.js';

/** How deep a box reaches into a body of water, mm; 0: it stays dry. The water stands over the pool's faces up to its level. */
export const depthInWater = (surface: Surface, pool: Pool, box: Box): number => {
  const top = Math.min(pool.level, box.max[2]);
  if (box.min[2] >= pool.level) return 0;
  let deepest = 0;
  for (const t of trianglesTouching(surface, pool.points)) {
    const corners = surface.triangle(t).corners.map((point) => surface.points[point]);
    if (planArea(corners) <= 0) continue;
    for (const [, , z] of clipToBox(corners, box)) deepest = Math.max(deepest, top - Math.max(z, box.min[2]));
  }
  return deepest;
};

const planArea = ([a, b, c]: readonly Vec3[]): number => (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);

/** The part of a triangle inside the plan of a box (Sutherland-Hodgman). */
const clipToBox = (corners: readonly Vec3[], { min, max }: Box): readonly Vec3[] => {
  let ring = corners;
  for (const axis of [0, 1]) {
    ring = clipBeyond(ring, axis, min[axis], 1);
    ring = clipBeyond(ring, axis, max[axis], -1);
  }
  return ring;
};

const clipBeyond = (ring: readonly Vec3[], axis: number, limit: number, sign: 1 | -1): readonly Vec3[] =>
  ring.flatMap((p, i): readonly Vec3[] => {
    const q = ring[(i + 1) % ring.length];
    const [dp, dq] = [sign * (p[axis] - limit), sign * (q[axis] - limit)];
    const kept = dp >= 0 ? [p] : [];
    if (dp * dq >= 0) return kept;
    const t = dp / (dp - dq);
    return [...kept, [p[0] + (q[0] - p[0]) * t, p[1] + (q[1] - p[1]) * t, p[2] + (q[2] - p[2]) * t]];
  });
