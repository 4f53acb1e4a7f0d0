/** Linear least squares by Householder reflections: what fits best, what is left, and how certain each unknown is. */
import { NO_CROSS } from '../tolerance.js';

export type Matrix = readonly (readonly number[])[];

export interface LinearFit {
  readonly x: readonly number[];
  /** `y - rows x`. */
  readonly residuals: readonly number[];
  readonly sumOfSquares: number;
  /** Rows more than unknowns. */
  readonly freedom: number;
  /** Of x where each row has unit variance: inverse of `rows' rows`, symmetric. */
  readonly cofactors: Matrix;
}

/** Undefined: the rows leave an unknown open, of which `open` is the first. */
export type LinearOutcome = { readonly fit: LinearFit } | { readonly open: number };

/**
 * Least sum of squares of `y - rows x`. Columns are scaled to one length and the first outcome is corrected once by what it leaves,
 * so that the certified digits of ill-conditioned sets hold. Reflections: Golub and Van Loan, Matrix Computations, 5.2 (from
 * memory); a test compares with the certified values of the NIST StRD. Cost: O(rows unknowns^2).
 */
export const leastSquares = (rows: Matrix, y: readonly number[]): LinearOutcome => {
  const count = rows[0]?.length ?? 0;
  const sizes = Array.from({ length: count }, (_, j) => Math.hypot(...rows.map((row) => row[j])));
  const empty = sizes.findIndex((size) => !(size > 0));
  if (empty >= 0) return { open: empty };
  const scaled = rows.map((row) => row.map((value, j) => value / sizes[j]));
  const factor = factorOf(scaled);
  const open = factor.diagonal.findIndex((value) => Math.abs(value) <= NO_CROSS);
  if (open >= 0 || rows.length < count) return { open: open >= 0 ? open : rows.length };
  const first = solveFactored(factor, y);
  const more = solveFactored(factor, leftBy(scaled, first, y));
  const z = first.map((value, j) => value + more[j]);
  const residuals = leftBy(scaled, z, y);
  return {
    fit: {
      x: z.map((value, j) => value / sizes[j]),
      residuals,
      sumOfSquares: residuals.reduce((sum, value) => sum + value * value, 0),
      freedom: rows.length - count,
      cofactors: cofactorsOf(factor, sizes),
    },
  };
};

const leftBy = (rows: Matrix, x: readonly number[], y: readonly number[]): number[] =>
  rows.map((row, i) => y[i] - row.reduce((sum, value, j) => sum + value * x[j], 0));

interface Factor {
  /** Reflections below the diagonal, the triangle above it. */
  readonly columns: readonly (readonly number[])[];
  readonly diagonal: readonly number[];
}

const factorOf = (rows: Matrix): Factor => {
  const count = rows[0]?.length ?? 0;
  const columns = Array.from({ length: count }, (_, j) => rows.map((row) => row[j]));
  const diagonal: number[] = [];
  for (let k = 0; k < Math.min(count, rows.length); k++) {
    const size = Math.hypot(...columns[k].slice(k));
    const head = columns[k][k] > 0 ? -size : size;
    diagonal.push(head);
    columns[k][k] -= head;
    for (let j = k + 1; j < count; j++) reflect(columns[k], columns[j], k);
  }
  return { columns, diagonal };
};

/** Reflects `target` from row `from` on about the plane square to the mirror. */
const reflect = (mirror: readonly number[], target: number[], from: number): void => {
  let [dot, norm] = [0, 0];
  for (let i = from; i < mirror.length; i++) {
    dot += mirror[i] * target[i];
    norm += mirror[i] * mirror[i];
  }
  if (norm === 0) return;
  const factor = (2 * dot) / norm;
  for (let i = from; i < mirror.length; i++) target[i] -= factor * mirror[i];
};

const solveFactored = ({ columns, diagonal }: Factor, y: readonly number[]): number[] => {
  const right = [...y];
  columns.forEach((column, k) => reflect(column, right, k));
  const x = right.slice(0, columns.length);
  for (let k = columns.length - 1; k >= 0; k--) {
    for (let j = k + 1; j < columns.length; j++) x[k] -= columns[j][k] * x[j];
    x[k] /= diagonal[k];
  }
  return x;
};

const cofactorsOf = ({ columns, diagonal }: Factor, sizes: readonly number[]): Matrix => {
  const count = columns.length;
  const inverse = Array.from({ length: count }, (_, c) => {
    const x = Array.from({ length: count }, (_, i) => (i === c ? 1 : 0));
    for (let k = count - 1; k >= 0; k--) {
      for (let j = k + 1; j < count; j++) x[k] -= columns[j][k] * x[j];
      x[k] /= diagonal[k];
    }
    return x;
  });
  return sizes.map((a, i) =>
    sizes.map((b, j) => inverse.reduce((sum, column) => sum + column[i] * column[j], 0) / (a * b)),
  );
};
