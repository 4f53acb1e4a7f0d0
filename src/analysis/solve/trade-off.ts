import { search } from './search.js';
import type { Best, Task } from './task.js';
import { wholeTask } from './task.js';
import type { Tries } from './tries.js';

/** One of the best choices: less of one goal is only had for more of the other. */
export interface Choice {
  readonly values: readonly number[];
  readonly goals: readonly [number, number];
}

/** Choices that are looked for. */
const CHOICES = 9;
const TRIES_EACH = 40;

/**
 * The choices between the first two goals, by the first: what is the least of the second while the first stays within an even
 * share of the way between its best and what it is at the best of the second. `best`: what the whole search found.
 */
export function* tradeOff(tries: Tries, best: Best): Generator<void, readonly Choice[]> {
  if (!best.isMet || best.merit!.goals.length < 2) return [];
  const found = [best.merit!.point, yield* bestPoint(tries, swapped)];
  const ends = found.map((point) => point && goalOf(point.trial!.goals, 0));
  const [from, to] = [ends[0]!, ends[1] ?? ends[0]!];
  for (let i = 1; i < CHOICES - 1 && to > from; i++) {
    const limit = from + ((to - from) * i) / (CHOICES - 1);
    found.push(yield* bestPoint(tries, within(limit, to - from)));
  }
  const choices = found.flatMap((point): readonly Choice[] =>
    point ? [{ values: point.values, goals: [goalOf(point.trial!.goals, 0), goalOf(point.trial!.goals, 1)] }] : [],
  );
  return onlyBest(choices);
}

const goalOf = (goals: readonly number[], i: number): number => goals[i];

function* bestPoint(tries: Tries, task: Task): Generator<void, NonNullable<Best['merit']>['point'] | undefined> {
  tries.grant(TRIES_EACH);
  const best = yield* search(tries, task, { patience: 1, spread: 0 });
  return best.isMet ? best.merit!.point : undefined;
}

/** The second goal before the first. */
const swapped: Task = { ...wholeTask, goals: ({ goals: [first, second, ...rest] }) => [second, first, ...rest] };

const within = (limit: number, span: number): Task => ({
  ...swapped,
  misses: (trial) => [...trial.misses, (trial.goals[0] - limit) / span],
});

/** In the order of the first goal, without those that are no better in the second than one before them. */
const onlyBest = (choices: readonly Choice[]): readonly Choice[] => {
  let least = Infinity;
  return [...choices]
    .sort((a, b) => a.goals[0] - b.goals[0] || a.goals[1] - b.goals[1])
    .filter(({ goals }) => {
      if (!(goals[1] < least)) return false;
      least = goals[1];
      return true;
    });
};
