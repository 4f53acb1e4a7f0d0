import { ROUND_OFF } from '../geometry/tolerance.js';
import { fitter, termCount, type Polynomial } from './polynomial.js';
import type { Unknown } from './problem.js';
import { placeOf, type Walk } from './sample.js';
import { missed } from './task.js';
import { nearestAllowed, type Point } from './tries.js';

/** Most choices of values that are looked at around the best one. */
const MOST_CHOICES = 4000;
/** Choices in a row that may turn out no better than the best: more while wishes are missed, as one may still meet them. */
const IDLE = { met: 3, missed: 10 };
/** Points that models are fitted to, as a multiple of what they need at the least. */
const POINTS = 3;

/** What is expected of each choice near the best. */
interface Models {
  readonly goal: Polynomial;
  readonly misses: readonly Polynomial[];
}

/**
 * Tries the choices near the best one that look better by what is known around it: the goal and every miss as curved functions
 * of the values. This goes along valleys that no step of one or two values leads along, and where wishes are missed and few
 * choices are left it tries them all. Only for values in steps.
 */
export function* refine(walk: Walk): Generator<void, void> {
  const { tries, best } = walk;
  const { unknowns } = tries.problem;
  if (unknowns.some(({ step }) => step === undefined)) return;
  const isSmall = choicesIn(unknowns) <= tries.left;
  for (
    let idle = 0;
    best.merit && tries.left > 0 && idle < (best.isMet ? IDLE.met : isSmall ? Infinity : IDLE.missed);
  ) {
    const next = nextChoice(walk, best.merit.point);
    if (!next) return;
    idle = (yield* best.offer(yield* tries.at(next))) ? 0 : idle + 1;
  }
}

const choicesIn = (unknowns: readonly Unknown[]): number =>
  unknowns.reduce((product, unknown) => product * (lastStep(unknown) + 1), 1);

const lastStep = ({ low, high, step = 1 }: Unknown): number => Math.floor((high - low) / step + ROUND_OFF);

/** The untried choice from which most is expected; undefined where none looks better than the best. */
const nextChoice = (walk: Walk, center: Point): readonly number[] | undefined => {
  const { tries, best } = walk;
  const { unknowns } = tries.problem;
  const models = modelsAround(walk, center);
  if (!models) return undefined;
  const tried = new Set(tries.points.map(({ values }) => values.join()));
  let found: readonly number[] | undefined;
  let [leastMissed, leastGoal] = best.isMet ? [0, best.merit!.goals[0] ?? 0] : [Infinity, Infinity];
  for (const values of choicesAround(unknowns, center.values)) {
    const place = placeOf(unknowns, values);
    const misses = models.misses.reduce((sum, miss) => sum + above(miss(place)), 0);
    if (misses > leastMissed) continue;
    const goal = models.goal(place);
    const isBetter = misses < leastMissed || goal < leastGoal - ROUND_OFF * Math.abs(leastGoal);
    if (!isBetter || tried.has(values.join())) continue;
    [found, leastMissed, leastGoal] = [values, misses, goal];
  }
  return found;
};

/** What a model says of a miss is no more exact than this. */
const above = (miss: number): number => (miss > ROUND_OFF ? miss : 0);

/** Undefined where too little was tried to tell. */
const modelsAround = ({ tries, task }: Walk, center: Point): Models | undefined => {
  const { unknowns } = tries.problem;
  const middle = placeOf(unknowns, center.values);
  const needed = termCount(unknowns.length);
  const near = tries.points
    .filter(
      ({ trial }) => trial && Number.isFinite(task.goals(trial)[0] ?? 0) && Number.isFinite(missed(task.misses(trial))),
    )
    .map((point) => {
      const place = placeOf(unknowns, point.values);
      return { point, place, away: Math.hypot(...place.map((each, i) => each - middle[i])) };
    })
    .sort((a, b) => a.away - b.away)
    .slice(0, POINTS * needed);
  if (near.length < needed) return undefined;
  const reach = near[near.length - 1].away;
  const fit = fitter({
    places: near.map(({ place }) => place),
    weights: near.map(({ away }) => 1 / (NEAREST + (away / reach) ** 2)),
  });
  const trials = near.map(({ point }) => point.trial!);
  const misses = trials.map((trial) => task.misses(trial));
  return {
    goal: fit(trials.map((trial) => task.goals(trial)[0] ?? 0)),
    misses: misses[0].map((_, i) => fit(misses.map((each) => each[i]))),
  };
};

/** How much more the nearest points count than the farthest: a hundred times. */
const NEAREST = 0.01;

/** All choices of a box around some values, as large as may be, in the order of the grid. */
const choicesAround = (unknowns: readonly Unknown[], values: readonly number[]): Iterable<readonly number[]> => {
  const widths = unknowns.map((unknown) => lastStep(unknown) + 1);
  while (widths.reduce((product, width) => product * width, 1) > MOST_CHOICES) {
    const widest = widths.indexOf(Math.max(...widths));
    widths[widest] = Math.ceil(widths[widest] / 2);
  }
  return product(
    unknowns.map((unknown, i) => {
      const { low, step = 1 } = unknown;
      const at = Math.round((values[i] - low) / step);
      const first = Math.max(0, Math.min(at - Math.floor(widths[i] / 2), lastStep(unknown) + 1 - widths[i]));
      return Array.from({ length: widths[i] }, (_, k) => nearestAllowed(unknown, low + (first + k) * step));
    }),
  );
};

function* product(lists: readonly (readonly number[])[]): Generator<readonly number[]> {
  const [first, ...rest] = lists;
  if (rest.length === 0) for (const value of first) yield [value];
  else for (const value of first) for (const others of product(rest)) yield [value, ...others];
}
