import { add, cross, dot, scale, subtract, unit, type Vec2, type Vec3 } from './vec.js';

/** A right-handed frame in space: `u`, `v`, `normal` are orthonormal and `normal = u x v`. */
export interface Frame {
  readonly origin: Vec3;
  readonly u: Vec3;
  readonly v: Vec3;
  readonly normal: Vec3;
}

export const toPlane = (frame: Frame, point: Vec3): Vec2 => {
  const offset = subtract(point, frame.origin);
  return [dot(offset, frame.u), dot(offset, frame.v)];
};

export const toSpace = (frame: Frame, point: Vec2): Vec3 =>
  add(frame.origin, add(scale(frame.u, point[0]), scale(frame.v, point[1])));

/** Signed height of a point over the frame's plane, mm. */
export const heightOver = (frame: Frame, point: Vec3): number => dot(subtract(point, frame.origin), frame.normal);

/** The place on the frame's plane below or above a point. */
export const ontoPlane = (frame: Frame, point: Vec3): Vec3 => toSpace(frame, toPlane(frame, point));

/** A frame on the plane through `origin` with the unit `normal`, `u` along `along` (not parallel to `normal`). */
export const frameOn = (origin: Vec3, normal: Vec3, along: Vec3): Frame => {
  const u = unit(subtract(along, scale(normal, dot(along, normal))));
  return { origin, u, v: cross(normal, u), normal };
};
