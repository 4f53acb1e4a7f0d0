import type { Vec3 } from '../../../analysis/geometry/vec.js';
import { addScaled, scale } from '../../../analysis/geometry/vec.js';
import type { SourceId } from '../../../analysis/model/tub.js';
import { limits } from '../../../analysis/model/limits.js';
import {
  isBinary,
  isLet,
  type Binary,
  type Expression,
  type Fraction,
  type Let,
  type Named,
  type Point,
  type Quantity,
  type Triple,
} from '../../generated/ast.js';
import { evaluateCall } from './functions.js';
import type { Lowering } from '../lowering.js';
import { numberValue, pointValue, describe, type NumberValue, type PointValue, type Value } from './values.js';
import { asLength, asPoint, missingUnit } from './coerce.js';
import { dividePowers, inBaseUnits, LENGTH, multiplyPowers, NUMBER, samePowers, units } from './units.js';

/** The value of an expression; undefined where it has none, which is then reported or follows from a syntax error. */
export const evaluate = (lowering: Lowering, expression: Expression | undefined): Value | undefined => {
  switch (expression?.$type) {
    case 'Quantity':
    case 'Fraction':
      return literal(lowering, expression);
    case 'Named':
      return named(lowering, expression);
    case 'Binary':
      return chain(lowering, expression);
    case 'Negation':
      return negated(evaluate(lowering, expression.operand));
    case 'Triple':
      return triple(lowering, expression);
    case 'Middle':
      return middle(lowering.solve.middleOf(lowering, expression.of));
    case 'Call':
      return evaluateCall(lowering, expression);
    default:
      return undefined;
  }
};

/** The value of a `let` or a `point`, computed once. */
export const valueOf = (lowering: Lowering, node: Let | Point): Value | undefined =>
  lowering.once(node, node.name ?? '?', () =>
    isLet(node)
      ? evaluate(lowering, lowering.expressionOf(node))
      : middle(
          node.about
            ? lowering.solve.placeNear(lowering, node)
            : asPoint(lowering, node.value, `Point \`${node.name}\``),
        ),
  );

const middle = (point: Vec3 | undefined): PointValue | undefined => point && pointValue(point);

const named = (lowering: Lowering, expression: Named): Value | undefined => {
  const target = expression.ref?.ref;
  return target && valueOf(lowering, target);
};

const literal = (lowering: Lowering, node: Quantity | Fraction): Value | undefined => {
  if (node.value === undefined || Number.isNaN(node.value)) return undefined;
  const at = lowering.sources.idOfLiteral(node);
  const written = lowering.literal(node, node.value);
  const factor = lowering.bareLengthIn(node);
  if (node.unit === undefined && Number.isFinite(written * (factor ?? 1)))
    return numberValue(written, NUMBER, { at, factor });
  if (node.unit === undefined) return tooLarge(lowering, at);
  const unit = units[node.unit];
  if (!unit) {
    lowering.reports.add(
      'unit/wrong',
      at,
      'A gauge number says a thickness only in a `sheet` or `stock` statement; here it needs a length such as `1.2 mm`',
    );
    return undefined;
  }
  const value = inBaseUnits(written, unit);
  return Number.isFinite(value) ? numberValue(value, unit.powers) : tooLarge(lowering, at);
};

const tooLarge = (lowering: Lowering, at: SourceId): undefined => {
  const { length, number } = limits;
  lowering.reports.add(
    'value/not-a-number',
    at,
    `This is larger than any number; ${number.name} is at most ${number.atMost}, ${length.name} at most ${length.atMost} ${length.unit}`,
  );
  return undefined;
};

const negated = (value: Value | undefined): Value | undefined => {
  if (value?.kind === 'point') return pointValue(scale(value.value, -1));
  return value && { ...value, value: -value.value };
};

const triple = (lowering: Lowering, { x, y, z }: Pick<Triple, 'x' | 'y' | 'z'>): PointValue | undefined => {
  const parts = [
    asLength(lowering, x, 'x of a point'),
    asLength(lowering, y, 'y of a point'),
    asLength(lowering, z, 'z of a point'),
  ];
  return parts.some((part) => part === undefined) ? undefined : pointValue(parts as unknown as Vec3);
};

