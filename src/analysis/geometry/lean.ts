/** A turn about a level axis through the origin, by which one side goes down. */
import { addScaled, cross, dot, scale, type Vec3 } from './vec.js';

export interface Lean {
  /** rad. */
  readonly tilt: number;
  /** The side that goes down: a level unit direction. */
  readonly towards: Vec3;
}

const UP: Vec3 = [0, 0, 1];

export const leaned = (vector: Vec3, { tilt, towards }: Lean): Vec3 => {
  const [s, c] = [Math.sin(tilt), Math.cos(tilt)];
  const side = cross(UP, towards);
  const [along, high] = [dot(vector, towards), vector[2]];
  return addScaled(addScaled(scale(side, dot(vector, side)), towards, along * c + high * s), UP, high * c - along * s);
};

/** The turn undone. */
export const squared = (vector: Vec3, { tilt, towards }: Lean): Vec3 => leaned(vector, { tilt: -tilt, towards });
