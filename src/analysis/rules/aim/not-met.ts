import { measureAspect, missOf, toldAspect, unitOfAspect, type Bound } from '../../aim/measure.js';
import { NOISE } from '../../geometry/tolerance.js';
import type { Stages } from '../../stages/stages.js';
import type { Rule, RuleFinding } from '../rule.js';

export const notMet: Rule = {
  code: 'aim/not-met',
  severity: 'warning',
  *check(stages) {
    for (const wish of stages.tub.aim?.wishes ?? []) {
      if (wish.kind !== 'bound') continue;
      yield findingOf(stages, wish);
    }
  },
};

const findingOf = (stages: Stages, wish: Bound): RuleFinding | undefined => {
  const { of, way, limit, at, text } = wish;
  const has = measureAspect(stages, of);
  if (has !== undefined && missOf(wish, has) <= NOISE * Math.abs(limit)) return undefined;
  const { key, size } = unitOfAspect(of);
  const needs = `it needs at ${way} ${toldAspect(of, limit)}`;
  return {
    message:
      has === undefined
        ? `\`${text}\` cannot be measured on this tub; ${needs}`
        : `\`${text}\` is not met: the tub has ${toldAspect(of, has)}; ${needs}`,
    at,
    about: [],
    related: [{ at, message: 'Work out the free values, or change what is wished' }],
    values: { ...(has !== undefined && { [`has${key}`]: has / size }), [`needs${key}`]: limit / size },
  };
};
