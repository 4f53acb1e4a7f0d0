import { memoBy } from '../cache/memo.js';
import type { FlatPattern } from './flat-pattern.js';

/** The flat as a brake sees it: steps that are pressed lie flat. Bends keep their indices, as pressed ones come last. */
export const bentFlat = memoBy((flat: FlatPattern): FlatPattern =>
  flat.bends.some(({ pressed }) => pressed) ? { ...flat, bends: flat.bends.filter(({ pressed }) => !pressed) } : flat,
);
