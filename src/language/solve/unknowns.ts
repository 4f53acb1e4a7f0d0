import type { Unknown } from '../../analysis/solve/problem.js';
import { isFraction, type Fraction, type Quantity } from '../generated/ast.js';
import type { FreeValue } from '../lower/free.js';
import { asWritten, gridsOf } from './neat-values.js';

/** Steps that a free value has between its limits at the least, unless they are stated. */
const FEWEST_STEPS = 16;

/** A free value as the search sees it: in its own unit, in steps no finer than a builder writes such a number. */
export const unknownOf = ({ literal, value: start, low, high, step }: FreeValue, isInInches: boolean): Unknown => {
  if (step !== undefined) return { low, high, start, step };
  const grids = gridsOf(literal, { whole: false, inch: isInInches });
  let grid = grids[grids.length - 1];
  while ((high - low) * grid < FEWEST_STEPS) grid *= isFraction(literal) ? 2 : 10;
  // Neat numbers only, the limits themselves among them where they are neat.
  return { low: Math.ceil(low * grid) / grid, high: Math.floor(high * grid) / grid, start, step: 1 / grid };
};

/** A value that was found, as it is written in the place of the literal, sign included. */
export const writtenValue = (value: number, literal: Quantity | Fraction): string => {
  const text = asWritten(Math.abs(value), literal);
  const isExact = !isFraction(literal) ? Number(text) === Math.abs(value) : (Math.abs(value) * 16) % 1 === 0;
  return (value < 0 ? '-' : '') + (isExact ? text : String(Math.abs(value)));
};
