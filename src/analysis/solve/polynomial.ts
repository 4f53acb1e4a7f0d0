import { RIDGE } from '../geometry/tolerance.js';
import { choleskyOf, dot, solve } from './quadratic.js';

/** A number as a curved function of a place: what was measured at places near, and weights by how near they are. */
export interface Measured {
  readonly places: readonly (readonly number[])[];
  readonly weights: readonly number[];
}

export type Polynomial = (place: readonly number[]) => number;

/** 1, each coordinate, each product of two. */
export const termsOf = (place: readonly number[]): readonly number[] => [
  1,
  ...place,
  ...place.flatMap((x, i) => place.slice(i).map((y) => x * y)),
];

export const termCount = (dimensions: number): number => ((dimensions + 1) * (dimensions + 2)) / 2;

/** Fits any number of such functions to the same places, by least squares. */
export const fitter = ({ places, weights }: Measured): ((values: readonly number[]) => Polynomial) => {
  const rows = places.map(termsOf);
  const size = rows[0].length;
  const sums = Array.from({ length: size }, (_, i) =>
    Array.from({ length: size }, (_, j) => rows.reduce((sum, row, k) => sum + weights[k] * row[i] * row[j], 0)),
  );
  const ridge = RIDGE * Math.max(...sums.map((row, i) => row[i]));
  const factor = choleskyOf(sums.map((row, i) => row.map((each, j) => (i === j ? each + ridge : each))));
  return (values) => {
    const right = Array.from({ length: size }, (_, i) =>
      rows.reduce((sum, row, k) => sum + weights[k] * row[i] * values[k], 0),
    );
    const factors = solve(factor, right);
    return (place) => dot(factors, termsOf(place));
  };
};
