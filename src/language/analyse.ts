import { UriUtils, type LangiumDocuments } from 'langium';
import { emptyTub } from '../analysis/model/empty-tub.js';
import type { Finding } from '../analysis/model/finding.js';
import type { Tub } from '../analysis/model/tub.js';
import type { Effort } from '../analysis/making/plan/verdict.js';
import type { Rule } from '../analysis/rules/rule.js';
import { runRules, sortFindings, withTotals, type RunOptions } from '../analysis/rules/run.js';
import { createStages, type Stages } from '../analysis/stages/stages.js';
import { limits } from '../analysis/model/limits.js';
import { isVariant, type Variant } from './generated/ast.js';
import { withVariants, type VariantFindings } from './diagnostics/variant-findings.js';
import { onceAFile } from './diagnostics/missing-units.js';
import { withoutEchoes } from './diagnostics/echoes.js';
import { withoutFollowers, withoutLostBlocks } from './diagnostics/followers.js';
import { reachableDocuments, usedFiles } from './workspace/imports.js';
import type { FreeValue } from './lower/free.js';
import { Reports } from './lower/text/report.js';
import { SourceTable, type TubDocument } from './lower/text/sources.js';
import { lower, type AsIf, type Lowered } from './lower/to-model.js';
import type { Numbers, StandIns, Things } from './lower/lowering.js';
import { isOfKnownCode, reportUnknownCodes } from './diagnostics/accepted-codes.js';
import { thingsOf } from './things-of-texts.js';
import { errorCountOf, reportEncoding, reportSharedNames, reportText } from './diagnostics/text-findings.js';

/** One document evaluated, before any check: its tub, and the stages of its analysis as they are asked for. */
export interface Evaluation {
  readonly document: TubDocument;
  /** The document and the files it uses. */
  readonly documents: readonly TubDocument[];
  readonly tub: Tub;
  readonly stages: Stages;
  readonly sources: SourceTable;
  /** What its evaluation found; what the text has wrong before that is no part of it. */
  readonly ofText: readonly Finding[];
  /** Values of the document that may be worked out. */
  readonly free: readonly FreeValue[];
  readonly standIns: StandIns;
}

/** All that is known of one document: its evaluation, and every finding. */
export interface Analysis extends Evaluation {
  /** Sorted by place; those of the text first where they stand first. */
  readonly findings: readonly Finding[];
  readonly effort: Effort;
}

/** What is found before all is known. */
export type EarlyFindings = Pick<Analysis, 'document' | 'sources' | 'findings'>;

export interface AnalyseOptions {
  /** Only these checks; all unless given. */
  readonly rules?: readonly Rule[];
  /** When given: what the text itself has wrong and what these checks find is yielded before the others are run. */
  readonly early?: readonly Rule[];
  /** Live unless given. In full every variant is checked as well. */
  readonly effort?: Effort;
  /** Only this variant of the text. */
  readonly variant?: Variant;
}

export interface Evaluated extends Evaluation {
  /** What the files of existing things hold. */
  readonly things: Things;
  /** What it was made from: it holds as long as every file's text is still this. */
  readonly roots: readonly object[];
}

const evaluations = new WeakMap<TubDocument, Evaluated>();

/** A linked document's tub. Kept as long as its text and those it uses stay: checks, hints and previews share its stages. */
export const evaluate = (store: LangiumDocuments, document: TubDocument): Evaluated => {
  const documents = reachableDocuments(store, document);
  const things = thingsOf(store, documents, (used) => evaluate(store, used).stages);
  const roots = rootsOf(documents, things);
  const known = evaluations.get(document);
  if (known?.roots.length === roots.length && roots.every((root, i) => root === known.roots[i])) return known;
  const evaluated = evaluateWith(documents, { things });
  evaluations.set(document, evaluated);
  return evaluated;
};

/** What an evaluation holds as long as: the texts, and the meshes of things. */
const rootsOf = (documents: readonly TubDocument[], things: Things): readonly object[] => [
  ...documents.map((each) => each.parseResult.value),
  ...[...things.values()].filter((thing) => typeof thing === 'object'),
];

const evaluateWith = (documents: readonly TubDocument[], as: AsIf = {}): Evaluated => {
  const { tub, sources, findings, free, standIns } = lowerSafely(documents, as);
  const things = as.things ?? new Map();
  const roots = rootsOf(documents, things);
  return {
    document: documents[0],
    documents,
    tub,
    sources,
    stages: createStages(tub),
    ofText: findings,
    free,
    standIns,
    things,
    roots,
  };
};

/** A document's evaluation, or that of one of its variants, if other numbers stood in the text; kept by nobody. */
export const evaluateAsIf = (
  store: LangiumDocuments,
  document: TubDocument,
  numbers: Numbers,
  variant?: Variant,
): Evaluated => {
  const { documents, sources, things } = evaluate(store, document);
  return evaluateWith(documents, { numbers, sources, things, ...(variant && { variant }) });
};

const evaluationsOfVariants = new WeakMap<Variant, Evaluated>();

/** The same tub with the values of a variant; its places are those of the text. Kept as the text's own is. */
export const evaluateVariant = (store: LangiumDocuments, document: TubDocument, variant: Variant): Evaluated => {
  const base = evaluate(store, document);
  const known = evaluationsOfVariants.get(variant);
  if (known?.sources === base.sources) return known;
  const evaluated = evaluateWith(base.documents, { variant, sources: base.sources, things: base.things });
  evaluationsOfVariants.set(variant, evaluated);
  return evaluated;
};

