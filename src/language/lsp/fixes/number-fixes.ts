import type { Finding } from '../../../analysis/finding.js';
import { findingsOf } from '../../../analysis/run.js';
import { rules } from '../../../analysis/rules/registry.js';
import type { Rule, RuleFinding } from '../../../analysis/rules/rule.js';
import { createStages, type Stages } from '../../../analysis/stages.js';
import type { Analysis } from '../../analyse.js';
import { lower } from '../../lower/to-model.js';
import { plain } from '../plain.js';
import type { Fix } from './fix.js';
import { literalsBehind, type Literal } from './literals.js';
import { nearestPassing, neatPassing } from './nearest-passing.js';
import { rangeOfProperty } from './text-fixes.js';

/** Numbers tried, and fixes offered, for one finding. */
const MOST_LITERALS = 8;
const MOST_FIXES = 3;

/**
 * Changes of one number of the text each, after which the check passes and no error is new: found by working the tub
 * out again with that number until it passes. Nearest change first.
 */
export const numberFixes = (finding: Finding, analysis: Analysis): readonly Fix[] => {
  const rule = rules.find(({ code }) => code === finding.code);
  if (!rule || !finding.measure) return [];
  const solved = literalsBehind(finding, analysis)
    .slice(0, MOST_LITERALS)
    .flatMap((literal) => {
      const value = solveFor(literal, finding, rule, analysis);
      return value === undefined ? [] : [{ literal, value, change: Math.abs(value - literal.value) / Math.max(Math.abs(literal.value), 1) }];
    })
    .sort((a, b) => a.change - b.change)
    .slice(0, MOST_FIXES);
  return solved.flatMap(({ literal, value }, i) => toFix(literal, value, i === 0));
};

const toFix = ({ node, name }: Literal, value: number, preferred: boolean): readonly Fix[] => {
  const range = rangeOfProperty(node, 'value');
  if (!range) return [];
  const number = plain(value, 3);
  const unit = node.unit === undefined ? '' : ` ${node.unit}`;
  return [{ title: `Set ${isLetName(name) ? name : `the ${name}`} to ${number}${unit}: computed to pass`, edits: [{ range, newText: number }], preferred }];
};

const isLetName = (name: string): boolean => name.startsWith('`');

const solveFor = (literal: Literal, finding: Finding, rule: Rule, analysis: Analysis): number | undefined => {
  const stagesWith = (value: number): Stages => createStages(lower(analysis.documents, { overrides: new Map([[literal.at, value]]) }).tub);
  const shortfall = (value: number): number => {
    const still = sameFinding(rule, stagesWith(value), finding);
    return still === undefined ? 0 : shortfallOf(still);
  };
  const reach = literal.value === 0 ? 100 : Math.abs(literal.value) * 3;
  const nearest = nearestPassing(shortfall, literal.value, reach);
  if (nearest === undefined) return undefined;
  const errorsBefore = errorsIn(analysis.findings);
  const passes = (value: number): boolean => {
    const findings = findingsOf(stagesWith(value));
    return !findings.some((each) => isSame(each, finding)) && [...errorsIn(findings)].every((error) => errorsBefore.has(error));
  };
  return neatPassing(passes, literal.value, nearest);
};

const shortfallOf = ({ measure }: RuleFinding): number => {
  if (!measure) return NaN;
  return measure.better === 'more' ? measure.needs - measure.has : measure.has - measure.needs;
};

/** The same finding on a changed tub: same check, same things. */
const sameFinding = (rule: Rule, stages: Stages, finding: Finding): RuleFinding | undefined => {
  for (const each of rule.check(stages)) if (each && each.about.join() === finding.about.join()) return each;
  return undefined;
};

const isSame = (a: Finding, b: Finding): boolean => a.code === b.code && a.about.join() === b.about.join();

const errorsIn = (findings: readonly Finding[]): ReadonlySet<string> =>
  new Set(findings.filter(({ severity }) => severity === 'error').map(({ code, about }) => `${code} ${about.join()}`));
