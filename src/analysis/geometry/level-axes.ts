import { cross, lengthOf, unit, type Vec3 } from './vec.js';
import { SAME_DIRECTION } from './tolerance.js';

/**
 * The two directions a builder would draw along on a face: `level` (horizontal) and `upright` (straight up the face).
 * On a horizontal face they are the tub's x and y.
 */
export const levelAxes = (normal: Vec3): { readonly level: Vec3; readonly upright: Vec3 } => {
  const level = cross([0, 0, 1], normal);
  if (lengthOf(level) <= SAME_DIRECTION) return { level: [1, 0, 0], upright: [0, 1, 0] };
  const unitLevel = unit(level);
  const upright = cross(normal, unitLevel);
  return { level: unitLevel, upright };
};
