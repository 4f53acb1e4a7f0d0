/** Nonlinear least squares in a few bounded unknowns. */
import { leastSquares } from './least-squares.js';
import { LEAST_DAMPING, LEAST_MOVE, NOISE } from '../tolerance.js';

export interface Bounds {
  readonly low: readonly number[];
  readonly high: readonly number[];
}

export interface Fit {
  readonly x: readonly number[];
  readonly residuals: readonly number[];
  readonly sumOfSquares: number;
  /** No step makes it less. */
  readonly isSettled: boolean;
}

type Residuals = (x: readonly number[]) => readonly number[];

const MOST_ROUNDS = 60;

/** How much more damping after a step that helps nothing, and where that is given up. */
const MORE_DAMPING = 10;
const MOST_DAMPING = 1 / LEAST_DAMPING;

/**
 * From a start to the nearest least sum of squares: Gauss-Newton steps with Levenberg's damping; what lies at a bound and would go
 * beyond is held there. Source: Levenberg, Q. Appl. Math. 2, 1944 (from memory); a test compares with the certified values of the
 * NIST StRD. Cost: rounds (60 at most) times unknowns times the residuals.
 */
export const fitResiduals = (residualsOf: Residuals, start: readonly number[], bounds?: Bounds): Fit => {
  const inside = (x: readonly number[]): number[] =>
    x.map((value, i) => (bounds ? Math.min(bounds.high[i], Math.max(bounds.low[i], value)) : value));
  let x: readonly number[] = inside(start);
  let residuals = residualsOf(x);
  let sum = squares(residuals);
  let damping: number = LEAST_DAMPING;
  for (let round = 0; round < MOST_ROUNDS && damping < MOST_DAMPING; round++) {
    if (sum === 0) return { x, residuals, sumOfSquares: 0, isSettled: true };
    const slopes = slopesOf(residualsOf, x);
    const free = freeOf(slopes, x, residuals, bounds);
    if (free.length === 0) return { x, residuals, sumOfSquares: sum, isSettled: true };
    for (let isBetter = false; !isBetter && damping < MOST_DAMPING;) {
      const trial = inside(stepped(x, slopes, residuals, free, damping));
      const left = residualsOf(trial);
      const size = Math.hypot(...trial.map((value, i) => (value - x[i]) / (Math.abs(x[i]) + NOISE)));
      isBetter = squares(left) < sum;
      if (isBetter)
        [x, residuals, sum, damping] = [trial, left, squares(left), Math.max(damping / MORE_DAMPING, LEAST_DAMPING)];
      else damping *= MORE_DAMPING;
      if (size <= LEAST_DAMPING) return { x, residuals, sumOfSquares: sum, isSettled: true };
    }
  }
  return { x, residuals, sumOfSquares: sum, isSettled: damping >= MOST_DAMPING };
};

const squares = (values: readonly number[]): number => values.reduce((sum, value) => sum + value * value, 0);

/** By unknown: how much each residual grows with it. */
export const slopesOf = (residualsOf: Residuals, x: readonly number[]): readonly (readonly number[])[] =>
  x.map((value, i) => {
    const step = LEAST_MOVE * Math.max(Math.abs(value), 1);
    const moved = (by: number): readonly number[] => residualsOf(x.map((each, j) => (j === i ? each + by : each)));
    const [more, less] = [moved(step), moved(-step)];
    return more.map((each, k) => (each - less[k]) / (2 * step));
  });

/** All but what lies at a bound and is pushed over it. */
const freeOf = (
  slopes: readonly (readonly number[])[],
  x: readonly number[],
  residuals: readonly number[],
  bounds: Bounds | undefined,
): number[] => {
  const all = x.map((_, i) => i);
  if (!bounds) return all;
  return all.filter((i) => {
    const gradient = slopes[i].reduce((sum, slope, k) => sum + slope * residuals[k], 0);
    return !(x[i] <= bounds.low[i] && gradient > 0) && !(x[i] >= bounds.high[i] && gradient < 0);
  });
};

const stepped = (
  x: readonly number[],
  slopes: readonly (readonly number[])[],
  residuals: readonly number[],
  free: readonly number[],
  damping: number,
): number[] => {
  const sizes = free.map((i) => Math.sqrt(damping) * (Math.hypot(...slopes[i]) || 1));
  const rows = [
    ...residuals.map((_, k) => free.map((i) => slopes[i][k])),
    ...free.map((_, a) => free.map((_, b) => (a === b ? sizes[a] : 0))),
  ];
  const outcome = leastSquares(rows, [...residuals.map((value) => -value), ...free.map(() => 0)]);
  const next = [...x];
  if ('fit' in outcome) free.forEach((i, a) => (next[i] += outcome.fit.x[a]));
  return next;
};
