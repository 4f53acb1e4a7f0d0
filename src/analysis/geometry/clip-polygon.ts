import { dot, lerp, type Vec3 } from './vec.js';

/**
 * The part of a polygon on the side `normal . p + offset >= 0` of a plane (Sutherland-Hodgman); empty when there is none, the
 * polygon itself when it is all of it.
 */
export const clipPolygon = (corners: readonly Vec3[], normal: Vec3, offset: number): readonly Vec3[] => {
  const sides = corners.map((corner) => dot(corner, normal) + offset);
  if (sides.every((side) => side >= 0)) return corners;
  const kept: Vec3[] = [];
  for (let i = 0; i < corners.length; i++) {
    const j = i + 1 < corners.length ? i + 1 : 0;
    if (sides[i] >= 0) kept.push(corners[i]);
    if (sides[i] >= 0 !== sides[j] >= 0) kept.push(lerp(corners[i], corners[j], sides[i] / (sides[i] - sides[j])));
  }
  return kept;
};
