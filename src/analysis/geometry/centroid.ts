import { areaVector } from './polygon.js';
import { add, cross, dot, scale, subtract, type Vec3 } from './vec.js';

/** Middle of the area of a flat polygon in space; the first corner when it has no area. */
export const centroidOf = (corners: readonly Vec3[]): Vec3 => {
  const whole = areaVector(corners);
  const square = dot(whole, whole);
  const origin = corners[0];
  if (square === 0) return origin;
  let sum: Vec3 = [0, 0, 0];
  for (let i = 1; i + 1 < corners.length; i++) {
    const a = subtract(corners[i], origin);
    const b = subtract(corners[i + 1], origin);
    const share = dot(cross(a, b), whole) / square;
    sum = add(sum, scale(add(a, b), share / 3));
  }
  return add(origin, sum);
};
