/** When two convex bodies share room while one is on the move. */
import { NO_AXIS, ROUND_OFF } from '../../geometry/tolerance.js';
import { cross, dot, lengthOf, scale, type Vec3 } from '../../geometry/vec.js';
import { spanOf, type Prism } from '../bodies/prisms.js';

/** From and to, mm along the move; either may be without end. */
export type Window = readonly [number, number];

/**
 * The stretch of a straight move over which `p` is in `q` by more than `clear` mm along every axis that could part them; undefined: at no
 * place. With `then` it is the stretch from any place of which `p` would meet `q` if it went on that way without end. Exact for convex
 * bodies: on each axis the place of one is linear in how far it has gone.
 */
export const windowOf = (p: Prism, q: Prism, way: Vec3, clear: number, then?: Vec3): Window | undefined => {
  let [from, to] = [-Infinity, Infinity];
  const narrow = (axis: Vec3): boolean => {
    const length = lengthOf(axis);
    if (length < NO_AXIS) return true;
    const along = scale(axis, 1 / length);
    const [moves, goesOn] = [dot(along, way), then ? dot(along, then) : 0];
    const [a, b] = [spanOf(along, p.corners), spanOf(along, q.corners)];
    // How far it must have gone that its end has come in, and that its start has not yet left.
    if (goesOn <= ROUND_OFF && !limit(clear + b[0] - a[1], moves, true)) return false;
    return goesOn < -ROUND_OFF || limit(b[1] - a[0] - clear, moves, false);
  };
  /** `t * moves` must be more (or less) than a bound. */
  const limit = (bound: number, moves: number, isMore: boolean): boolean => {
    if (Math.abs(moves) <= ROUND_OFF) return isMore ? bound < 0 : bound > 0;
    if (moves > 0 === isMore) from = Math.max(from, bound / moves);
    else to = Math.min(to, bound / moves);
    return from < to;
  };
  if (!p.normals.every(narrow) || !q.normals.every(narrow)) return undefined;
  if (then && ![...p.edges, ...q.edges].every((edge) => narrow(cross(edge, then)))) return undefined;
  for (const edge of p.edges) for (const other of q.edges) if (!narrow(cross(edge, other))) return undefined;
  return [from, to];
};