export const evaluateTriple = (lowering: Lowering, node: Pick<Triple, 'x' | 'y' | 'z'>): Vec3 | undefined =>
  triple(lowering, node)?.value;

/** A sum or product runs from left to right; its left side is walked without recursion, however long it is. */
const chain = (lowering: Lowering, expression: Binary): Value | undefined => {
  const steps: Binary[] = [];
  let left: Expression | undefined = expression;
  while (isBinary(left)) {
    steps.push(left);
    left = left.left;
  }
  let value = evaluate(lowering, left);
  for (let i = steps.length - 1; i >= 0; i--) {
    const right = evaluate(lowering, steps[i].right);
    value = value && right && combine(lowering, steps[i], value, right);
  }
  return value;
};

const combine = (lowering: Lowering, node: Binary, left: Value, right: Value): Value | undefined => {
  const result =
    node.operator === '+' || node.operator === '-'
      ? sum(lowering, node, left, right)
      : product(lowering, node, left, right);
  return result && finite(lowering, node, result);
};

const sum = (lowering: Lowering, node: Binary, left: Value, right: Value): Value | undefined => {
  const sign = node.operator === '+' ? 1 : -1;
  if (left.kind === 'point' && right.kind === 'point') return pointValue(addScaled(left.value, right.value, sign));
  if (left.kind === 'point' || right.kind === 'point') return mixed(lowering, node, left, right);
  if (samePowers(left.powers, right.powers)) {
    return numberValue(left.value + sign * right.value, left.powers, left.bare ?? right.bare);
  }
  const [a, b] = [bareToLength(lowering, left, right), bareToLength(lowering, right, left)];
  if (!samePowers(a.powers, b.powers)) return mixed(lowering, node, left, right);
  return numberValue(a.value + sign * b.value, a.powers);
};

/** `3 + 5 mm` under `units mm`: the bare number is a length beside a length. */
const bareToLength = (lowering: Lowering, value: NumberValue, beside: NumberValue): NumberValue => {
  if (!value.bare || !samePowers(beside.powers, LENGTH)) return value;
  return numberValue(value.value * (value.bare.factor ?? missingUnit(lowering, value.bare.at)), LENGTH);
};

const mixed = (lowering: Lowering, node: Binary, left: Value, right: Value): undefined => {
  const word = { '+': 'added to', '-': 'taken from', '*': 'multiplied by', '/': 'divided by' }[node.operator];
  const [first, second] = node.operator === '-' || node.operator === '+' ? [right, left] : [left, right];
  const text = `${describe(first)} cannot be ${word} ${describe(second)}`;
  lowering.reports.add('unit/mixed', lowering.idOf(node, 'operator'), text[0].toUpperCase() + text.slice(1));
  return undefined;
};

const product = (lowering: Lowering, node: Binary, left: Value, right: Value): Value | undefined => {
  const isQuotient = node.operator === '/';
  if (right.kind === 'point') {
    if (isQuotient || left.kind === 'point' || !samePowers(left.powers, NUMBER))
      return mixed(lowering, node, left, right);
    return pointValue(scale(right.value, left.value));
  }
  if (left.kind === 'point') {
    if (!samePowers(right.powers, NUMBER)) return mixed(lowering, node, left, right);
    return pointValue(scale(left.value, isQuotient ? 1 / right.value : right.value));
  }
  const powers = isQuotient ? dividePowers(left.powers, right.powers) : multiplyPowers(left.powers, right.powers);
  const bare =
    samePowers(left.powers, NUMBER) && samePowers(right.powers, NUMBER) ? (left.bare ?? right.bare) : undefined;
  return numberValue(isQuotient ? left.value / right.value : left.value * right.value, powers, bare);
};

const finite = (lowering: Lowering, node: Binary, value: Value): Value | undefined => {
  const isFinite = value.kind === 'point' ? value.value.every(Number.isFinite) : Number.isFinite(value.value);
  if (isFinite) return value;
  lowering.reports.add(
    'value/not-a-number',
    lowering.idOf(node, 'operator'),
    'This has no value: it divides by zero or grows past every number',
  );
  return undefined;
};
