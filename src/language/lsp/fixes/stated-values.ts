import { NOISE } from '../../../analysis/geometry/tolerance.js';
import { neatBeyond } from '../../solve/neat-values.js';
import type { FreeRange, Literal } from './literals.js';

/**
 * Values of a number at or beyond one, as seen from where it stands, the neatest first and the finest last: such as its builder
 * would state. One that is free keeps to its limits and steps; none where those end before.
 */
export const statedBeyond = (literal: Literal, value: number, from = literal.value): readonly number[] => {
  const { grids, range } = literal;
  if (!range) return neatBeyond(from, value, grids);
  const found =
    range.step === undefined ? neatBeyond(from, value, grids) : [stepBeyond(from, value, range.step, range)];
  return found.filter((each) => each >= range.low - NOISE && each <= range.high + NOISE);
};

const stepBeyond = (from: number, value: number, step: number, { origin }: FreeRange): number => {
  const steps = (value - origin) / step;
  const count = value > from ? Math.ceil(steps - NOISE) : Math.floor(steps + NOISE);
  return Number((origin + count * step).toPrecision(12));
};

/** The smallest step in which it is stated. */
export const finestStepOf = ({ grids, range }: Literal): number => range?.step ?? 1 / grids[grids.length - 1];
