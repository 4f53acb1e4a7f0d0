import { NO_CROSS, NO_MOVE } from '../geometry/tolerance.js';
import { evenCurvature, learnt, times, type Matrix } from './curvature.js';
import { dot, leastOf } from './quadratic.js';
import { placeOf, sampleAt, type Sample, type Walk } from './sample.js';
import { slopesAt, type Slopes } from './slopes.js';
import type { Point } from './tries.js';

const MOST_ROUNDS = 150;
/** Shares of the whole range. */
const FIRST_REACH = 0.25;
const WIDEST_REACH = 1;
/** Price of a miss in goals, each taken as steep as the goal is at the start. */
const FIRST_PRICE = 10;
const MOST_PRICE = 1e6;

/** What is known at one place, and how far it is trusted. */
interface Model {
  readonly here: Sample;
  readonly slopes: Slopes;
  readonly curvature: Matrix;
  /** Makes the goal about as steep as 1. */
  readonly scale: number;
  readonly price: number;
  readonly reach: number;
}

interface Move {
  readonly there: Sample;
  readonly gain: number;
  readonly multipliers: readonly number[];
  readonly price: number;
  readonly reach: number;
}

/**
 * Walks downhill from a point and returns where it ends: at each place the goal and all misses are modelled by small moves of
 * each value, the best place of the model within reach is tried, and the reach grows or shrinks with how well the model held.
 * Source: sequential quadratic programming in a box, J. Nocedal and S. Wright, Numerical Optimization, ch. 18 (from memory).
 */
export function* descend(start: Point, walk: Walk): Generator<void, Point> {
  const { unknowns } = walk.tries.problem;
  let here = yield* sampleAt(placeOf(unknowns, start.values), walk);
  if (!here) return start;
  let slopes = yield* slopesAt(here, walk);
  const steepest = Math.max(...slopes.goal.map(Math.abs));
  const scale = 1 / (steepest || Math.abs(here.goal) || 1);
  let curvature = evenCurvature(unknowns.length);
  let [price, reach] = [FIRST_PRICE, FIRST_REACH];
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const move: Move | undefined = yield* bestMove({ here, slopes, curvature, scale, price, reach }, walk);
    if (!move) return here.point;
    const next = yield* slopesAt(move.there, walk);
    const step = minus(move.there.place, here.place);
    curvature = learnt(
      curvature,
      step,
      minus(pullOf(next, move.multipliers, scale), pullOf(slopes, move.multipliers, scale)),
    );
    ({ price, reach } = move);
    here = move.there;
    slopes = next;
  }
  return here.point;
}

/** A move that gains something; undefined when there is none that the model can see. */
function* bestMove(model: Model, walk: Walk): Generator<void, Move | undefined> {
  let { price, reach } = model;
  while (reach > NO_MOVE) {
    const now = { ...model, price, reach };
    const { step, multipliers } = stepOf(now, model.here.misses);
    if (price < MOST_PRICE && isTooCheap(now, step, multipliers)) {
      price *= 10;
      continue;
    }
    const there = yield* sampleAt(plus(model.here.place, step), walk);
    if (there?.point === model.here.point) return undefined;
    const taken = there && (yield* gaining(now, there, step, walk));
    const gain = taken ? costOf(now, model.here) - costOf(now, taken) : 0;
    const hoped = hopeOf(now, step);
    if (taken && gain > 0)
      return { there: taken, gain, multipliers, price, reach: reachAfter(reach, step, gain / hoped) };
    if (!(hoped > 0)) return undefined;
    reach = 0.4 * Math.min(reach, largest(step));
  }
  return undefined;
}

const reachAfter = (reach: number, step: readonly number[], held: number): number => {
  if (held > 0.7 && largest(step) > 0.8 * reach) return Math.min(WIDEST_REACH, 2 * reach);
  return held < 0.1 ? 0.5 * reach : reach;
};

/** The place tried, or the one beside it where its misses as they turned out are made good: on a curved limit the model always falls short. */
function* gaining(model: Model, there: Sample, step: readonly number[], walk: Walk): Generator<void, Sample> {
  if (costOf(model, there) < costOf(model, model.here) || there.misses.length === 0) return there;
  const flat = there.misses.map((miss, i) => miss - dot(model.slopes.misses[i], step));
  const better = yield* sampleAt(plus(model.here.place, stepOf(model, flat).step), walk);
  return better && costOf(model, better) < costOf(model, there) ? better : there;
}

/** The best step of the model, the misses taken as `misses` where it stands. */
const stepOf = (
  { here, slopes, curvature, scale, price, reach }: Model,
  misses: readonly number[],
): ReturnType<typeof leastOf> => {
  const size = here.place.length;
  const wishes = misses.map((miss, i) => ({ row: slopes.misses[i], bound: -miss, price }));
  const walls = Array.from({ length: size }, (_, i) => [
    { row: unitRow(size, i, 1), bound: Math.min(reach, 1 - here.place[i]), price: Infinity },
    { row: unitRow(size, i, -1), bound: Math.min(reach, here.place[i]), price: Infinity },
  ]).flat();
  const gradient = slopes.goal.map((each) => scale * each);
  return leastOf({ curvature, gradient, limits: [...wishes, ...walls] });
};

const unitRow = (size: number, i: number, value: number): readonly number[] =>
  Array.from({ length: size }, (_, k) => (k === i ? value : 0));

/** A miss stays that the model could make good, because it costs too little. */
const isTooCheap = ({ here, slopes, price }: Model, step: readonly number[], multipliers: readonly number[]): boolean =>
  here.misses.some((miss, i) => multipliers[i] >= price && miss + dot(slopes.misses[i], step) > NO_CROSS);

const costOf = ({ scale, price }: Model, { goal, misses }: Sample): number =>
  scale * goal + price * misses.reduce((sum, miss) => sum + Math.max(0, miss), 0);

/** What the model says that a step gains. */
const hopeOf = ({ here, slopes, curvature, scale, price }: Model, step: readonly number[]): number => {
  const goal = scale * dot(slopes.goal, step) + dot(step, times(curvature, step)) / 2;
  const before = here.misses.reduce((sum, miss) => sum + Math.max(0, miss), 0);
  const after = here.misses.reduce((sum, miss, i) => sum + Math.max(0, miss + dot(slopes.misses[i], step)), 0);
  return price * (before - after) - goal;
};

/** Slope of the goal and of what holds it. */
const pullOf = ({ goal, misses }: Slopes, multipliers: readonly number[], scale: number): readonly number[] =>
  goal.map((each, i) => misses.reduce((sum, row, k) => sum + multipliers[k] * row[i], scale * each));

const plus = (a: readonly number[], b: readonly number[]): readonly number[] => a.map((each, i) => each + b[i]);
const minus = (a: readonly number[], b: readonly number[]): readonly number[] => a.map((each, i) => each - b[i]);
const largest = (step: readonly number[]): number => Math.max(...step.map(Math.abs));
