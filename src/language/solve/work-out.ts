import type { LangiumDocuments } from 'langium';
import { measureAspect, unitOfAspect } from '../../analysis/aim/measure.js';
import { NOISE } from '../../analysis/geometry/tolerance.js';
import { besideOf, type Beside } from '../../analysis/solve/beside.js';
import { conflictsOf, type Conflict } from '../../analysis/solve/conflict.js';
import { search } from '../../analysis/solve/search.js';
import { wholeTask, type Best, type Task } from '../../analysis/solve/task.js';
import { tradeOff, type Choice } from '../../analysis/solve/trade-off.js';
import { dearOf, Tries, type Point } from '../../analysis/solve/tries.js';
import { boundsOf, goalsOf } from '../../analysis/solve/wish-misses.js';
import { variantsIn, type Analysis } from '../analyse.js';
import { freeProblemOf, type FreeProblem } from './free-problem.js';
import type { Curve } from '../../analysis/solve/curve.js';
import type { BesideValue, FoundValue, FoundWish, MissingVariant, Outcome, Yields } from './outcome.js';
import { obstaclesOf } from './obstacles.js';
import { toldOf } from './told.js';
import { writtenValue } from './unknowns.js';
import { foundWishes, isAllMet, missingVariants } from './found-wishes.js';

/** Tubs that are tried at the most for the wishes as a whole; what follows from them takes a few more. */
export const MOST_TRIES = 400;

export interface WorkOutOptions {
  readonly tries?: number;
  /** Also the choices between the first two goals. */
  readonly curve?: boolean;
  /** Asked between tubs: when it says so, the work ends with the best so far. */
  readonly isStopped?: () => boolean;
}

/** How far it is. A caller cancels by asking for no more. */
export interface Progress {
  readonly tried: number;
  readonly what: 'values' | 'conflict' | 'choices';
}

/**
 * The values for which the wishes of the text are met best. Same text, same outcome: the work is counted in tubs tried, and no
 * clock is read. Yields often. Undefined where something stands in the way of it (`obstaclesOf`).
 */
export function* workOut(
  store: LangiumDocuments,
  analysis: Analysis,
  options: WorkOutOptions = {},
): Generator<Progress, Outcome | undefined> {
  if (obstaclesOf(analysis).length > 0) return undefined;
  const base = yield* searched(store, analysis, freeProblemOf(store, analysis), options);
  // Values that fail in a variant are looked for again, all tubs side by side.
  const all = base.variants.length > 0 && !base.tries.isStopped ? variantsIn(analysis.document) : [];
  const inAll = all.length > 0 ? yield* searched(store, analysis, freeProblemOf(store, analysis, all), options) : base;
  const { free, tries, best, point, wishes, isBaseMet, variants } = isMetEverywhere(inAll) ? inAll : base;
  const telling = tellerOf(tries, options);
  const isMet = isBaseMet && variants.length === 0;
  const beside = isMet ? yield* telling('values', besideOf(tries, point)) : [];
  const told = yield* telling('values', besideTold(store, analysis, free, { point, beside }));
  const conflicts =
    isBaseMet || tries.isStopped ? [] : yield* telling('conflict', conflictsTold(store, analysis, free, tries));
  const isCurve = options.curve && isMet && !tries.isStopped && goalsOf(analysis.stages).length > 1;
  const choices = isCurve ? yield* telling('choices', choicesForAll(store, analysis, free, { tries, best })) : [];
  return {
    isMet,
    tried: tries.points.length,
    values: valuesOf(analysis, point, told),
    wishes,
    conflicts: tries.isStopped ? [] : conflicts,
    variants,
    curve: choices.length > 1 ? curveOf(analysis, point, choices) : undefined,
  };
}

/** The best values of one problem, judged in full. */
interface Searched {
  readonly free: FreeProblem;
  readonly tries: Tries;
  readonly best: Best;
  readonly point: Point;
  readonly wishes: readonly FoundWish[];
  readonly isBaseMet: boolean;
  readonly variants: readonly MissingVariant[];
}

const isMetEverywhere = ({ isBaseMet, variants }: Searched): boolean => isBaseMet && variants.length === 0;

function* searched(
  store: LangiumDocuments,
  analysis: Analysis,
  free: FreeProblem,
  options: WorkOutOptions,
): Generator<Progress, Searched> {
  const tries = new Tries(free.problem, options.tries ?? MOST_TRIES);
  const telling = tellerOf(tries, options);
  const best = yield* telling('values', search(tries, wholeTask));
  const point = yield* telling('values', bestOfAll(tries, best));
  const wishes = yield* telling('values', foundWishes(store, analysis, free, point.values));
  const isBaseMet = best.isMet && isAllMet(wishes);
  const variants = isBaseMet ? yield* telling('values', missingVariants(store, analysis, free, point.values)) : [];
  return { free, tries, best, point, wishes, isBaseMet, variants };
}

/** Runs a part of the work, tells between its steps how far it is, and stops it when that is wanted. */
const tellerOf = (tries: Tries, { isStopped }: WorkOutOptions) =>
  function* <T>(what: Progress['what'], run: Generator<void, T>): Generator<Progress, T> {
    for (let step = run.next(); ; step = run.next()) {
      if (step.done) return step.value;
      yield { tried: tries.points.length, what };
      if (isStopped?.()) tries.stop();
    }
  };

