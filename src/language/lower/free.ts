import { AstUtils } from 'langium';
import { LEAST_STEP, ROUND_OFF } from '../../analysis/geometry/tolerance.js';
import { limits } from '../../analysis/model/limits.js';
import {
  isFraction,
  isHole,
  isNamed,
  isNegation,
  isQuantity,
  isSeam,
  isUnits,
  type Expression,
  type Fraction,
  type Free,
  type Let,
  type Quantity,
} from '../generated/ast.js';
import { rounded } from './values/coerce.js';
import { evaluate } from './values/evaluate.js';
import type { Lowering } from './lowering.js';
import { tellOwnOnly } from './text/nearest-file.js';
import { inBaseUnits, LENGTH, NUMBER, samePowers, units } from './values/units.js';
import { describe, type NumberValue, type Value } from './values/values.js';

/** A `let` that may be worked out. Numbers are in the unit in which its value is written. */
export interface FreeValue {
  readonly node: Let;
  readonly literal: Quantity | Fraction;
  /** -1 where a minus sign stands before the literal: `value` has it, the literal does not. */
  readonly sign: 1 | -1;
  readonly value: number;
  readonly low: number;
  readonly high: number;
  /** Counted from `low`; undefined: as finely as a builder writes such a number. */
  readonly step: number | undefined;
  /** That of the literal, else that of bare lengths in the file; '' for a count. */
  readonly unit: string;
}

/** The free values of the main file, in its order; what is wrong with one is reported, and it stays as it is written. */
export const freeValuesOf = (lowering: Lowering, lets: readonly Let[]): readonly FreeValue[] => {
  const found = lets.flatMap((node): readonly FreeValue[] => {
    if (!node.free) return [];
    if (node.$container === lowering.files[0])
      return [freeValueOf(lowering, node, node.free)].filter((each) => each !== undefined);
    tellOwnOnly(lowering, node.free, 'word', `That \`${node.name}\` is free in the text`);
    return [];
  });
  const { atMost, name } = limits.free;
  if (found.length <= atMost) return found;
  lowering.reports.add(
    'free/too-many',
    lowering.idOf(found[atMost].node, 'free'),
    `With this ${found.length} values are free; at most ${atMost} can be worked out together, the limit of ${name}`,
    { values: { has_count: found.length, needs_count: atMost } },
  );
  return found.slice(0, atMost);
};

const freeValueOf = (lowering: Lowering, node: Let, free: Free): FreeValue | undefined => {
  const about = [node.name ?? '?'];
  const name = `\`${about[0]}\``;
  const literal = literalOf(node.value);
  if (!literal) {
    const at = lowering.idOf(free, 'word');
    const message = `${name} is worked out from other values; only a value written as a number such as \`250 mm\` can be free`;
    lowering.reports.add('free/not-a-literal', at, message, { about });
    return undefined;
  }
  if (!free.low || !free.high) {
    const at = lowering.idOf(free, 'word');
    const message = `${name} is free without limits; it needs the least and the most it may be, such as \`free ${exampleOf(literal)}\``;
    lowering.reports.add('free/no-limits', at, message, { about });
    return undefined;
  }
  const low = inUnitOf(lowering, free.low, literal);
  const high = inUnitOf(lowering, free.high, literal);
  const step = free.step && inUnitOf(lowering, free.step, literal);
  if (low === undefined || high === undefined || (free.step && step === undefined)) return undefined;
  const sign = isNegation(node.value) ? -1 : 1;
  const value = sign * lowering.literal(literal, literal.value);
  const isOfThings = isCount(node);
  const counted = step === undefined && isOfThings ? 1 : step;
  const unit = literal.unit ?? (isOfThings ? '' : bareUnitOf(node));
  const found: FreeValue = { node, literal, sign, value, low, high, step: counted, unit };
  return isSound(lowering, found, free) ? found : undefined;
};

