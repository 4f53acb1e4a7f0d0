import { measuredAs, unitOf, type Finding, type Related } from '../model/finding.js';
import type { MeasureKind } from '../model/wish.js';
import { limits } from '../model/limits.js';
import type { Accept, Tub } from '../model/tub.js';
import type { Effort } from '../making/plan/verdict.js';
import { rules } from './registry.js';
import { significant } from '../model/wording.js';
import type { Rule } from './rule.js';
import type { Stages } from '../stages/stages.js';
import { withPlan } from './with-plan.js';

export interface RunOptions {
  /** Only these checks; all unless given. */
  readonly rules?: readonly Rule[] | undefined;
  /** Live unless given: what takes seconds is then told as not decided yet. */
  readonly effort?: Effort | undefined;
}

/**
 * Runs every check on one tub.
 *
 * Yields between checks, and inside long ones, so that a server can look at its cancellation token; returns the
 * findings sorted by place in the text, code and message. A check that crashes is reported as `internal/check-failed`
 * and silences no other. Accepted findings are left out; an `accept` that matched nothing is reported.
 */
export function* runRules(
  stages: Stages,
  { rules: chosen = rules, effort = 'live' }: RunOptions = {},
): Generator<void, Finding[]> {
  if (chosen === rules) yield* untilItFails(stages.inSteps());
  const found = yield* everyFinding(stages, chosen, effort);
  const told = yield* withPlan(stages, found, {
    effort,
    key: `${effort} ${chosen === rules ? 'all' : chosen.map(({ code }) => code).join(' ')}`,
    check: (other, codes) => everyFinding(other, codes ? chosen.filter(({ code }) => codes.has(code)) : chosen, effort),
  });
  return sortFindings(withoutAccepted(told, stages.tub.accepts));
}

/** In the order of the checks, what is accepted among them. */
function* everyFinding(stages: Stages, chosen: readonly Rule[], effort: Effort): Generator<void, readonly Finding[]> {
  const found: Finding[] = [];
  for (const rule of chosen) {
    yield;
    try {
      for (const finding of rule.check(stages, effort)) {
        if (finding === undefined) yield;
        else found.push({ code: rule.code, severity: rule.severity, related: [], ...finding });
      }
    } catch (error) {
      found.push(crashOf(rule, stages.tub, error));
    }
  }
  return found;
}

/** The check that asks for what failed is told of it. */
function* untilItFails(steps: Generator<void, void>): Generator<void, void> {
  try {
    yield* steps;
  } catch {
    return;
  }
}

/** The same in one go. */
export const findingsOf = (stages: Stages, options: RunOptions = {}): Finding[] => {
  const run = runRules(stages, options);
  for (;;) {
    const step = run.next();
    if (step.done) return step.value;
  }
};

const crashOf = (rule: Rule, tub: Tub, error: unknown): Finding => ({
  code: 'internal/check-failed',
  severity: 'warning',
  message: `Check ${rule.code} failed on this tub and has said nothing; the others are complete`,
  at: tub.at,
  about: [],
  related: [],
  values: { check: rule.code, reason: error instanceof Error ? (error.stack ?? error.message) : String(error) },
});

/** An accept of the tub's own file that meets nothing is told; one that meets only what is worse than it takes says so there. */
const withoutAccepted = (findings: readonly Finding[], accepts: readonly Accept[]): Finding[] => {
  const met = new Set<Accept>();
  const unfit = new Map<Accept, Finding>();
  const kept = findings.flatMap((finding): Finding[] => {
    const meant = accepts.filter((accept) => isMeant(accept, finding));
    for (const accept of meant) met.add(accept);
    if (meant.length === 0) return [finding];
    const taken = meant.filter((accept) => isTaken(accept, finding));
    if (taken.length > 0) {
      const severity = taken.every(({ as }) => as !== undefined) ? taken[0].as : undefined;
      return severity ? [{ ...finding, severity }] : [];
    }
    const [fitting, other] = [meant.filter((accept) => limitFor(accept, finding) !== undefined), new Set(meant)];
    for (const accept of fitting) other.delete(accept);
    for (const accept of other) if (!unfit.has(accept)) unfit.set(accept, unfitLimit(accept, finding));
    return [{ ...finding, related: [...finding.related, ...fitting.map((accept) => exceeded(accept, finding))] }];
  });
  const unused = accepts.filter((accept) => accept.within === undefined && !met.has(accept)).map(unusedAccept);
  return [...kept, ...unused, ...unfit.values()];
};

