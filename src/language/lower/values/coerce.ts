import type { AstNode } from 'langium';
import type { Vec3 } from '../../../analysis/geometry/vec.js';
import { limits, type Limit, type LimitName } from '../../../analysis/model/limits.js';
import type { Dimension, SourceId } from '../../../analysis/model/tub.js';
import type { Expression } from '../../generated/ast.js';
import { describe, type NumberValue } from './values.js';
import { exampleOf, LENGTH, NUMBER, powersOf, samePowers } from './units.js';
import type { Lowering } from '../lowering.js';

/** A dimension that one number has. */
type Measured = Exclude<Dimension, 'point'>;

/** Bounds of a number by its meaning, in the unit the shop says it in; `limit` ends it where the dimension's own limit is too wide. */
export interface Range {
  readonly limit?: LimitName;
  readonly above?: number;
  readonly atLeast?: number;
  readonly atMost?: number;
  readonly below?: number;
  readonly whole?: true;
}

export const POSITIVE: Range = { above: 0 };
export const NOT_NEGATIVE: Range = { atLeast: 0 };
export const THICKNESS: Range = { above: 0, limit: 'thickness' };

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
  const value = lowering.solve.evaluate(lowering, expression);
  if (!value) return undefined;
  if (value.kind === 'point') return isInReach(lowering, lowering.idOf(expression!), subject, value.value);
  lowering.reports.add(
    'unit/wrong',
    lowering.idOf(expression!),
    `${subject} is ${describe(value)}; it needs a point such as \`(0, 0, 100)\``,
  );
  return undefined;
};

/** The point, unless it lies farther off than any tub reaches, which is reported at `at`. */
export const isInReach = (lowering: Lowering, at: SourceId, subject: string, point: Vec3): Vec3 | undefined => {
  const { atMost, name } = limits.reach;
  const axis = point.findIndex((coordinate) => !(Math.abs(coordinate) <= atMost));
  if (axis < 0) return point;
  const letter = ['x', 'y', 'z'][axis];
  lowering.reports.add(
    'value/out-of-range',
    at,
    `${subject} lies at ${letter} ${rounded(point[axis])} mm; it needs at most ${atMost} mm either way, the limit of ${name}`,
    { values: { has_mm: point[axis], needs_mm: atMost } },
  );
  return undefined;
};

/** As many of the listed things as a list may hold; one too many is reported. */
export const listed = <T extends AstNode>(
  lowering: Lowering,
  items: readonly T[] | undefined,
  subject: string,
): readonly T[] => {
  const { atMost, name } = limits.listed;
  if (items === undefined || items.length <= atMost) return items ?? [];
  lowering.reports.add(
    'value/out-of-range',
    lowering.idOf(items[atMost]),
    `${subject} is stated ${items.length} times; it needs at most ${atMost}, the limit of ${name}`,
    { values: { has_count: items.length, needs_count: atMost } },
  );
  return items.slice(0, atMost);
};

const wanted = new WeakMap<Expression, Measured>();

/** What a place asks of the expression that stands in it, as it was last evaluated. */
export const wantedOf = (expression: Expression): Measured | undefined => wanted.get(expression);

