import { NO_CROSS } from '../geometry/tolerance.js';

/** A convex quadratic model with linear limits, in a few variables. */
export interface Quadratic {
  /** Symmetric and positive definite. */
  readonly curvature: readonly (readonly number[])[];
  readonly gradient: readonly number[];
  /** `row . d <= bound`; broken at a price of `price` for each unit by which it is. */
  readonly limits: readonly { readonly row: readonly number[]; readonly bound: number; readonly price: number }[];
}

const MOST_SWEEPS = 400;

/**
 * The least of gradient . d + d . curvature . d / 2 plus the price of what is broken. Coordinate ascent on the multipliers,
 * each between 0 and its price. Source: C. Hildreth, A quadratic programming procedure, Naval Res. Logist. Q. 4, 1957 (from
 * memory). O(limits * n) a sweep.
 */
export const leastOf = ({
  curvature,
  gradient,
  limits,
}: Quadratic): { readonly step: number[]; readonly multipliers: readonly number[] } => {
  const factor = choleskyOf(curvature);
  const step = solve(factor, gradient).map((each) => -each);
  const moves = limits.map(({ row }) => solve(factor, row));
  const stiffness = limits.map(({ row }, i) => dot(row, moves[i]));
  const multipliers = limits.map(() => 0);
  for (let sweep = 0; sweep < MOST_SWEEPS; sweep++) {
    let largest = 0;
    for (const [i, { row, bound, price }] of limits.entries()) {
      if (!(stiffness[i] > 0)) continue;
      const wanted = multipliers[i] + (dot(row, step) - bound) / stiffness[i];
      const next = Math.min(price, Math.max(0, wanted));
      const change = next - multipliers[i];
      if (change === 0) continue;
      multipliers[i] = next;
      for (let k = 0; k < step.length; k++) step[k] -= change * moves[i][k];
      largest = Math.max(largest, Math.abs(change) * Math.sqrt(stiffness[i]));
    }
    if (largest < NO_CROSS) break;
  }
  return { step, multipliers };
};

export const dot = (a: readonly number[], b: readonly number[]): number => {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i] * b[i];
  return sum;
};

/** Lower triangle whose product with its mirror image is the matrix. */
export const choleskyOf = (matrix: readonly (readonly number[])[]): readonly (readonly number[])[] => {
  const lower: number[][] = matrix.map(() => matrix.map(() => 0));
  for (let i = 0; i < matrix.length; i++) {
    for (let j = 0; j <= i; j++) {
      const rest = matrix[i][j] - dot(lower[i].slice(0, j), lower[j].slice(0, j));
      lower[i][j] = i === j ? Math.sqrt(Math.max(rest, NO_CROSS)) : rest / lower[j][j];
    }
  }
  return lower;
};

export const solve = (lower: readonly (readonly number[])[], right: readonly number[]): number[] => {
  const n = right.length;
  const x = [...right];
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < i; j++) x[i] -= lower[i][j] * x[j];
    x[i] /= lower[i][i];
  }
  for (let i = n - 1; i >= 0; i--) {
    for (let j = i + 1; j < n; j++) x[i] -= lower[j][i] * x[j];
    x[i] /= lower[i][i];
  }
  return x;
};
