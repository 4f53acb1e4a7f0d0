import { SOLVED } from '../tolerance.js';

/** Smallest positive value from which `passes` holds, by doubling from `start` and halving; to SOLVED of it. */
export const leastThat = (start: number, passes: (value: number) => boolean): number => {
  let high = start;
  for (let i = 0; i < 60 && !passes(high); i++) high *= 2;
  if (!passes(high)) return Infinity;
  let low = 0;
  while (high - low > SOLVED * high) {
    const middle = (low + high) / 2;
    if (passes(middle)) high = middle;
    else low = middle;
  }
  return high;
};