/** The variants that a text states, one of each name, no more than are checked. */
export const variantsIn = ({ parseResult }: TubDocument): readonly Variant[] => {
  const named = (parseResult.value.statements ?? []).filter(isVariant).filter(({ name }) => name !== undefined);
  return named
    .filter((each, i) => named.findIndex(({ name }) => name === each.name) === i)
    .slice(0, limits.variants.atMost);
};

/** What the text itself has wrong, its evaluation included: names, units, values, used files. */
export const findingsOfText = (store: LangiumDocuments, evaluated: Evaluated): readonly Finding[] => {
  const { document, documents, sources, ofText } = evaluated;
  const reports = new Reports();
  if (reportEncoding(document, sources, reports)) return reports.findings;
  reportText(store, document, sources, reports);
  reportSharedNames(documents, sources, reports);
  reportUnknownCodes(document, sources, reports);
  reportFaultyUses(store, document, documents, sources, reports);
  return onceAFile(sources, withoutEchoes(sources, [...reports.findings, ...ofText]));
};

/** All that is told, sorted, what the text itself has wrong included. Yields where the run may be broken off. */
export function* findingsOfAll(
  evaluation: Evaluation,
  ofText: readonly Finding[],
  options?: RunOptions,
): Generator<undefined, readonly Finding[]> {
  return withTotals(yield* everyFinding(evaluation, ofText, options));
}

/** The same, however many there are of a kind. */
export function* everyFinding(
  { stages, document, sources, standIns }: Evaluation,
  ofText: readonly Finding[],
  options?: RunOptions,
): Generator<undefined, readonly Finding[]> {
  const ofRules = yield* steps(runRules(stages, options));
  const own = withoutFollowers(stages.tub, standIns, ofRules.filter(isOfKnownCode));
  return sortFindings(withoutLostBlocks(document, sources, [...ofText, ...own])).map((finding) => {
    const origin = sources.originOf(finding.at);
    if (origin === undefined) return finding;
    return { ...finding, related: [...finding.related, { at: origin, message: 'It is made of this' }] };
  });
}

/**
 * Evaluates a linked document and runs every check on it. Yields where the run may be broken off; what was computed
 * by then is lost. Never throws for what the text or a check has wrong.
 */
export function* analyse(
  store: LangiumDocuments,
  document: TubDocument,
  options: AnalyseOptions = {},
): Generator<EarlyFindings | undefined, Analysis> {
  const { variant } = options;
  const evaluation = variant ? evaluateVariant(store, document, variant) : evaluate(store, document);
  const { sources } = evaluation;
  yield undefined;
  const ofText = findingsOfText(store, evaluation);
  yield undefined;
  if (options.early) {
    const found = yield* findingsOfAll(evaluation, ofText, { rules: options.early });
    yield { document, sources, findings: found.filter((finding) => finding.code !== 'accept/unused') };
  }
  const findings = yield* findingsOfAll(evaluation, ofText, options);
  const { effort = 'live' } = options;
  const ofVariants = effort === 'full' && !variant ? yield* findingsOfVariants(store, document, options) : [];
  const accepted = new Set(evaluation.tub.accepts.map(({ at }) => at));
  const all = ofVariants.length > 0 ? withVariants(findings, ofVariants, accepted) : findings;
  return { ...evaluation, findings: all, effort };
}

function* findingsOfVariants(
  store: LangiumDocuments,
  document: TubDocument,
  options: AnalyseOptions,
): Generator<undefined, readonly VariantFindings[]> {
  const found: VariantFindings[] = [];
  for (const variant of variantsIn(document)) {
    const evaluation = evaluateVariant(store, document, variant);
    yield undefined;
    const findings = yield* findingsOfAll(evaluation, findingsOfText(store, evaluation), options);
    found.push({ name: variant.name, findings });
  }
  return found;
}

function* steps<T>(run: Generator<void, T>): Generator<undefined, T> {
  for (;;) {
    const step = run.next();
    if (step.done) return step.value;
    yield undefined;
  }
}

/** The same in one go. */
export const analyseNow = (
  store: LangiumDocuments,
  document: TubDocument,
  options: Omit<AnalyseOptions, 'early'> = {},
): Analysis => {
  const run = analyse(store, document, options);
  for (;;) {
    const step = run.next();
    if (step.done) return step.value;
  }
};

/** A fault of our own in the evaluation becomes one finding; the editor goes on working. */
const lowerSafely = (documents: readonly TubDocument[], as: AsIf): Lowered => {
  try {
    return lower(documents, as);
  } catch (error) {
    const sources = new SourceTable(documents);
    const reports = new Reports();
    reports.add(
      'internal/language-failed',
      sources.startOf(0),
      'This text could not be evaluated; nothing but its syntax is checked',
      {
        values: { reason: error instanceof Error ? (error.stack ?? error.message) : String(error) },
      },
    );
    const standIns = { sheets: new Set<string>(), lacksOutlet: false };
    return { tub: emptyTub(sources.startOf(0)), sources, findings: reports.findings, free: [], standIns };
  }
};

/** A used file with errors may state less than it means to: said once, at the statement that brings it in. */
const reportFaultyUses = (
  store: LangiumDocuments,
  document: TubDocument,
  documents: readonly TubDocument[],
  sources: SourceTable,
  reports: Reports,
): void => {
  for (const used of documents.slice(1)) {
    const count = errorCountOf(used);
    if (count === 0) continue;
    const direct = usedFiles(store, document).find(
      ({ uri }) => uri && store.getDocument(uri) && reachableDocuments(store, store.getDocument(uri)!).includes(used),
    );
    if (!direct) continue;
    reports.add(
      'use/has-errors',
      sources.idOf(direct.statement, 'path'),
      `"${UriUtils.basename(used.uri)}" has ${count} errors, so what it states may be incomplete`,
      {
        values: { errors_count: count },
      },
    );
  }
};
