/** How likely a sum of squares is by chance alone. */
import { NO_CROSS } from '../tolerance.js';

const MOST_TERMS = 500;

/**
 * Share of chi-square with `freedom` degrees above `x`: the incomplete gamma function, by its series below `freedom / 2 + 1` and by
 * its continued fraction above. Source: Abramowitz and Stegun 6.5.29, 6.5.31 (from memory); a test compares with a printed table.
 */
export const chiSquareAbove = (x: number, freedom: number): number => {
  if (!(x > 0)) return 1;
  const [a, z] = [freedom / 2, x / 2];
  const scale = Math.exp(a * Math.log(z) - z - logGamma(a));
  return z < a + 1 ? 1 - scale * series(a, z) : scale * fraction(a, z);
};

const series = (a: number, z: number): number => {
  let [term, sum] = [1 / a, 1 / a];
  for (let n = 1; n < MOST_TERMS && term > sum * NO_CROSS; n++) {
    term *= z / (a + n);
    sum += term;
  }
  return sum;
};

/** From its end inwards, which needs no guard against a division by nothing. */
const fraction = (a: number, z: number): number => {
  let value = 0;
  for (let n = MOST_TERMS; n > 0; n--) value = (n * (n - a)) / (z + 2 * n + 1 - a - value);
  return 1 / (z + 1 - a - value);
};

/** Of a half or a whole: by steps from gamma(1 / 2) and gamma(1). */
const logGamma = (a: number): number => {
  let [at, sum] = [a, 0];
  while (at > 1) sum += Math.log(--at);
  return at === 1 ? sum : sum + Math.log(Math.PI) / 2;
};
