import { missed, Best, type Task } from './task.js';
import type { Trial } from './problem.js';
import { search } from './search.js';
import type { Tries } from './tries.js';

/** Wishes by their place: the cheap ones in their order, then the dear ones. */
export type WishIndex = number;

export interface Conflict {
  /** None of these can be left out: without any one of them the others can be met. In the order of the wishes. */
  readonly wishes: readonly Yielding[];
}

/** One wish of a conflict, and what is left of it when all others of the conflict are met. */
export interface Yielding {
  readonly wish: WishIndex;
  /** The values at which it is missed by the least. */
  readonly values: readonly number[];
}

/** Tries that each question about a conflict may take beyond those that are known. */
const TRIES_EACH = 40;

/** Conflicts that are looked for: whoever gives way in so many will ask again. */
const MOST_CONFLICTS = 3;

/**
 * Of wishes that are not met together sets that cannot be, the smallest first: each wish that cannot be met alone; then of the
 * others, as long as they are not met together, one set of which wishes are left out one by one, the last first, and stay out
 * as long as the rest is still not met. No wish is in two sets. As sure as the search is: a set that can be met may not be
 * found so.
 */
export function* conflictsOf(tries: Tries, cheap: number, dear: number): Generator<void, readonly Conflict[]> {
  const all = Array.from({ length: cheap + dear }, (_, i) => i);
  const conflicts: Conflict[] = [];
  let rest: readonly WishIndex[] = [];
  for (const wish of all) {
    if ((yield* asked(tries, taskOf([wish], cheap))).isMet) rest = [...rest, wish];
    else conflicts.push(yield* conflictOf(tries, [wish], cheap));
  }
  while (rest.length > 1 && conflicts.length < MOST_CONFLICTS && !tries.isStopped) {
    if ((yield* asked(tries, taskOf(rest, cheap))).isMet) break;
    const kept = yield* smallestOf(tries, rest, cheap);
    conflicts.push(yield* conflictOf(tries, kept, cheap));
    rest = rest.filter((wish) => !kept.includes(wish));
  }
  return conflicts;
}

function* smallestOf(tries: Tries, wishes: readonly WishIndex[], cheap: number): Generator<void, readonly WishIndex[]> {
  let kept = wishes;
  for (const wish of [...wishes].reverse()) {
    const others = kept.filter((each) => each !== wish);
    const best = yield* asked(tries, taskOf(others, cheap));
    if (!best.isMet) kept = others;
  }
  return kept;
}

function* conflictOf(tries: Tries, kept: readonly WishIndex[], cheap: number): Generator<void, Conflict> {
  const wishes: Yielding[] = [];
  for (const wish of kept) {
    const values = yield* leastMiss(
      tries,
      wish,
      kept.filter((each) => each !== wish),
      cheap,
    );
    if (values) wishes.push({ wish, values });
  }
  return { wishes };
}

/** Where one wish is missed by the least while others are met. */
function* leastMiss(
  tries: Tries,
  wish: WishIndex,
  others: readonly WishIndex[],
  cheap: number,
): Generator<void, readonly number[] | undefined> {
  const isCheap = wish < cheap;
  const goals = (trial: Trial): readonly number[] => (isCheap ? [trial.misses[wish]] : []);
  const task = { ...taskOf(others, cheap), goals };
  // A dear wish has no slope that could be followed: it counts as a wish like the others, and misses what it has to.
  const best = yield* asked(tries, isCheap ? task : taskOf([...others, wish], cheap));
  return best.merit?.point.values;
}

function* asked(tries: Tries, task: Task): Generator<void, Best> {
  const known = new Best(task);
  yield* known.offerAll(tries);
  const hasGoals = (known.merit?.goals.length ?? 0) > 0;
  if (known.isMet && !hasGoals) return known;
  tries.grant(TRIES_EACH);
  return yield* search(tries, task, { patience: 1, spread: 0 });
}

/** Only these wishes count, and nothing else is wanted. */
const taskOf = (wishes: readonly WishIndex[], cheap: number): Task => {
  const [ofCheap, ofDear] = [wishes.filter((each) => each < cheap), wishes.filter((each) => each >= cheap)];
  return {
    misses: ({ misses }) => ofCheap.map((each) => misses[each]),
    dear: (misses) => ofDear.map((each) => misses[each - cheap]),
    goals: () => [],
  };
};

/** Wishes that a point misses. */
export const missedAt = (misses: readonly number[], dear: readonly number[]): readonly WishIndex[] =>
  [...misses, ...dear].flatMap((miss, i) => (missed([miss]) > 0 ? [i] : []));
