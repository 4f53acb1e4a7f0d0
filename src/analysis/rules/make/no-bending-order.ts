import { placeOfBend, placeOfFlat } from '../../making/making.js';
import { namesOf, obstacleText, obstacleValues } from '../../making/plan-wording.js';
import { partVerdicts } from '../../making/part-verdicts.js';
import type { Blocked } from '../../making/plan/plan.js';
import type { FlatPattern } from '../../fold/flat-pattern.js';
import type { Stages } from '../../stages/stages.js';
import { named } from '../../model/wording.js';
import type { Rule, RuleFinding } from '../rule.js';

export const noBendingOrder: Rule = {
  code: 'make/no-bending-order',
  severity: 'error',
  *check(stages, effort) {
    for (const item of partVerdicts(stages.tub, stages.making(), effort)) {
      if (item?.verdict.kind !== 'impossible') yield undefined;
      else yield item.verdict.blocked ? told(stages, item.flat, item.verdict.blocked) : toldPlainly(stages, item.flat);
    }
  },
};

const toldPlainly = ({ tub }: Stages, flat: FlatPattern): RuleFinding => {
  const at = placeOfFlat(tub, flat);
  return {
    message: `Part ${named(flat.name)} has no bending order: every order of its ${flat.bends.length} bends ends at one that meets the tools`,
    at,
    about: [flat.name],
    related: [{ at, message: 'The bend plan names the bend and the smallest change that frees it' }],
    values: { part: flat.name, bends_count: flat.bends.length },
  };
};

/** Bends that are named one by one; of more their number says as much. */
const NAMED_BENDS = 8;

const madeText = (flat: FlatPattern, made: readonly number[]): string =>
  made.length > NAMED_BENDS ? `${made.length} other bends` : namesOf(flat, made);

const told = ({ tub, shape }: Stages, flat: FlatPattern, blocked: Blocked): RuleFinding => {
  const bend = flat.bends[blocked.bends[0]];
  const at = placeOfBend(tub, shape(), flat, bend);
  const before = blocked.made.length === 0 ? '' : `, with ${madeText(flat, blocked.made)} made`;
  return {
    message: `Part ${named(flat.name)} has no bending order: at bend ${named(bend.name)}${before}, ${obstacleText(flat, blocked)}`,
    at,
    about: [flat.name, bend.name],
    related: [
      {
        at,
        message:
          'Every order and every way to lay the part was tried; the bend plan names the smallest change that frees it',
      },
    ],
    values: { part: flat.name, bend: bend.name, bends_made: blocked.made.length, ...obstacleValues(flat, blocked) },
    ...(blocked.obstacle.kind === 'tool'
      ? { measure: { has: blocked.obstacle.depth, needs: 0, better: 'less' as const } }
      : {}),
  };
};
