import type { Finding } from '../../../analysis/model/finding.js';
import { findingsOf } from '../../../analysis/rules/run.js';
import { rules } from '../../../analysis/rules/registry.js';
import type { Rule, RuleFinding } from '../../../analysis/rules/rule.js';
import { createStages, type Stages } from '../../../analysis/stages/stages.js';
import type { Analysis } from '../../analyse.js';
import { lower } from '../../lower/to-model.js';
import { plain } from '../plain.js';
import type { Fix } from './fix.js';
import { literalsBehind, type Literal } from './literals.js';
import { leadFrom, nearestPassing, neatBeyond, type Lead } from './nearest-passing.js';
import { rangeOfProperty } from './text-fixes.js';

/** Numbers of the text that are tried, those that are solved for, and the fixes that are offered. */
const MOST_TRIED = 12;
const MOST_SOLVED = 3;
const MOST_FIXES = 3;
/** Neat values for which the whole tub is checked. */
const MOST_NEAT = 3;

/** Fixes by one number of the text each, or why there are none. */
export interface NumberFixes {
  readonly fixes: readonly Fix[];
  /** A reason to show; undefined when there are fixes, or when the finding is not about a number. */
  readonly refusal: string | undefined;
}

const NO_NUMBER: NumberFixes = { fixes: [], refusal: undefined };

/**
 * Changes of one number of the text each, after which the check passes and nothing new is found: worked out by
 * evaluating the whole tub with that number. Nearest change first. Where none does, the reason. Yields between evaluations.
 */
export function* numberFixes(finding: Finding, analysis: Analysis): Generator<void, NumberFixes> {
  const rule = rules.find(({ code }) => code === finding.code);
  const whole = finding.measure ? shortfallOf(finding) : NaN;
  if (!rule || !(whole > 0)) return NO_NUMBER;
  const leads: { readonly literal: Literal; readonly lead: Lead }[] = [];
  for (const literal of literalsBehind(finding, analysis).slice(0, MOST_TRIED)) {
    const lead = yield* leadFrom(shortfallBy(literal, finding, rule, analysis), whole, literal.value, reachOf(literal));
    if (lead) leads.push({ literal, lead });
  }
  if (leads.length === 0) return { fixes: [], refusal: 'no number of these statements helps by itself' };
  const effect = ({ lead }: { readonly lead: Lead }): number => lead.gain / lead.whole;
  const solved: Solved[] = [];
  const refused: string[] = [];
  for (const { literal, lead } of leads.sort((a, b) => effect(b) - effect(a)).slice(0, MOST_SOLVED)) {
    const answer = yield* solveFor(literal, lead, finding, rule, analysis);
    if (typeof answer === 'number') solved.push({ literal, value: answer });
    else refused.push(answer);
  }
  if (solved.length === 0) return { fixes: [], refusal: refused[0] };
  const change = ({ literal, value }: Solved): number =>
    Math.abs(value - literal.value) / Math.max(Math.abs(literal.value), 1);
  const fixes = solved
    .sort((a, b) => change(a) - change(b))
    .slice(0, MOST_FIXES)
    .flatMap(({ literal, value }, i) => toFix(literal, value, i === 0));
  return { fixes, refusal: undefined };
}

interface Solved {
  readonly literal: Literal;
  readonly value: number;
}

const toFix = ({ node, name }: Literal, value: number, preferred: boolean): readonly Fix[] => {
  const range = rangeOfProperty(node, 'value');
  if (!range) return [];
  const number = plain(value, 3);
  const unit = node.unit === undefined ? '' : ` ${node.unit}`;
  const title = `Set ${subjectOf(name)} to ${number}${unit}: computed to pass`;
  return [{ title, edits: [{ range, newText: number }], preferred }];
};

const subjectOf = (name: string): string => (name.startsWith('`') ? name : `the ${name}`);

/** The value that passes, or why this number has none. */
function* solveFor(
  literal: Literal,
  lead: Lead,
  finding: Finding,
  rule: Rule,
  analysis: Analysis,
): Generator<void, number | string> {
  const nearest = yield* nearestPassing(
    shortfallBy(literal, finding, rule, analysis),
    lead,
    literal.value,
    reachOf(literal),
  );
  if (nearest === undefined) return `${subjectOf(literal.name)} helps, but not enough by itself`;
  const before = new Set(analysis.findings.map(nameOf));
  let refusal = '';
  for (const value of neatBeyond(literal.value, nearest).slice(0, MOST_NEAT)) {
    yield;
    const after = findingsOf(stagesWith(literal, value, analysis), { effort: analysis.effort });
    const brought = after.find(
      (each) => nameOf(each) === nameOf(finding) || (!before.has(nameOf(each)) && !wasHidden(each, finding)),
    );
    if (!brought) return value;
    const unit = literal.node.unit === undefined ? '' : ` ${literal.node.unit}`;
    refusal = `${subjectOf(literal.name)} at ${plain(value, 3)}${unit} brings ${brought.code} on \`${brought.about[0] ?? ''}\``;
  }
  return refusal;
}

/** Checks that keep a part from being laid flat: while one of them speaks, the checks of all that follows are silent. */
const keepsFromFlat = (code: string): boolean => /^(shape|bend|flat)\//.test(code);

/** Was it only not seen before, because the finding to be mended stood in the way? */
const wasHidden = (each: Finding, mended: Finding): boolean => keepsFromFlat(mended.code) && !keepsFromFlat(each.code);

const stagesWith = (literal: Literal, value: number, { documents }: Analysis): Stages =>
  createStages(lower(documents, { overrides: new Map([[literal.at, value]]) }).tub);

/** The worst that the check still has to say of the same subject; 0 when it has nothing to say. */
const shortfallBy =
  (literal: Literal, finding: Finding, rule: Rule, analysis: Analysis) =>
  (value: number): number => {
    let worst = 0;
    for (const each of rule.check(stagesWith(literal, value, analysis), analysis.effort)) {
      if (each?.about[0] === finding.about[0] && each) worst = Math.max(worst, shortfallOf(each));
    }
    return worst;
  };

const shortfallOf = ({ measure }: Pick<RuleFinding, 'measure'>): number => {
  if (!measure) return NaN;
  return measure.better === 'more' ? measure.needs - measure.has : measure.has - measure.needs;
};

/** What a finding says of which subject; the other things it names may change with the numbers. */
const nameOf = ({ code, about }: Finding): string => `${code} ${about[0] ?? ''}`;

const reachOf = ({ value }: Literal): number => (value === 0 ? 100 : Math.abs(value) * 3);
