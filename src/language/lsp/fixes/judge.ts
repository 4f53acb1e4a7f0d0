import { DocumentState, type LangiumDocuments } from 'langium';
import type { Finding } from '../../../analysis/model/finding.js';
import { LruCache } from '../../../analysis/cache/lru-cache.js';
import { memo } from '../../../analysis/cache/memo.js';
import type { Effort } from '../../../analysis/making/plan/verdict.js';
import { rules } from '../../../analysis/rules/registry.js';
import type { RuleFinding } from '../../../analysis/rules/rule.js';
import {
  evaluate,
  evaluateAsIf,
  evaluateVariant,
  everyFinding,
  findingsOfText,
  variantsIn,
  type Analysis,
  type Evaluated,
} from '../../analyse.js';
import type { KeptAnalyses } from '../../kept-analyses.js';
import { isTotal } from '../../../analysis/rules/run.js';
import { newIn, topicsOf } from '../../diagnostics/topics.js';
import type { Variant } from '../../generated/ast.js';
import { reachableDocuments } from '../../workspace/imports.js';
import type { Numbers } from '../../lower/lowering.js';
import type { TubDocument } from '../../lower/text/sources.js';

/** What becomes of the findings when other numbers stand in the text. */
export interface Verdict {
  readonly gone: boolean;
  /** Findings of the text that were not there before. */
  readonly brought: readonly Finding[];
  /** A variant of the text, or a file that uses it, would have findings that were not there before. */
  readonly breaksOther: boolean;
}

/** Says of other numbers in one text what they would do; the text stays as it is. */
export interface Judge {
  readonly analysis: Analysis;
  /** By how much a check still misses what it needs on a finding's subject: 0 when it passes, NaN when the numbers leave
   *  no tub that it could be asked of. Runs that one check. */
  readonly shortfall: (finding: Finding, numbers: Numbers) => number;
  /** Judges the whole text, its variants and every file that uses it, as a keystroke and the quiet after it would. Yields
   *  where it may be broken off. */
  readonly verdict: (finding: Finding, numbers: Numbers) => Generator<void, Verdict>;
}

/** A tub that stands on the numbers of the text: its own, one of its variants, a file that uses it, a variant of that. */
interface Standing {
  readonly document: TubDocument;
  readonly variant: Variant | undefined;
}

/** Tubs with other numbers that are kept: the next question is most often about the last of them. */
const KEPT_TUBS = 3;
/** What checks find with other numbers: findings about the same statements ask the same first questions. */
const KEPT_ANSWERS = 500;

export const judgeOf = (analysis: Analysis, store: LangiumDocuments, analyses: KeptAnalyses): Judge =>
  new TextJudge(analysis, store, analyses);

class TextJudge implements Judge {
  private readonly own: Standing;
  private readonly ofText: ReadonlyMap<string, number>;
  private readonly tubs = new LruCache<Evaluated>(KEPT_TUBS);
  private readonly answers = new LruCache<readonly RuleFinding[] | 'no tub'>(KEPT_ANSWERS);
  private readonly topicsBefore = new Map<Standing, ReadonlyMap<string, number>>();
  private readonly others = memo(() => othersOf(this.store, this.analysis.document));

  constructor(
    readonly analysis: Analysis,
    private readonly store: LangiumDocuments,
    private readonly analyses: KeptAnalyses,
  ) {
    this.own = { document: analysis.document, variant: undefined };
    this.ofText = topicsOf(evaluate(store, analysis.document).ofText);
  }

  shortfall(finding: Finding, numbers: Numbers): number {
    const key = `${finding.code} ${keyOf(numbers)}`;
    const answer = this.answers.get(key) ?? this.answerOf(finding.code, numbers);
    this.answers.set(key, answer);
    if (answer === 'no tub') return NaN;
    const same = answer.filter((each) => isSameSubject(each, finding));
    return same.reduce((worst, each) => Math.max(worst, shortfallOf(each)), 0);
  }

  *verdict(finding: Finding, numbers: Numbers): Generator<void, Verdict> {
    const after = yield* foundIn(this.store, this.tubWith(numbers), this.analysis.effort);
    const gone = !after.some((each) => each.code === finding.code && isSameSubject(each, finding));
    const brought = newIn(after, yield* this.topicsOf(this.own));
    if (!gone || brought.length > 0) return { gone, brought, breaksOther: false };
    for (const other of this.others()) {
      const tub = evaluateAsIf(this.store, other.document, numbers, other.variant);
      const found = yield* foundIn(this.store, tub);
      if (newIn(found, yield* this.topicsOf(other)).length > 0) return { gone, brought, breaksOther: true };
    }
    return { gone, brought, breaksOther: false };
  }

  private answerOf(code: string, numbers: Numbers): readonly RuleFinding[] | 'no tub' {
    const tub = this.tubWith(numbers);
    if (newIn(tub.ofText, this.ofText).length > 0) return 'no tub';
    const found = rules.find((each) => each.code === code)?.check(tub.stages, 'live') ?? [];
    return [...found].filter((each) => each !== undefined);
  }

  private tubWith(numbers: Numbers): Evaluated {
    const key = keyOf(numbers);
    const tub = this.tubs.get(key) ?? evaluateAsIf(this.store, this.analysis.document, numbers);
    this.tubs.set(key, tub);
    return tub;
  }

  /** What is found of a tub as the texts stand. */
  private *topicsOf(standing: Standing): Generator<void, ReadonlyMap<string, number>> {
    const known = this.topicsBefore.get(standing);
    if (known) return known;
    const topics = topicsOf(yield* this.foundBefore(standing));
    this.topicsBefore.set(standing, topics);
    return topics;
  }

  /** Without what a variant adds and takes away, as each is judged by itself; and all of them, however many there are of a kind. */
  private *foundBefore(standing: Standing): Generator<void, readonly Finding[]> {
    const { document, variant } = standing;
    if (variant) return yield* foundIn(this.store, evaluateVariant(this.store, document, variant));
    const { findings, effort } = standing === this.own ? this.analysis : yield* this.analyses.newest(document);
    const isWhole = variantsIn(document).length === 0 && !findings.some(isTotal);
    return isWhole ? findings : yield* foundIn(this.store, evaluate(this.store, document), effort);
  }
}

function* foundIn(store: LangiumDocuments, tub: Evaluated, effort?: Effort): Generator<void, readonly Finding[]> {
  yield;
  return yield* everyFinding(tub, findingsOfText(store, tub), { effort });
}

/** Numbers by where they stand in the text that is judged. */
const keyOf = (numbers: Numbers): string =>
  [...numbers]
    .map(([node, value]) => `${node.$cstNode?.offset}=${value}`)
    .sort()
    .join();

const othersOf = (store: LangiumDocuments, document: TubDocument): readonly Standing[] => {
  const variants = (of: TubDocument): readonly Standing[] =>
    variantsIn(of).map((variant) => ({ document: of, variant }));
  const users = usersOf(store, document).flatMap((user) => [{ document: user, variant: undefined }, ...variants(user)]);
  return [...variants(document), ...users];
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
