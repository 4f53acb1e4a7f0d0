import type { Unknown } from './problem.js';
import type { Best, Task } from './task.js';
import { dearOf, type Point, type Tries } from './tries.js';

/** What a walk looks at: which numbers count, and whether dear wishes are among them at every point. */
export interface Walk {
  readonly tries: Tries;
  readonly task: Task;
  /** Is offered all that is tried. */
  readonly best: Best;
  readonly judges: 'cheap wishes' | 'all wishes';
}

/** One point as plain numbers. */
export interface Sample {
  readonly point: Point;
  /** In the unit cube. */
  readonly place: readonly number[];
  readonly goal: number;
  readonly misses: readonly number[];
}

/** The numbers of the point nearest to a place that may be; undefined where nothing can be judged or nothing more may be tried. */
export function* sampleAt(place: readonly number[], walk: Walk): Generator<void, Sample | undefined> {
  const { tries, task, best, judges } = walk;
  const { unknowns } = tries.problem;
  const point = yield* tries.at(valuesAt(unknowns, place));
  const trial = point?.trial;
  if (!trial) return undefined;
  yield* best.offer(point);
  const misses = [...task.misses(trial), ...(judges === 'all wishes' ? task.dear(yield* dearOf(point)) : [])];
  const goal = task.goals(trial)[0] ?? 0;
  if (!Number.isFinite(goal) || misses.some((miss) => !Number.isFinite(miss))) return undefined;
  return { point, place: placeOf(unknowns, point.values), goal, misses };
}

export const placeOf = (unknowns: readonly Unknown[], values: readonly number[]): readonly number[] =>
  unknowns.map(({ low, high }, i) => (values[i] - low) / (high - low));

export const valuesAt = (unknowns: readonly Unknown[], place: readonly number[]): readonly number[] =>
  unknowns.map(({ low, high }, i) => low + place[i] * (high - low));
