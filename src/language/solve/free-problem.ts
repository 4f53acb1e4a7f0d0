import type { LangiumDocuments } from 'langium';
import { lackingOfOneMachine } from '../../analysis/aim/one-machine.js';
import type { Finding } from '../../analysis/model/finding.js';
import { rules } from '../../analysis/rules/registry.js';
import type { Rule } from '../../analysis/rules/rule.js';
import type { Problem, Trial, Unknown } from '../../analysis/solve/problem.js';
import { resizedParts, type ResizedPart } from '../../analysis/solve/resized-parts.js';
import { boundMisses, findingsMiss, goalNumbers, unlaidOf } from '../../analysis/solve/wish-misses.js';
import {
  evaluateAsIf,
  evaluateVariant,
  findingsOfAll,
  findingsOfText,
  type Analysis,
  type Evaluated,
} from '../analyse.js';
import { newIn, topicsOf } from '../diagnostics/topics.js';
import { isUnits, type Variant } from '../generated/ast.js';
import type { Numbers } from '../lower/lowering.js';
import { unknownOf } from './unknowns.js';

/** What a text leaves free and wishes, as a problem for a search. */
export interface FreeProblem {
  readonly problem: Problem;
  /** The wishes that are dear to judge, in the order of what a trial says of them. */
  readonly dear: readonly DearWish[];
  /** The tub with those values instead of what the text states. */
  readonly evaluated: (values: readonly number[], variant?: Variant) => Evaluated;
}

export interface DearWish {
  readonly text: string;
  readonly kind: 'stock' | 'machine' | 'errors' | 'warnings' | 'new errors' | 'made';
}

/** The findings that such a wish speaks of, of all that are found. */
export type FindingsWish = (wish: DearWish, findings: readonly Finding[]) => readonly Finding[];

/** With variants: every wish has to be met in each of them as well. */
export const freeProblemOf = (
  store: LangiumDocuments,
  analysis: Analysis,
  variants: readonly Variant[] = [],
): FreeProblem => {
  const { document, free, tub } = analysis;
  const isInInches = document.parseResult.value.statements.find(isUnits)?.unit === 'in';
  const unknowns = free.map((each) => unknownOf(each, isInInches));
  const dear = dearWishes(analysis);
  const known = topicsOf(analysis.findings.filter(isError));
  const needed = rulesFor(dear);
  const knownInVariant = new Map<Variant, Topics>();
  const evaluated = (values: readonly number[], variant?: Variant): Evaluated =>
    evaluateAsIf(store, document, numbersOf(analysis, values), variant);

  function* attempt(values: readonly number[]): Generator<void, Trial | undefined> {
    const tubs: Evaluated[] = [];
    for (const variant of [undefined, ...variants]) {
      const tried = evaluated(values, variant);
      yield;
      // Where the text itself comes to nothing with these values, there is no tub to measure.
      if (newIn(tried.ofText.filter(isError), known).length > 0) return undefined;
      if (tried.tub.aim?.wishes.length !== tub.aim?.wishes.length) return undefined;
      tubs.push(tried);
    }
    const goals = [...goalNumbers(tubs[0].stages), changeOf(unknowns, values)];
    return { goals, misses: worst(tubs.map(({ stages }) => boundMisses(stages))), dear: () => dearOfAll(tubs) };
  }

  function* dearOfAll(tubs: readonly Evaluated[]): Generator<void, readonly number[]> {
    const misses = [yield* dearMisses(tubs[0], known)];
    for (const [i, variant] of variants.entries()) {
      if (!knownInVariant.has(variant)) knownInVariant.set(variant, yield* errorsIn(variant));
      misses.push(yield* dearMisses(tubs[i + 1], knownInVariant.get(variant)!));
    }
    return worst(misses);
  }

  function* errorsIn(variant: Variant): Generator<void, Topics> {
    const written = evaluateVariant(store, document, variant);
    const found = yield* findingsOfAll(written, findingsOfText(store, written), { rules: needed });
    return topicsOf(found.filter(isError));
  }

  function* dearMisses(tried: Evaluated, known: Topics): Generator<void, readonly number[]> {
    const found = yield* findingsOfAll(tried, findingsOfText(store, tried), { rules: needed });
    const misses: number[] = [];
    for (const wish of dear) {
      if (wish.kind === 'stock') misses.push((yield* unlaidOf(tried.stages)).share);
      else if (wish.kind === 'machine') misses.push(findingsMiss(yield* lackingOfOneMachine(tried.stages, 'live')));
      else if (wish.kind === 'made') misses.push(resizedBy(resizedParts(analysis.stages, tried.stages)));
      else misses.push(findingsMiss(against(wish, found, known)));
    }
    return misses;
  }

  return { problem: { unknowns, attempt }, dear, evaluated };
};

type Topics = ReadonlyMap<string, number>;

/** By how much each wish is missed where it is missed most. */
const worst = (misses: readonly (readonly number[])[]): readonly number[] =>
  misses.reduce((all, each) => all.map((miss, i) => Math.max(miss, each[i])));

/** What is found against a wish for findings. `known`: the errors that the text has as it is written. */
export const against = (
  { kind }: DearWish,
  findings: readonly Finding[],
  known: ReadonlyMap<string, number>,
): readonly Finding[] => {
  const wrong = findings.filter((finding) => finding.code !== 'aim/not-met' && finding.severity !== 'info');
  switch (kind) {
    case 'warnings':
      return wrong;
    case 'errors':
      return wrong.filter(isError);
    case 'new errors':
      return newIn(wrong.filter(isError), known);
    case 'stock':
    case 'machine':
    case 'made':
      return [];
  }
};

export const isError = ({ severity }: Pick<Finding, 'severity'>): boolean => severity === 'error';

/** mm, each part up to a metre: a part that comes to nothing counts as that. */
const resizedBy = (parts: readonly ResizedPart[]): number => parts.reduce((sum, { by }) => sum + Math.min(by, 1000), 0);

/** Working out values never brings an error, nor changes what is cut already, whether that is wished or not. */
const dearWishes = ({ tub }: Analysis): readonly DearWish[] => {
  const stated = (tub.aim?.wishes ?? []).flatMap((wish): readonly DearWish[] => {
    if (wish.kind === 'stock' || wish.kind === 'machine') return [{ text: wish.text, kind: wish.kind }];
    return wish.kind === 'findings' ? [{ text: wish.text, kind: wish.none }] : [];
  });
  const isSaid = stated.some(({ kind }) => kind === 'errors' || kind === 'warnings');
  return [
    ...stated,
    ...(isSaid ? [] : [{ text: 'no error that is not there now', kind: 'new errors' } as const]),
    ...(tub.made ? [{ text: 'what is made keeps its size', kind: 'made' } as const] : []),
  ];
};

/** Checks that can find what some wish speaks of. */
const rulesFor = (dear: readonly DearWish[]): readonly Rule[] => {
  if (dear.some(({ kind }) => kind === 'warnings')) return rules;
  return rules.filter(({ severity, worst }) => (worst ?? severity) === 'error');
};

/** What is not needed for a wish stays as it is written: how far all values are moved, in shares of what is free. */
const changeOf = (unknowns: readonly Unknown[], values: readonly number[]): number =>
  unknowns.reduce((sum, { low, high, start }, i) => sum + Math.abs(values[i] - start) / (high - low), 0);

const numbersOf = ({ free }: Analysis, values: readonly number[]): Numbers =>
  new Map(free.map(({ literal, sign }, i) => [literal, sign * values[i]]));
