import { isFraction, type Fraction, type Quantity } from '../generated/ast.js';
import { plain } from '../../analysis/model/wording.js';
import { NOISE } from '../../analysis/geometry/tolerance.js';

/** How finely a builder states a value of a unit, as the number of steps in one of it. */
const FINEST: Readonly<Record<string, number>> = {
  m: 1000,
  ft: 100,
  in: 100,
  cm: 100,
  rad: 1000,
  m3: 1000,
  'm3/h': 100,
  mL: 1,
  g: 1,
  N: 1,
  'kg/m3': 1,
};
/** mm, deg, %, L, L/min, kN, kg …: to a tenth. */
const TENTHS = 10;
/** Inches and feet on a tape. */
const SIXTEENTHS = [1, 2, 4, 8, 16];
/** Steps in one, of the neat values that are tried: tens, fives, whole, halves, tenths … */
const NEAT = [0.1, 0.2, 1, 2, 10, 20, 100, 1000];

/** Steps in one in which a number is stated, the coarsest first. A whole count has one, and only that. */
export const gridsOf = (
  node: Quantity | Fraction,
  use: { readonly whole: boolean; readonly inch: boolean },
): readonly number[] => {
  if (use.whole) return [1];
  if (isFraction(node)) return SIXTEENTHS;
  const unit = node.unit ?? (use.inch ? 'in' : '');
  const finest = Math.max(FINEST[unit] ?? TENTHS, 10 ** decimalsOf(node));
  const grids = NEAT.filter((grid) => grid <= finest);
  return unit === 'in' ? [...grids, 4, 8].sort((a, b) => a - b) : grids;
};

const decimalsOf = (node: Quantity): number => /\.([0-9]+)/.exec(node.$cstNode?.text ?? '')?.[1].length ?? 0;

/** Numbers of those grids at or beyond `value` as seen from `start`, the neatest first; the last of the finest grid. */
export const neatBeyond = (start: number, value: number, grids: readonly number[]): readonly number[] => {
  const away = Math.sign(value - start);
  const near = Math.max(0.08 * Math.abs(value - start), 0.02 * Math.abs(value));
  const neat = grids.map((grid) => beyond(value, away, grid));
  const finest = neat.length - 1;
  return [...new Set(neat.filter((number, i) => i === finest || Math.abs(number - value) <= near))];
};

const beyond = (value: number, away: number, grid: number): number =>
  (away > 0 ? Math.ceil(value * grid - NOISE) : Math.floor(value * grid + NOISE)) / grid;

/** A number as it stands in a text, in the way in which the one that it replaces is written. */
export const asWritten = (value: number, node: Quantity | Fraction): string => {
  const whole = Math.floor(value);
  const sixteenths = Math.round((value - whole) * 16);
  if (!isFraction(node) || sixteenths === 0) return plain(value, 4);
  // A fraction below one needs its unit beside it to be one.
  if (whole === 0 && node.unit === undefined) return plain(value, 4);
  const divisor = sixteenths % 8 === 0 ? 8 : sixteenths % 4 === 0 ? 4 : sixteenths % 2 === 0 ? 2 : 1;
  const fraction = `${sixteenths / divisor}/${16 / divisor}`;
  return whole === 0 ? fraction : `${whole} ${fraction}`;
};