/** The expression as a number of that dimension, in mm, rad, kg, N, mm3, mm3/s, cSt, kg/m3, s, mm/s. */
export const asDimension = (
  lowering: Lowering,
  expression: Expression | undefined,
  dimension: Measured,
  subject: string,
  range: Range = {},
): number | undefined => {
  if (expression) wanted.set(expression, dimension);
  const value = lowering.solve.evaluate(lowering, expression);
  if (!value || !expression) return undefined;
  const number = value.kind === 'number' ? inDimension(lowering, value, dimension) : undefined;
  if (number !== undefined) return inRange(lowering, { expression, dimension, subject, value: number, range });
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

/** Reports a length without unit; it is taken as mm, so that the rest can still be judged. */
export const missingUnit = (lowering: Lowering, at: SourceId): number => {
  lowering.reports.add(
    'unit/missing',
    at,
    'A length has no unit here; it needs one such as `mm`, or `units mm` at the top of the file',
    { values: { lengths_count: 1 } },
  );
  return 1;
};

const inDimension = (lowering: Lowering, value: NumberValue, dimension: Dimension): number | undefined => {
  const powers = powersOf(dimension);
  if (samePowers(value.powers, powers)) return value.value;
  if (!value.bare || !samePowers(powers, LENGTH) || !samePowers(value.powers, NUMBER)) return undefined;
  return value.value * (value.bare.factor ?? missingUnit(lowering, value.bare.at));
};

const withArticle = (dimension: Dimension): string => `${dimension === 'angle' ? 'an' : 'a'} ${dimension}`;

/** A number of the text, and where it has to lie. */
interface Stated {
  readonly expression: Expression;
  readonly dimension: Measured;
  readonly subject: string;
  readonly value: number;
  readonly range: Range;
}

const inRange = (lowering: Lowering, { expression, dimension, subject, value, range }: Stated): number | undefined => {
  const { key, times, per } = shownAs[dimension];
  const many = value * times;
  const shown = Number.isFinite(many) ? many / per : (value / per) * times;
  const [told, unit] = dimension === 'force' && Math.abs(shown) < 1 ? [value, ' N'] : [shown, shownAs[dimension].unit];
  const needs = breach(shown, range, unit) ?? limitBroken(shown, range, limits[range.limit ?? dimension]);
  if (needs === undefined) return value;
  lowering.reports.add(
    'value/out-of-range',
    lowering.idOf(expression),
    `${subject} is ${rounded(told)}${unit}; it needs ${needs}`,
    { values: { [`has${key}`]: shown } },
  );
  return undefined;
};

/** How the shop says a dimension: its unit, the ending of a key that carries it, and what makes a number of ours one of it. */
interface Shown {
  readonly unit: string;
  readonly key: string;
  readonly times: number;
  readonly per: number;
}

export const shownAs: Readonly<Record<Measured, Shown>> = {
  length: { unit: ' mm', key: '_mm', times: 1, per: 1 },
  angle: { unit: ' deg', key: '_deg', times: 180, per: Math.PI },
  number: { unit: '', key: '_count', times: 1, per: 1 },
  volume: { unit: ' L', key: '_L', times: 1, per: 1e6 },
  flow: { unit: ' L/min', key: '_L_min', times: 60, per: 1e6 },
  force: { unit: ' kN', key: '_kN', times: 1, per: 1000 },
  mass: { unit: ' kg', key: '_kg', times: 1, per: 1 },
  viscosity: { unit: ' cSt', key: '_cSt', times: 1, per: 1 },
  density: { unit: ' kg/m3', key: '_kg_m3', times: 1, per: 1 },
  time: { unit: ' sec', key: '_s', times: 1, per: 1 },
  speed: { unit: ' m/min', key: '_m_min', times: 60, per: 1000 },
  tension: { unit: ' mN/m', key: '_mN_m', times: 1e6, per: 1 },
};

const breach = (value: number, range: Range, unit: string): string | undefined => {
  if (range.above !== undefined && !(value > range.above)) return `more than ${range.above}${unit}`;
  if (range.atLeast !== undefined && value < range.atLeast) return `at least ${range.atLeast}${unit}`;
  if (range.below !== undefined && !(value < range.below)) return `less than ${rounded(range.below)}${unit}`;
  if (range.atMost !== undefined && value > range.atMost) return `at most ${range.atMost}${unit}`;
  if (range.whole && !Number.isInteger(value)) return 'a whole number';
  return undefined;
};

const limitBroken = (value: number, { above }: Range, limit: Limit): string | undefined => {
  const inUnit = (bound: number): string =>
    `${bound}${limit.unit === '' ? '' : ` ${limit.unit}`}, the limit of ${limit.name}`;
  if (Math.abs(value) > limit.atMost) return `at most ${inUnit(limit.atMost)}`;
  if (above === 0 && limit.atLeast !== undefined && value < limit.atLeast) return `at least ${inUnit(limit.atLeast)}`;
  return undefined;
};

/** Three decimals tell less than this as next to nothing. */
const LEAST_OF_THREE_DECIMALS = 0.001;

/** At most three decimals, without trailing zeros; three figures of what would be nothing then. */
export const rounded = (value: number): string =>
  String(Number(Math.abs(value) < LEAST_OF_THREE_DECIMALS ? value.toPrecision(3) : value.toFixed(3)));
