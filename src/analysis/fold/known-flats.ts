import { deepEqual } from '../cache/deep-equal.js';
import { LruCache } from '../cache/lru-cache.js';
import type { FlatPattern } from './flat-pattern.js';

/** By name, as last seen: more than any tub has. */
const known = new LruCache<FlatPattern>(4096);

/**
 * The flat itself, or the one of that name that was seen before when the two are alike in everything: an edit changes few
 * parts, and what is kept by the flat (`memoBy`) holds for all others. The outcome does not depend on what was seen.
 */
export const asKnown = (flat: FlatPattern): FlatPattern => {
  const before = known.get(flat.name);
  if (before && deepEqual(before, flat)) return before;
  known.set(flat.name, flat);
  return flat;
};
