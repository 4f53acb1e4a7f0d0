import { cross, lengthOf, unit, type Vec3 } from './vec.js';
import { leaned, squared, type Lean } from './lean.js';
import { SAME_DIRECTION } from './tolerance.js';

interface LevelAxes {
  readonly level: Vec3;
  readonly upright: Vec3;
}

/**
 * The two directions a builder would draw along on a face: `level` (horizontal) and `upright` (straight up the face).
 * On a horizontal face they are the tub's x and y. With `lean` as it is built, before it is set up leaning.
 */
export const levelAxes = (normal: Vec3, lean?: Lean): LevelAxes => {
  if (!lean) return axesOf(normal);
  const { level, upright } = axesOf(squared(normal, lean));
  return { level: leaned(level, lean), upright: leaned(upright, lean) };
};

const axesOf = (normal: Vec3): LevelAxes => {
  const level = cross([0, 0, 1], normal);
  if (lengthOf(level) <= SAME_DIRECTION) return { level: [1, 0, 0], upright: [0, 1, 0] };
  const unitLevel = unit(level);
  const upright = cross(normal, unitLevel);
  return { level: unitLevel, upright };
};
