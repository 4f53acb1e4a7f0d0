/** How the metal beyond a bend moves when the bend, or its mark, is a little off. */
import { SAME_DIRECTION } from '../../geometry/tolerance.js';
import { addScaled, cross, dot, scale, subtract, unit, type Vec3 } from '../../geometry/vec.js';
import type { Shape } from '../../shape/shape.js';
import type { Crossing } from './part-paths.js';

export interface BendMotion {
  readonly bend: number;
  /** What lies beyond the bend turns about this unit axis through this centre, per rad of extra bend. */
  readonly axis: Vec3;
  readonly centre: Vec3;
  /** Movement of everything beyond per mm that the bend line is marked too far from the near panel. */
  readonly perMark: Vec3;
}

/**
 * First-order motion of what lies beyond a bend, seen from the panel before it.
 *
 * Angle: the neutral line keeps its length and the bend stays round, so the far panel turns about the centroid of the
 * neutral arc (derived: that is where the tip of an arc of fixed length is seen to turn). Mark: the near panel grows along
 * itself and the far panel is drawn in along itself by as much, since the outline is cut already.
 */
export const bendMotion = (shape: Shape, { bend: index, from, to }: Crossing): BendMotion => {
  const bend = shape.bends[index];
  const along = unit(subtract(bend.end, bend.start));
  // In the first face the bend runs counter-clockwise: its metal lies to the left.
  const inwardFirst = cross(shape.faces[bend.faces[0]].frame.normal, along);
  const inwardSecond = cross(along, shape.faces[bend.faces[1]].frame.normal);
  const forwards = from === bend.faces[0] && to === bend.faces[1];
  const nearInward = forwards ? inwardFirst : inwardSecond;
  const farInward = forwards ? inwardSecond : inwardFirst;
  const nearNormal = shape.faces[from].frame.normal;
  const centre = neutralCentroid(bend.start, nearInward, nearNormal, bend);
  // More bend turns the far panel further the way it is turned already: from the near panel's run-on towards itself.
  const turning = cross(scale(nearInward, -1), farInward);
  const axis = bend.angle > SAME_DIRECTION ? unit(turning) : along;
  return { bend: index, axis, centre, perMark: subtract(scale(nearInward, -1), farInward) };
};

/** Movement of a point beyond the bend per rad of extra bend, mm/rad. */
export const movePerAngle = ({ axis, centre }: BendMotion, point: Vec3): Vec3 => cross(axis, subtract(point, centre));

interface ArcSize {
  readonly angle: number;
  readonly radius: number;
  readonly thickness: number;
  readonly wet: 'inside' | 'outside';
  readonly setback: number;
  readonly kFactor: number;
}

const neutralCentroid = (sharp: Vec3, nearInward: Vec3, nearNormal: Vec3, bend: ArcSize): Vec3 => {
  const tangent = addScaled(sharp, nearInward, bend.setback);
  const lift = bend.wet === 'inside' ? bend.radius : -(bend.radius + bend.thickness);
  const middle = addScaled(tangent, nearNormal, lift);
  const outward = unit(subtract(sharp, middle));
  const half = bend.angle / 2;
  const neutral = bend.radius + bend.kFactor * bend.thickness;
  return addScaled(middle, outward, half > SAME_DIRECTION ? (neutral * Math.sin(half)) / half : neutral);
};

/** The part of a movement that opens a seam: square to it. Along the seam the panels only slide. */
export const acrossSeam = (movement: Vec3, along: Vec3): Vec3 => addScaled(movement, along, -dot(movement, along));
