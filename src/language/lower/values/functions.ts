import { add, distance, lerp, scale, subtract, type Vec3 } from '../../../analysis/geometry/vec.js';
import { SAME_POINT } from '../../../analysis/geometry/tolerance.js';
import type { Call } from '../../generated/ast.js';
import { describe, numberValue, pointValue, type NumberValue, type Value } from './values.js';
import type { Lowering } from '../lowering.js';
import { ANGLE, LENGTH, NUMBER, rootPowers, samePowers } from './units.js';
import { asAngle, asLength, asNumber, asPoint } from './coerce.js';

/** How many values each function takes. */
const takes: Readonly<Record<Call['function'], readonly [number, number]>> = {
  sin: [1, 1],
  cos: [1, 1],
  tan: [1, 1],
  asin: [1, 1],
  acos: [1, 1],
  atan: [1, 1],
  sqrt: [1, 1],
  abs: [1, 1],
  round: [1, 2],
  atan2: [2, 2],
  min: [1, 99],
  max: [1, 99],
  mid: [2, 2],
  toward: [3, 3],
};

/** The value of a function; what it cannot be computed from is reported and gives undefined. */
export const evaluateCall = (lowering: Lowering, call: Call): Value | undefined => {
  const limits = takes[call.function];
  const count = call.args?.length ?? 0;
  if (!limits) return undefined;
  if (count < limits[0] || count > limits[1]) {
    const needs = limits[0] === limits[1] ? `${limits[0]}` : `${limits[0]} or more`;
    lowering.reports.add(
      'value/out-of-range',
      lowering.idOf(call),
      `\`${call.function}\` is given ${count} values; it needs ${needs}`,
      {
        values: { has_count: count, needs_count: limits[0] },
      },
    );
    return undefined;
  }
  const value = apply(lowering, call);
  if (value?.kind === 'number' && !Number.isFinite(value.value)) {
    lowering.reports.add('value/not-a-number', lowering.idOf(call), `\`${call.function}\` of this has no value`);
    return undefined;
  }
  return value;
};

const apply = (lowering: Lowering, call: Call): Value | undefined => {
  const first = call.args[0];
  switch (call.function) {
    case 'sin':
    case 'cos':
    case 'tan':
      return plain(Math[call.function], asAngle(lowering, first, `The angle of \`${call.function}\``));
    case 'asin':
    case 'acos':
    case 'atan':
      return plain(Math[call.function], asNumber(lowering, first, `The value of \`${call.function}\``), ANGLE);
    case 'mid':
    case 'toward':
      return place(lowering, call);
    case 'sqrt':
      return root(lowering, call);
    case 'abs': {
      const value = number(lowering, call, lowering.solve.evaluate(lowering, first));
      return value && { ...value, value: Math.abs(value.value) };
    }
    case 'round':
      return round(lowering, call);
    case 'atan2': {
      const pair = alike(lowering, call);
      return pair && numberValue(Math.atan2(pair[0].value, pair[1].value), ANGLE);
    }
    case 'min':
    case 'max': {
      const values = alike(lowering, call);
      return values && { ...values[0], value: Math[call.function](...values.map((value) => value.value)) };
    }
  }
};

const plain = (compute: (value: number) => number, value: number | undefined, powers = NUMBER): Value | undefined =>
  value === undefined ? undefined : numberValue(compute(value), powers);

const place = (lowering: Lowering, call: Call): Value | undefined => {
  const [a, b] = [
    asPoint(lowering, call.args[0], `The first of \`${call.function}\``),
    asPoint(lowering, call.args[1], `The second of \`${call.function}\``),
  ];
  if (call.function === 'mid') return a && b && pointValue(midpoint(a, b));
  const by = asLength(lowering, call.args[2], 'The distance of `toward`');
  if (!a || !b || by === undefined) return undefined;
  return pointOr(towards(a, b, by), () =>
    lowering.reports.add(
      'value/not-a-number',
      lowering.idOf(call),
      '`toward` has no direction: its two points are one',
    ),
  );
};

const pointOr = (point: Vec3 | undefined, otherwise: () => void): Value | undefined => {
  if (point) return pointValue(point);
  otherwise();
  return undefined;
};

const number = (lowering: Lowering, call: Call, value: Value | undefined): NumberValue | undefined => {
  if (value?.kind !== 'point') return value;
  lowering.reports.add(
    'unit/wrong',
    lowering.idOf(call),
    `\`${call.function}\` is given a point; it needs a number or a length`,
  );
  return undefined;
};

const root = (lowering: Lowering, call: Call): Value | undefined => {
  const value = number(lowering, call, lowering.solve.evaluate(lowering, call.args[0]));
  const powers = value && rootPowers(value.powers);
  if (value && !powers) {
    lowering.reports.add(
      'unit/wrong',
      lowering.idOf(call),
      `\`sqrt\` is given ${describe(value)}; it needs a number or an area`,
    );
  }
  return value && powers && numberValue(Math.sqrt(value.value), powers, value.bare);
};

/** To a whole number, or to a multiple of the second value. */
const round = (lowering: Lowering, call: Call): Value | undefined => {
  if (call.args.length === 1) {
    const value = number(lowering, call, lowering.solve.evaluate(lowering, call.args[0]));
    if (!value || samePowers(value.powers, NUMBER)) return value && { ...value, value: Math.round(value.value) };
    lowering.reports.add(
      'unit/wrong',
      lowering.idOf(call),
      `\`round\` is given ${describe(value)}; it needs the step as well, such as \`round(w, 5 mm)\``,
    );
    return undefined;
  }
  const pair = alike(lowering, call);
  return pair && { ...pair[0], value: Math.round(pair[0].value / pair[1].value) * pair[1].value };
};

/** All arguments as numbers of one dimension; bare ones become lengths beside lengths. */
const alike = (lowering: Lowering, call: Call): NumberValue[] | undefined => {
  const values = call.args.map((arg) => number(lowering, call, lowering.solve.evaluate(lowering, arg)));
  if (values.some((value) => value === undefined)) return undefined;
  const known = values as NumberValue[];
  if (known.some((value) => samePowers(value.powers, LENGTH))) {
    const lengths = call.args.map((arg) => asLength(lowering, arg, `A value of \`${call.function}\``));
    return lengths.some((length) => length === undefined)
      ? undefined
      : lengths.map((length) => numberValue(length!, LENGTH));
  }
  const odd = known.find((value) => !samePowers(value.powers, known[0].powers));
  if (!odd) return known;
  lowering.reports.add(
    'unit/mixed',
    lowering.idOf(call),
    `\`${call.function}\` is given ${describe(known[0])} and ${describe(odd)}; it needs values of one kind`,
  );
  return undefined;
};

/** Halfway between two points, or `by` mm from the first towards the second; undefined where they are one point. */
const midpoint = (a: Vec3, b: Vec3): Vec3 => lerp(a, b, 0.5);
const towards = (a: Vec3, b: Vec3, by: number): Vec3 | undefined => {
  const apart = distance(a, b);
  return apart < SAME_POINT ? undefined : add(a, scale(subtract(b, a), by / apart));
};
