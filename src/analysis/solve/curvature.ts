import { NO_CROSS } from '../geometry/tolerance.js';
import { dot } from './quadratic.js';

export type Matrix = readonly (readonly number[])[];

export const times = (matrix: Matrix, x: readonly number[]): readonly number[] => matrix.map((row) => dot(row, x));

export const evenCurvature = (size: number): Matrix =>
  Array.from({ length: size }, (_, i) => Array.from({ length: size }, (_, j) => (i === j ? 1 : 0)));

/** Share of the curvature that was assumed which a step must find at the least. */
const LEAST_FOUND = 0.2;

/**
 * The curvature after a step over which the slope turned by `turn`: the rule of Broyden, Fletcher, Goldfarb and Shanno, kept
 * positive as M. J. D. Powell has it (A fast algorithm for nonlinearly constrained optimization, 1978; from memory).
 */
export const learnt = (curvature: Matrix, step: readonly number[], turn: readonly number[]): Matrix => {
  const pushed = times(curvature, step);
  const assumed = dot(step, pushed);
  if (!(assumed > NO_CROSS)) return curvature;
  const found = dot(step, turn);
  const share = found >= LEAST_FOUND * assumed ? 1 : ((1 - LEAST_FOUND) * assumed) / (assumed - found);
  const damped = turn.map((each, i) => share * each + (1 - share) * pushed[i]);
  const bend = dot(step, damped);
  return curvature.map((row, i) =>
    row.map((each, j) => each - (pushed[i] * pushed[j]) / assumed + (damped[i] * damped[j]) / bend),
  );
};
