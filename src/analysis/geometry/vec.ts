/** Points and vectors of the plane and of space, in mm; plain arrays, so that every model stays JSON. */
export type Vec2 = readonly [number, number];
export type Vec3 = readonly [number, number, number];

export const add = (a: Vec3, b: Vec3): Vec3 => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
export const subtract = (a: Vec3, b: Vec3): Vec3 => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
export const scale = (a: Vec3, factor: number): Vec3 => [a[0] * factor, a[1] * factor, a[2] * factor];
/** `a + b * factor`. */
export const addScaled = (a: Vec3, b: Vec3, factor: number): Vec3 => [
  a[0] + b[0] * factor,
  a[1] + b[1] * factor,
  a[2] + b[2] * factor,
];
export const dot = (a: Vec3, b: Vec3): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
export const cross = (a: Vec3, b: Vec3): Vec3 => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
export const lengthOf = (a: Vec3): number => Math.hypot(a[0], a[1], a[2]);
export const distance = (a: Vec3, b: Vec3): number => Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);
/** Unit vector; a zero vector comes back as it is, for the caller to judge by its own tolerance. */
export const unit = (a: Vec3): Vec3 => {
  const length = lengthOf(a);
  return length > 0 ? scale(a, 1 / length) : a;
};
export const lerp = (a: Vec3, b: Vec3, t: number): Vec3 => [
  a[0] + (b[0] - a[0]) * t,
  a[1] + (b[1] - a[1]) * t,
  a[2] + (b[2] - a[2]) * t,
];
/** Angle between two directions, 0..pi; accurate near 0 and pi, where acos is not. */
export const angleBetween = (a: Vec3, b: Vec3): number => Math.atan2(lengthOf(cross(a, b)), dot(a, b));

/** Rodrigues' rotation about a unit axis. */
export const turnVector = (v: Vec3, axis: Vec3, angle: number): Vec3 => {
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  return add(add(scale(v, c), scale(cross(axis, v), s)), scale(axis, dot(axis, v) * (1 - c)));
};

export const add2 = (a: Vec2, b: Vec2): Vec2 => [a[0] + b[0], a[1] + b[1]];
export const subtract2 = (a: Vec2, b: Vec2): Vec2 => [a[0] - b[0], a[1] - b[1]];
export const scale2 = (a: Vec2, factor: number): Vec2 => [a[0] * factor, a[1] * factor];
export const addScaled2 = (a: Vec2, b: Vec2, factor: number): Vec2 => [a[0] + b[0] * factor, a[1] + b[1] * factor];
export const dot2 = (a: Vec2, b: Vec2): number => a[0] * b[0] + a[1] * b[1];
export const cross2 = (a: Vec2, b: Vec2): number => a[0] * b[1] - a[1] * b[0];
export const distance2 = (a: Vec2, b: Vec2): number => Math.hypot(a[0] - b[0], a[1] - b[1]);
export const lerp2 = (a: Vec2, b: Vec2, t: number): Vec2 => [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t];
/** Unit vector; a zero vector comes back as it is. */
export const unit2 = (a: Vec2): Vec2 => {
  const length = Math.hypot(a[0], a[1]);
  return length > 0 ? [a[0] / length, a[1] / length] : a;
};
/** A quarter turn to the left. */
export const left2 = (a: Vec2): Vec2 => [-a[1], a[0]];
