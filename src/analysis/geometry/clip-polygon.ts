import { dot, lerp, type Vec3 } from './vec.js';

/** The part of a polygon on the side `normal . p + offset >= 0` of a plane (Sutherland-Hodgman); empty when there is none. */
export const clipPolygon = (corners: readonly Vec3[], normal: Vec3, offset: number): readonly Vec3[] => {
  const sides = corners.map((corner) => dot(corner, normal) + offset);
  return corners.flatMap((corner, i): Vec3[] => {
    const j = (i + 1) % corners.length;
    const kept = sides[i] >= 0 ? [corner] : [];
    if (sides[i] >= 0 === sides[j] >= 0) return kept;
    return [...kept, lerp(corner, corners[j], sides[i] / (sides[i] - sides[j]))];
  });
};