const valuesOf = (
  { free }: Analysis,
  point: Point,
  beside: readonly (readonly BesideValue[])[],
): readonly FoundValue[] =>
  free.map(({ node, literal, unit, value, low, high }, i) => ({
    name: node.name,
    unit,
    before: value,
    after: point.values[i],
    low,
    high,
    text: writtenValue(point.values[i], literal),
    beside: beside[i],
  }));

/** By free value: what a step further would do. */
function* besideTold(
  store: LangiumDocuments,
  analysis: Analysis,
  free: FreeProblem,
  { point, beside }: { readonly point: Point; readonly beside: readonly Beside[] },
): Generator<void, readonly (readonly BesideValue[])[]> {
  const told: BesideValue[][] = analysis.free.map(() => []);
  for (const each of beside) {
    const value = besideValue(analysis, free, point, each);
    const isOfFindings = value.missed.some((text) => free.dear.some((wish) => wish.text === text));
    const values = point.values.map((same, i) => (i === each.unknown ? (each.value ?? same) : same));
    const judged = isOfFindings ? yield* foundWishes(store, analysis, free, values) : [];
    const found = judged.filter(({ text }) => value.missed.includes(text)).flatMap((wish) => wish.found);
    told[each.unknown].push({ ...value, found });
  }
  return told;
}

const besideValue = (
  { stages }: Analysis,
  { dear }: FreeProblem,
  point: Point,
  { way, value, missed, goals }: Beside,
): Omit<BesideValue, 'found'> => {
  const names = [...boundsOf(stages), ...dear].map(({ text }) => text);
  const was = point.trial?.goals ?? [];
  const change = goalsOf(stages).flatMap(({ text, of, way: wanted }, i) => {
    const by = (wanted === 'least' ? 1 : -1) * (goals[i] - was[i]);
    return Number.isFinite(by) && by !== 0 ? [{ wish: text, by: toldOf(of, by) }] : [];
  });
  return {
    way,
    value,
    missed: missed === 'all' ? ['a tub that can be measured'] : missed.map((i) => names[i]),
    change,
  };
};

/** The choices that do for every variant. */
function* choicesForAll(
  store: LangiumDocuments,
  analysis: Analysis,
  free: FreeProblem,
  { tries, best }: { readonly tries: Tries; readonly best: Best },
): Generator<void, readonly Choice[]> {
  const fitting: Choice[] = [];
  for (const choice of yield* tradeOff(tries, best))
    if ((yield* missingVariants(store, analysis, free, choice.values)).length === 0) fitting.push(choice);
  return fitting;
}

/** Where wishes are missed all the same: what is best while none is missed by more. */
function* bestOfAll(tries: Tries, best: Best): Generator<void, Point> {
  const least = best.merit?.point;
  if (!least?.trial || best.isMet) return least ?? tries.points[0];
  const [misses, dear] = [least.trial.misses, yield* dearOf(least)].map((list) =>
    list.map((miss) => Math.max(0, miss)),
  );
  const task: Task = {
    ...wholeTask,
    misses: (trial) => trial.misses.map((miss, i) => miss - misses[i] - NOISE),
    dear: (all) => all.map((miss, i) => miss - dear[i] - NOISE),
  };
  const found = yield* search(tries, task);
  return found.isMet ? found.merit!.point : least;
}

function* conflictsTold(
  store: LangiumDocuments,
  analysis: Analysis,
  free: FreeProblem,
  tries: Tries,
): Generator<void, readonly (readonly Yields[])[]> {
  const told: (readonly Yields[])[] = [];
  for (const conflict of yield* conflictsOf(tries, boundsOf(analysis.stages).length, free.dear.length))
    told.push(yield* yieldsOf(store, analysis, free, conflict));
  return told;
}

function* yieldsOf(
  store: LangiumDocuments,
  analysis: Analysis,
  free: FreeProblem,
  { wishes }: Conflict,
): Generator<void, readonly Yields[]> {
  const bounds = boundsOf(analysis.stages);
  const found: Yields[] = [];
  for (const { wish, values } of wishes) {
    if (wish < bounds.length) {
      const { text, of, limit } = bounds[wish];
      const has = measureAspect(free.evaluated(values).stages, of);
      found.push({
        wish: text,
        has: has === undefined ? undefined : toldOf(of, has),
        needs: toldOf(of, limit),
        found: [],
      });
      continue;
    }
    const { text } = free.dear[wish - bounds.length];
    const judged: readonly FoundWish[] = yield* foundWishes(store, analysis, free, values);
    const against = judged.find((each) => each.text === text)?.found ?? [];
    found.push({ wish: text, has: undefined, needs: undefined, found: against });
  }
  return found;
}

const curveOf = ({ stages, free }: Analysis, chosen: Point, choices: readonly Choice[]): Curve => {
  const [first, second] = goalsOf(stages);
  const number = ({ of, way }: typeof first, goal: number): number => toldOf(of, way === 'least' ? goal : -goal).value;
  return {
    across: { wish: first.text, unit: unitOfAspect(first.of).unit },
    up: { wish: second.text, unit: unitOfAspect(second.of).unit },
    points: choices.map(({ values, goals }) => ({
      across: number(first, goals[0]),
      up: number(second, goals[1]),
      values: free.map(({ node, literal }, i) => ({
        name: node.name,
        value: values[i],
        text: writtenValue(values[i], literal),
      })),
      isChosen: values.join() === chosen.values.join(),
    })),
  };
};
