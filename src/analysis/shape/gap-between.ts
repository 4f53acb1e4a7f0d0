import { addScaled, distance, dot, subtract, type Vec3 } from '../geometry/vec.js';
import type { Face } from './shape.js';

/** Smallest distance between the outlines of two faces, mm. Cost: product of their corner counts. */
export const gapBetween = (a: Face, b: Face): number => {
  let least = Infinity;
  forEachEdge(a, (p, q) => {
    forEachEdge(b, (r, s) => {
      least = Math.min(least, segmentGap(p, q, r, s));
    });
  });
  return least;
};

const forEachEdge = (face: Face, visit: (start: Vec3, end: Vec3) => void): void =>
  face.corners.forEach((corner, i) => visit(corner, face.corners[(i + 1) % face.corners.length]));

/** Distance from a point to a segment in space, mm. */
export const pointToSegment = (point: Vec3, a: Vec3, b: Vec3): number => {
  const along = subtract(b, a);
  const square = dot(along, along);
  const t = square > 0 ? Math.min(1, Math.max(0, dot(subtract(point, a), along) / square)) : 0;
  return distance(point, addScaled(a, along, t));
};

/** Distance between two segments in space, mm. */
export const segmentGap = (p: Vec3, q: Vec3, r: Vec3, s: Vec3): number => {
  const u = subtract(q, p);
  const v = subtract(s, r);
  const w = subtract(p, r);
  const [a, b, c, d, e] = [dot(u, u), dot(u, v), dot(v, v), dot(u, w), dot(v, w)];
  const denominator = a * c - b * b;
  const ends = Math.min(pointToSegment(p, r, s), pointToSegment(q, r, s), pointToSegment(r, p, q), pointToSegment(s, p, q));
  if (denominator <= 1e-12 * a * c) return ends;
  const t1 = (b * e - c * d) / denominator;
  const t2 = (a * e - b * d) / denominator;
  if (t1 < 0 || t1 > 1 || t2 < 0 || t2 > 1) return ends;
  return Math.min(ends, distance(addScaled(p, u, t1), addScaled(r, v, t2)));
};
