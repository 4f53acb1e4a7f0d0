import type { Vec3 } from '../geometry/vec.js';
import { lerp } from '../geometry/vec.js';
import type { Box } from '../model/tub.js';
import type { Face } from './shape.js';

/**
 * How deep a face reaches into a box, mm: the way its deepest part would have to move out through the nearest side.
 * The face's polygon is clipped by the six planes of the box (Sutherland-Hodgman); 0 when nothing is left inside.
 */
export const depthInBox = (face: Face, box: Box): number => {
  let inside: readonly Vec3[] = face.corners;
  for (const axis of [0, 1, 2] as const) {
    inside = clip(inside, axis, box.min[axis], 1);
    inside = clip(inside, axis, box.max[axis], -1);
  }
  if (inside.length === 0) return 0;
  const ways = ([0, 1, 2] as const).flatMap((axis) => [
    Math.max(...inside.map((p) => p[axis] - box.min[axis])),
    Math.max(...inside.map((p) => box.max[axis] - p[axis])),
  ]);
  return Math.min(...ways);
};

const clip = (corners: readonly Vec3[], axis: 0 | 1 | 2, limit: number, sign: 1 | -1): Vec3[] =>
  corners.flatMap((corner, i): Vec3[] => {
    const next = corners[(i + 1) % corners.length];
    const here = sign * (corner[axis] - limit);
    const there = sign * (next[axis] - limit);
    const kept = here >= 0 ? [corner] : [];
    return here * there < 0 ? [...kept, lerp(corner, next, here / (here - there))] : kept;
  });
