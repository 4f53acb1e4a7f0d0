/** Numbers that look like chance and are always the same: a stream from a seed (Marsaglia's xorshift, 32 bits). */
export interface Chance {
  /** 0 <= x < 1. */
  readonly next: () => number;
  /** Whole number, 0 <= i < n. */
  readonly below: (n: number) => number;
}

export const chanceFrom = (seed: number): Chance => {
  let state = Math.imul(seed + 1, 0x9e3779b1) | 1;
  const next = (): number => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return (state >>> 0) / 4294967296;
  };
  for (let i = 0; i < 8; i++) next();
  return { next, below: (n) => Math.floor(next() * n) };
};