const isMeant = ({ code, on, within }: Accept, finding: Finding): boolean =>
  code === finding.code &&
  (within === undefined || (finding.at >= within[0] && finding.at < within[1])) &&
  (on === undefined || finding.about.some((name) => isMadeOf(on, name)));

/** Is it the thing of that name, or made of nothing but it: a leg of a strip, a bend between two of its legs? */
const isMadeOf = (on: string, name: string): boolean =>
  name === on || name.split(' ').every((word) => word === on || word.startsWith(`${on}.`));

const isTaken = (accept: Accept, finding: Finding): boolean => {
  if (!accept.most) return true;
  const limit = limitFor(accept, finding);
  const measured = measuredAs(finding);
  if (limit === undefined || !measured) return false;
  // What is read off a message is as good as the number itself.
  const told = measured.kind === 'number' ? measured.has : Number(measured.has.toFixed(TOLD_DECIMALS));
  return [measured.has, told].some((has) => (finding.measure?.better === 'less' ? has <= limit : has >= limit));
};

/** With which messages tell lengths, angles, volumes. */
const TOLD_DECIMALS = 2;

/** The limit as what the finding measures; undefined where it is of another kind. */
const limitFor = ({ most }: Accept, finding: Finding): number | undefined => {
  const kind = measuredAs(finding)?.kind;
  return kind && most?.readings[kind];
};

const EXAMPLES: Readonly<Record<MeasureKind, string>> = {
  length: 'a length such as `1 mm`',
  angle: 'an angle such as `2 deg`',
  volume: 'a volume such as `1 L`',
  flow: 'a flow such as `1 L/min`',
  force: 'a force such as `1 kN`',
  number: 'a number such as `2` or `5 %`',
};

const unfitLimit = ({ at, code, most }: Accept, finding: Finding): Finding => {
  const kind = measuredAs(finding)?.kind;
  return {
    code: 'accept/other-measure',
    severity: 'error',
    message: `${code} is accepted up to ${most?.text ?? ''}; ${kind ? `it is measured as ${EXAMPLES[kind]}` : 'it has no measure that a limit can be stated of'}`,
    at: most?.at ?? at,
    about: finding.about,
    related: [{ at: finding.at, message: 'This is not accepted' }],
    values: { accepted: code },
  };
};

const exceeded = (accept: Accept, finding: Finding): Related => {
  const [limit, measured] = [limitFor(accept, finding), measuredAs(finding)];
  const has = limit === undefined || !measured ? '' : `, to ${significant(measured.has, limit)}`;
  const unit = unitOf(finding);
  const told = has === '' || unit?.size !== 1 ? has : `${has} ${unit.text}`;
  return { at: accept.at, message: `Accepted up to ${accept.most?.text ?? ''}; this goes farther${told}` };
};

const unusedAccept = (accept: Accept): Finding => ({
  code: 'accept/unused',
  severity: 'warning',
  message: `Nothing to accept: no ${accept.code} is found${accept.on === undefined ? '' : ` on \`${accept.on}\``}`,
  at: accept.at,
  about: accept.on === undefined ? [] : [accept.on],
  related: [],
  values: { accepted: accept.code },
});

export const sortFindings = (findings: readonly Finding[]): Finding[] =>
  [...findings].sort((a, b) => a.at - b.at || compareText(a.code, b.code) || compareText(a.message, b.message));

/**
 * The findings, of each code no more than anyone reads: the first ones, and where the next one would stand how many there
 * are in all. Takes and returns them sorted. Cost: O(n).
 */
export const withTotals = (findings: readonly Finding[]): readonly Finding[] => {
  const most = limits.findings.atMost;
  if (findings.length <= most) return findings;
  const totals = new Map<string, number>();
  for (const { code } of findings) totals.set(code, (totals.get(code) ?? 0) + 1);
  const seen = new Map<string, number>();
  return findings.flatMap((finding): readonly Finding[] => {
    const count = (seen.get(finding.code) ?? 0) + 1;
    seen.set(finding.code, count);
    if (count <= most) return [finding];
    return count === most + 1 ? [totalOf(finding, totals.get(finding.code)!)] : [];
  });
};

/** Does it stand for more that are not told? */
export const isTotal = ({ values }: Pick<Finding, 'values'>): boolean => values.told_count !== undefined;

const totalOf = ({ code, severity, at }: Finding, total: number): Finding => ({
  code,
  severity,
  message: `${total - limits.findings.atMost} more of ${code} stand from here on, ${total} in all; the first ${limits.findings.atMost} are told`,
  at,
  about: [],
  related: [],
  values: { found_count: total, told_count: limits.findings.atMost },
});

const compareText = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);
