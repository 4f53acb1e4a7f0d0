/** Polynomials by their coefficients, lowest power first, and what is integrated of them. */

export type Polynomial = readonly number[];

export const product = (p: Polynomial, q: Polynomial): Polynomial => {
  const found = new Array<number>(p.length + q.length - 1).fill(0);
  p.forEach((a, i) => q.forEach((b, j) => (found[i + j] += a * b)));
  return found;
};

export const power = (p: Polynomial, times: number): Polynomial =>
  times === 0 ? [1] : product(p, power(p, times - 1));

export const derivative = (p: Polynomial): Polynomial => (p.length < 2 ? [0] : p.slice(1).map((c, i) => c * (i + 1)));

export const valueAt = (p: Polynomial, t: number): number => p.reduceRight((sum, c) => sum * t + c, 0);

/** Legendre's polynomials of degree 0 to n - 1: (k + 1) P(k+1) = (2 k + 1) t P(k) - k P(k-1). */
export const legendre = (n: number): readonly Polynomial[] => {
  const all: Polynomial[] = [[1], [0, 1]];
  for (let k = 1; all.length < n; k++) {
    const [before, last] = [all[k - 1], all[k]];
    const next = new Array<number>(k + 2).fill(0);
    last.forEach((c, i) => (next[i + 1] += ((2 * k + 1) * c) / (k + 1)));
    before.forEach((c, i) => (next[i] -= (k * c) / (k + 1)));
    all.push(next);
  }
  return all.slice(0, n);
};

export interface Station {
  readonly at: number;
  readonly weight: number;
}

/** Gauss's rule with n stations between two ends, exact up to degree 2 n - 1; the zeros of P(n) by Newton's method. */
export const gauss = (n: number, from: number, to: number): readonly Station[] => {
  const p = legendre(n + 1)[n];
  const slope = derivative(p);
  const half = (to - from) / 2;
  return Array.from({ length: n }, (_, i): Station => {
    let t = Math.cos((Math.PI * (i + 0.75)) / (n + 0.5));
    for (let step = 0; step < NEWTON_STEPS; step++) t -= valueAt(p, t) / valueAt(slope, t);
    return { at: from + half * (1 + t), weight: (2 * half) / ((1 - t * t) * valueAt(slope, t) ** 2) };
  });
};

const NEWTON_STEPS = 20;
