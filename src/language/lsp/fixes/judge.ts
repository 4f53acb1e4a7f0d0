import { DocumentState, type LangiumDocuments } from 'langium';
import type { Finding } from '../../../analysis/model/finding.js';
import { memo } from '../../../analysis/cache/memo.js';
import { rules } from '../../../analysis/rules/registry.js';
import type { RuleFinding } from '../../../analysis/rules/rule.js';
import { evaluate, evaluateAsIf, findingsOfAll, findingsOfText, type Analysis } from '../../analyse.js';
import type { Analyser } from '../../analyser.js';
import { newIn, topicsOf } from '../../diagnostics/topics.js';
import { reachableDocuments } from '../../workspace/imports.js';
import type { Numbers } from '../../lower/lowering.js';
import type { TubDocument } from '../../lower/sources.js';

/** What becomes of the findings when other numbers stand in the text. */
export interface Verdict {
  readonly gone: boolean;
  /** Findings of the text that were not there before. */
  readonly brought: readonly Finding[];
  /** A file that uses the text would have findings that were not there before. */
  readonly breaksUser: boolean;
}

/** Says of other numbers in one text what they would do; the text stays as it is. */
export interface Judge {
  readonly analysis: Analysis;
  /** By how much a check still misses what it needs on a finding's subject: 0 when it passes, NaN when the numbers leave
   *  no tub that it could be asked of. Runs that one check. */
  readonly shortfall: (finding: Finding, numbers: Numbers) => number;
  /** Judges the whole text, and every file that uses it, as a keystroke would. Yields where it may be broken off. */
  readonly verdict: (finding: Finding, numbers: Numbers) => Generator<void, Verdict>;
}

export const judgeOf = (analysis: Analysis, store: LangiumDocuments, analyser: Analyser): Judge => {
  const users = memo(() => usersOf(store, analysis.document));
  const ofText = topicsOf(evaluate(store, analysis.document).ofText);

  const shortfall = (finding: Finding, numbers: Numbers): number => {
    const evaluated = evaluateAsIf(store, analysis.document, numbers);
    if (newIn(evaluated.ofText, ofText).length > 0) return NaN;
    const rule = rules.find(({ code }) => code === finding.code);
    let worst = 0;
    for (const each of rule?.check(evaluated.stages, 'live') ?? []) {
      if (each && isSameSubject(each, finding)) worst = Math.max(worst, shortfallOf(each));
    }
    return worst;
  };

  function* foundWith({ document, effort }: Analysis, numbers: Numbers): Generator<void, readonly Finding[]> {
    const evaluated = evaluateAsIf(store, document, numbers);
    yield;
    return yield* findingsOfAll(evaluated, findingsOfText(store, evaluated), { effort });
  }

  function* verdict(finding: Finding, numbers: Numbers): Generator<void, Verdict> {
    const after = yield* foundWith(analysis, numbers);
    const gone = !after.some((each) => each.code === finding.code && isSameSubject(each, finding));
    const brought = newIn(after, topicsOf(analysis.findings));
    if (!gone || brought.length > 0) return { gone, brought, breaksUser: false };
    for (const user of users()) {
      const before = yield* analyser.newest(user);
      const inUser = newIn(yield* foundWith(before, numbers), topicsOf(before.findings));
      if (inUser.length > 0) return { gone, brought, breaksUser: true };
    }
    return { gone, brought, breaksUser: false };
  }

  return { analysis, shortfall, verdict };
};

/** The other texts that use this one, directly or through others. */
const usersOf = (store: LangiumDocuments, document: TubDocument): readonly TubDocument[] =>
  store.all
    .filter(
      (each) =>
        each !== document && each.state >= DocumentState.Linked && reachableDocuments(store, each).includes(document),
    )
    .map((each) => each as TubDocument)
    .toArray();

export const shortfallOf = ({ measure }: Pick<RuleFinding, 'measure'>): number => {
  if (!measure) return NaN;
  return measure.better === 'more' ? measure.needs - measure.has : measure.has - measure.needs;
};

type Subject = Pick<Finding, 'at' | 'about'>;

/** The other things that a finding names may change with the numbers. */
const isSameSubject = (a: Subject, b: Subject): boolean =>
  b.about.length > 0 ? a.about[0] === b.about[0] : a.at === b.at;
