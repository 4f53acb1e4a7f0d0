import { missedAt, type WishIndex } from './conflict.js';
import { dearOf, type Point, type Tries } from './tries.js';

/** What comes of one value a step further down or up, the others as they are. */
export interface Beside {
  readonly unknown: number;
  readonly way: 'down' | 'up';
  /** The value there; undefined where its limit is reached. */
  readonly value: number | undefined;
  /** Wishes that it misses; all where nothing comes of it that could be judged. */
  readonly missed: readonly WishIndex[] | 'all';
  /** The goals there. */
  readonly goals: readonly number[];
}

/** Share of its range that a value without steps is moved by. */
const A_LITTLE = 1 / 64;

/** What holds each value where it is: a step down and a step up of each. */
export function* besideOf(tries: Tries, point: Point): Generator<void, readonly Beside[]> {
  const { unknowns } = tries.problem;
  const found: Beside[] = [];
  for (const [unknown, { low, high, step }] of unknowns.entries()) {
    const move = step ?? A_LITTLE * (high - low);
    for (const way of ['down', 'up'] as const) {
      const wanted = point.values[unknown] + (way === 'down' ? -move : move);
      tries.grant(1);
      const there = yield* tries.at(point.values.map((value, i) => (i === unknown ? wanted : value)));
      if (!there) return found;
      if (there === point) found.push({ unknown, way, value: undefined, missed: [], goals: [] });
      else found.push(yield* judged(there, unknown, way));
    }
  }
  return found;
}

function* judged(there: Point, unknown: number, way: Beside['way']): Generator<void, Beside> {
  const value = there.values[unknown];
  if (!there.trial) return { unknown, way, value, missed: 'all', goals: [] };
  const { misses, goals } = there.trial;
  return { unknown, way, value, missed: missedAt(misses, yield* dearOf(there)), goals };
}
