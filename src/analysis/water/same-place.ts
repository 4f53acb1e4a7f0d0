import { memoBy } from '../cache/memo.js';
import type { Vec3 } from '../geometry/vec.js';
import type { Surface } from './surface/surface.js';

/** Finds the point of a surface at a place of another surface of the same tub: the corners that both have are the same numbers. */
export const samePlace = memoBy(({ points }: Surface): ((place: Vec3) => number | undefined) => {
  const known = new Map<string, number>();
  points.forEach((point, i) => {
    const key = point.join(' ');
    if (!known.has(key)) known.set(key, i);
  });
  return (place) => known.get(place.join(' '));
});
