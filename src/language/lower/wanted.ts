import type { Vec3 } from '../../analysis/geometry/vec.js';
import type { Dimension } from '../../analysis/model/tub.js';
import type { Expression } from '../generated/ast.js';
import { describe, evaluate, missingUnit, type NumberValue } from './evaluate.js';
import { exampleOf, LENGTH, NUMBER, powersOf, samePowers } from './units.js';
import type { Lowering } from './lowering.js';

/** Bounds of a number, in the unit the shop says it in. */
export interface Range {
  readonly above?: number;
  readonly atLeast?: number;
  readonly atMost?: number;
  readonly below?: number;
  readonly whole?: true;
}

export const POSITIVE: Range = { above: 0 };
export const NOT_NEGATIVE: Range = { atLeast: 0 };

/** The expression as a length in mm. `subject` begins the message when it is not one: "Width of strip `floor`". */
export const asLength = (
  lowering: Lowering,
  expression: Expression | undefined,
  subject: string,
  range?: Range,
): number | undefined => asDimension(lowering, expression, 'length', subject, range);

/** Angle in rad; the range is in degrees. */
export const asAngle = (
  lowering: Lowering,
  expression: Expression | undefined,
  subject: string,
  range?: Range,
): number | undefined => asDimension(lowering, expression, 'angle', subject, range);

export const asNumber = (
  lowering: Lowering,
  expression: Expression | undefined,
  subject: string,
  range?: Range,
): number | undefined => asDimension(lowering, expression, 'number', subject, range);

export const asPoint = (lowering: Lowering, expression: Expression | undefined, subject: string): Vec3 | undefined => {
  const value = evaluate(lowering, expression);
  if (!value || value.kind === 'point') return value?.value;
  lowering.reports.add(
    'unit/wrong',
    lowering.idOf(expression!),
    `${subject} is ${describe(value)}; it needs a point such as \`(0, 0, 100)\``,
  );
  return undefined;
};

/** The expression as a number of that dimension, in mm, rad, kg, N, mm3, mm3/s, cSt, kg/m3. */
export const asDimension = (
  lowering: Lowering,
  expression: Expression | undefined,
  dimension: Dimension,
  subject: string,
  range: Range = {},
): number | undefined => {
  const value = evaluate(lowering, expression);
  if (!value || !expression) return undefined;
  const number = value.kind === 'number' ? inDimension(lowering, value, dimension) : undefined;
  if (number !== undefined) return inRange(lowering, expression, dimension, subject, number, range);
  if (value.kind === 'number' && value.bare) {
    lowering.reports.add(
      'unit/missing',
      value.bare.at,
      `${subject} has no unit; it needs ${withArticle(dimension)} such as ${exampleOf(dimension)}`,
    );
    return undefined;
  }
  lowering.reports.add(
    'unit/wrong',
    lowering.idOf(expression),
    `${subject} is ${describe(value)}; it needs ${withArticle(dimension)} such as ${exampleOf(dimension)}`,
  );
  return undefined;
};

const inDimension = (lowering: Lowering, value: NumberValue, dimension: Dimension): number | undefined => {
  const powers = powersOf(dimension);
  if (samePowers(value.powers, powers)) return value.value;
  if (!value.bare || !samePowers(powers, LENGTH) || !samePowers(value.powers, NUMBER)) return undefined;
  return value.value * (value.bare.factor ?? missingUnit(lowering, value.bare.at));
};

const withArticle = (dimension: Dimension): string => `${dimension === 'angle' ? 'an' : 'a'} ${dimension}`;

const inRange = (
  lowering: Lowering,
  expression: Expression,
  dimension: Dimension,
  subject: string,
  value: number,
  range: Range,
): number | undefined => {
  const shown = dimension === 'angle' ? (value * 180) / Math.PI : value;
  const needs = breach(shown, range, unitOf[dimension] ?? '');
  if (needs === undefined) return value;
  const unit = unitOf[dimension] ?? '';
  lowering.reports.add(
    'value/out-of-range',
    lowering.idOf(expression),
    `${subject} is ${rounded(shown)}${unit}; it needs ${needs}`,
    {
      values: { [`has${keyOf[dimension] ?? ''}`]: shown },
    },
  );
  return undefined;
};

const unitOf: Partial<Record<Dimension, string>> = {
  length: ' mm',
  angle: ' deg',
  force: ' N',
  volume: ' mm3',
  flow: ' mm3/s',
  viscosity: ' cSt',
  density: ' kg/m3',
};
const keyOf: Partial<Record<Dimension, string>> = {
  length: '_mm',
  angle: '_deg',
  force: '_N',
  volume: '_mm3',
  flow: '_mm3_s',
  viscosity: '_cSt',
  density: '_kg_m3',
  number: '_count',
};

const breach = (value: number, range: Range, unit: string): string | undefined => {
  if (range.above !== undefined && !(value > range.above)) return `more than ${range.above}${unit}`;
  if (range.atLeast !== undefined && value < range.atLeast) return `at least ${range.atLeast}${unit}`;
  if (range.below !== undefined && !(value < range.below)) return `less than ${range.below}${unit}`;
  if (range.atMost !== undefined && value > range.atMost) return `at most ${range.atMost}${unit}`;
  if (range.whole && !Number.isInteger(value)) return 'a whole number';
  return undefined;
};

/** At most three decimals, without trailing zeros. */
export const rounded = (value: number): string => String(Number(value.toFixed(3)));
