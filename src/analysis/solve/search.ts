import { descend } from './descend.js';
import { poll } from './poll.js';
import { refine } from './refine.js';
import { placeOf, valuesAt, type Walk } from './sample.js';
import { evenPoint } from './sequence.js';
import { Best, compareMerits, meritOf, type Merit, type Task } from './task.js';
import { dearOf, type Point, type Tries } from './tries.js';

export interface SearchOptions {
  /** Walks in a row that may bring nothing better before the search ends. */
  readonly patience?: number;
  /** Points tried to find places to start from, for each value. */
  readonly spread?: number;
}

const PATIENCE = 2;
const SPREAD = 4;

/**
 * The best point of a problem for one task, as far as it is found within the tries: from where it stands, then from the best
 * of points spread evenly, downhill by models of what is smooth and step by step along what is not; at the end of values in
 * steps among the choices near the best. Same problem, task and tries, same result.
 */
export function* search(
  tries: Tries,
  task: Task,
  { patience = PATIENCE, spread = SPREAD }: SearchOptions = {},
): Generator<void, Best> {
  const { unknowns } = tries.problem;
  const best = new Best(task);
  yield* best.offerAll(tries);
  const first = yield* tries.at(unknowns.map(({ start }) => start));
  yield* best.offer(first);
  const size = unknowns.length;
  if (size === 0) return best;
  for (let i = 0; i < spread * size; i++) {
    const point = yield* tries.at(valuesAt(unknowns, evenPoint(i, size)));
    yield* best.offer(point);
  }
  const walked: Point[] = [];
  for (let idle = 0; idle < patience && tries.left > 0;) {
    const start = yield* nextStart(tries, best, walked);
    if (!start) break;
    const before = best.merit;
    walked.push(start, yield* walkFrom(start, { tries, task, best, judges: 'cheap wishes' }));
    idle = before === undefined || best.merit !== before ? 0 : idle + 1;
  }
  const walk: Walk = { tries, task, best, judges: 'cheap wishes' };
  yield* refine(walk);
  yield* homeward(walk);
  return best;
}

/** Downhill, past dear wishes where they stand in the way, then step by step; at the end for the goals that count less. */
function* walkFrom(start: Point, walk: Walk): Generator<void, Point> {
  const end = yield* descend(start, walk);
  const { task } = walk;
  const isStopped = end.trial !== undefined && isMissed(task.dear(yield* dearOf(end)));
  if (isStopped) yield* descend(end, { ...walk, judges: 'all wishes' });
  yield* poll(walk, isStopped ? undefined : NEAR);
  yield* forLaterGoals(walk);
  yield* homeward(walk);
  return end;
}

/** Share of the range that values are moved by where a walk ended as it should. */
const NEAR = 1 / 64;

const isMissed = (misses: readonly number[]): boolean => misses.some((miss) => !(miss <= 0));

/** Each value back to where it stood, where that is no worse. */
function* homeward({ tries, best }: Walk): Generator<void, void> {
  for (const [i, { start }] of tries.problem.unknowns.entries()) {
    const values = best.merit?.point.values;
    if (values) yield* best.offer(yield* tries.at(values.map((value, k) => (k === i ? start : value))));
  }
}

/** What the first goals leave open goes to the next, as long as those stay where they are. */
function* forLaterGoals({ tries, task, best }: Walk): Generator<void, void> {
  const goals = best.merit?.goals ?? [];
  for (let i = 1; i < goals.length && best.isMet; i++) {
    const kept = best.merit!.goals.slice(0, i);
    const later: Task = {
      dear: task.dear,
      misses: (trial) => {
        const all = task.goals(trial);
        return [...task.misses(trial), ...kept.map((goal, k) => (all[k] - goal) / (Math.abs(goal) || 1))];
      },
      goals: (trial) => task.goals(trial).slice(i),
    };
    const found = new Best(later);
    yield* found.offer(best.merit!.point);
    const walk: Walk = { tries, task: later, best: found, judges: 'cheap wishes' };
    yield* descend(best.merit!.point, walk);
    yield* poll(walk, NEAR);
    yield* best.offer(found.merit?.point);
  }
}

/** Share of the range by which a start has to be away from where a walk began or ended. */
const APART = 0.1;

/** The best point that lies apart from all walks; where there is none, the next of an even spread. */
function* nextStart(tries: Tries, best: Best, walked: readonly Point[]): Generator<void, Point | undefined> {
  const { unknowns } = tries.problem;
  if (walked.length === 0) return best.merit?.point ?? tries.points[0];
  const places = walked.map(({ values }) => placeOf(unknowns, values));
  const isApart = ({ values }: Point): boolean => {
    const place = placeOf(unknowns, values);
    return places.every((other) => other.some((each, i) => Math.abs(each - place[i]) > APART));
  };
  let next: Merit | undefined;
  for (const point of tries.points) {
    if (!point.trial || !isApart(point)) continue;
    const merit = meritOf(best.task, point);
    if (!next || compareMerits(merit, next) < 0) next = merit;
  }
  if (next) return next.point;
  return yield* tries.at(valuesAt(unknowns, evenPoint(tries.points.length, unknowns.length)));
}
