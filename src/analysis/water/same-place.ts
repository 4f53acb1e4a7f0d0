import { memoBy } from '../cache/memo.js';
import { exactPlaces } from '../geometry/exact-places.js';
import type { Vec3 } from '../geometry/vec.js';
import type { Surface } from './surface/surface.js';

/** Finds the point of a surface at a place of another surface of the same tub: the corners that both have are the same numbers. */
export const samePlace = memoBy(({ points }: Surface): ((place: Vec3) => number | undefined) => exactPlaces(points));