/** Limits that leave room and a step that fits into it; tells also where the value as written is none of those that may be. */
const isSound = (lowering: Lowering, found: FreeValue, free: Free): boolean => {
  const { node, literal, value, low, high, step } = found;
  const about = [node.name];
  const name = `\`${node.name}\``;
  const shown = (number: number): string => `${rounded(number)}${literal.unit === undefined ? '' : ` ${literal.unit}`}`;
  if (!(low < high)) {
    const message = `The limits of ${name} leave nothing between them: from ${shown(low)} to ${shown(high)}; the least needs to be below the most`;
    lowering.reports.add('free/limits-cross', lowering.idOf(free, 'low'), message, { about });
    return false;
  }
  if (step !== undefined && !(step >= LEAST_STEP && step <= high - low)) {
    const message = `Step of ${name} is ${shown(step)}; it needs at least ${shown(LEAST_STEP)} and at most ${shown(high - low)}, all that is free`;
    lowering.reports.add('value/out-of-range', lowering.idOf(free, 'step'), message, { about });
    return false;
  }
  const at = lowering.idOf(node, 'value');
  if (value < low || value > high) {
    const message = `${name} is ${shown(value)}, outside the ${shown(low)} to ${shown(high)} that it may be`;
    lowering.reports.add('free/outside-limits', at, message, { about });
    return true;
  }
  const steps = step === undefined ? 0 : (value - low) / step;
  if (step === undefined || Math.abs(steps - Math.round(steps)) < ROUND_OFF) return true;
  const [below, above] = [Math.floor(steps), Math.ceil(steps)].map((count) => shown(low + count * step));
  const message = `${name} is ${shown(value)}, between the steps ${below} and ${above}; one of the steps is what can be worked out`;
  lowering.reports.add('free/off-step', at, message, { about });
  return true;
};

const bareUnitOf = ({ $container: { statements } }: Let): string => statements.find(isUnits)?.unit ?? '';

const literalOf = (value: Expression | undefined): Quantity | Fraction | undefined => {
  const inner = isNegation(value) ? value.operand : value;
  return isQuantity(inner) || isFraction(inner) ? inner : undefined;
};

const exampleOf = ({ value, unit }: Quantity | Fraction): string => {
  const [low, high] = [value * 0.5, value * 1.5].map(
    (bound) => rounded(bound) + (unit === undefined ? '' : ` ${unit}`),
  );
  return `${low} to ${high}`;
};

/** A limit or step as a number in the unit of the literal; of another kind, or without unit beside one that has one, it is reported. */
const inUnitOf = (lowering: Lowering, expression: Expression, literal: Quantity | Fraction): number | undefined => {
  const limit = evaluate(lowering, expression);
  const unit = literal.unit === undefined ? undefined : units[literal.unit];
  if (!limit || (literal.unit !== undefined && !unit)) return undefined;
  const own: Value = { kind: 'number', value: 0, powers: unit?.powers ?? NUMBER, bare: undefined };
  const factor = lowering.bareLengthIn(literal);
  if (limit.kind === 'number') {
    const found = unit ? inUnit(limit, unit, factor) : asBare(limit, factor);
    if (found !== undefined) return found;
    if (limit.bare && unit) {
      const message = `This has no unit; beside \`${literal.$cstNode?.text ?? ''}\` it needs one, such as \`${literal.unit}\``;
      lowering.reports.add('unit/missing', limit.bare.at, message, { values: { unit: literal.unit! } });
      return undefined;
    }
  }
  const message = `This is ${describe(limit)}; as a limit of what is free it needs to be ${describe(own)}, as \`${literal.$cstNode?.text ?? ''}\` is`;
  lowering.reports.add('unit/wrong', lowering.idOf(expression), message);
  return undefined;
};

const inUnit = (limit: NumberValue, unit: (typeof units)[string], factor: number | undefined): number | undefined => {
  const { powers } = unit;
  const oneUnit = inBaseUnits(1, unit);
  if (samePowers(limit.powers, powers) && !limit.bare) return limit.value / oneUnit;
  if (limit.bare && samePowers(powers, NUMBER)) return undefined;
  const isLength = limit.bare !== undefined && samePowers(powers, LENGTH) && factor !== undefined;
  return isLength ? (limit.value * factor) / oneUnit : undefined;
};

/** Beside a number without unit: another such number, or a length where the file says what bare lengths are. */
const asBare = (limit: NumberValue, factor: number | undefined): number | undefined => {
  if (samePowers(limit.powers, NUMBER)) return limit.value;
  return samePowers(limit.powers, LENGTH) && factor !== undefined ? limit.value / factor : undefined;
};

/** Is it a number of things somewhere: of holes in a row, of spots, the gauge of a sheet? */
const isCount = (node: Let): boolean => {
  const { references } = AstUtils.getDocument(node);
  return references.some((reference) => {
    const use = 'ref' in reference && reference.ref === node ? reference.$refNode?.astNode : undefined;
    const place = use?.$container;
    if (!use || !isNamed(use) || !place) return false;
    return (
      (use.$containerProperty === 'count' && isHole(place)) ||
      (use.$containerProperty === 'spots' && isSeam(place)) ||
      use.$containerProperty === 'gaugeValue'
    );
  });
};
