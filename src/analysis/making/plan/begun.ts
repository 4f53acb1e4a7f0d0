/** Searches that a verdict has begun, for the bend plan to go on with. */
import { LruCache } from '../../cache/lru-cache.js';
import type { Begun } from './search.js';

/** Searches kept: each holds all that was held against tools, so no more than the parts of a tub. */
const KEPT = 12;

const begun = new LruCache<Begun | undefined>(KEPT);

/** By what the plan depends on. */
export const keepBegun = (key: string, search: Begun): void => begun.set(key, search);

/** Gives it away: it can be gone on with once. */
export const takeBegun = (key: string): Begun | undefined => {
  const search = begun.get(key);
  if (search) begun.set(key, undefined);
  return search;
};
