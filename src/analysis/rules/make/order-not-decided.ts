import type { FlatPattern } from '../../fold/flat-pattern.js';
import { placeOfFlat } from '../../making/making.js';
import { partVerdicts } from '../../making/part-verdicts.js';
import type { Effort } from '../../making/plan/verdict.js';
import { named } from '../../model/wording.js';
import type { Stages } from '../../stages/stages.js';
import type { Rule, RuleFinding } from '../rule.js';

export const orderNotDecided: Rule = {
  code: 'make/order-not-decided',
  severity: 'info',
  *check(stages, effort) {
    for (const item of partVerdicts(stages.tub, stages.making(), effort)) {
      if (item?.verdict.kind === 'not decided') yield told(stages, item.flat, effort, item.verdict.tried);
      else yield undefined;
    }
  },
};

const told = ({ tub }: Stages, flat: FlatPattern, effort: Effort, tried: number): RuleFinding => {
  const at = placeOfFlat(tub, flat);
  const facts = {
    at,
    about: [flat.name],
    values: { part: flat.name, bends_count: flat.bends.length, tried_count: tried },
  };
  if (effort === 'live')
    return {
      ...facts,
      message: `Whether part ${named(flat.name)} has a bending order is not decided yet; it is when typing rests`,
      related: [{ at, message: 'What a keystroke has time for neither found an order nor showed that there is none' }],
    };
  return {
    ...facts,
    severity: 'warning',
    message: `After ${tried} looks at its ${flat.bends.length} bends against the tools the search ends without a bending order of part ${named(flat.name)}, or proof that there is none; fewer bends or a cut with a seam make it one to decide`,
    related: [{ at, message: 'Try the order on paper or in card first: an order may exist' }],
  };
};
