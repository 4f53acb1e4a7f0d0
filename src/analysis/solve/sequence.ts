/**
 * Points that fill a unit cube evenly, however many are taken: steps by the powers of the one number above 1 that solves
 * x^(n+1) = x + 1 (the golden ratio for one dimension), each modulo 1. No chance: the same every time.
 * Source: M. Roberts, The unreasonable effectiveness of quasirandom sequences, 2018 (from memory).
 */
export const evenPoint = (index: number, dimensions: number): readonly number[] => {
  const ratio = ratioFor(dimensions);
  return Array.from({ length: dimensions }, (_, i) => (0.5 + (index + 1) / ratio ** (i + 1)) % 1);
};

const ratioFor = (dimensions: number): number => {
  let ratio = 1.5;
  for (let i = 0; i < 40; i++) ratio = (1 + ratio) ** (1 / (dimensions + 1));
  return ratio;
};
