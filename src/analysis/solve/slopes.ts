import { LEAST_MOVE } from '../geometry/tolerance.js';
import type { Unknown } from './problem.js';
import { sampleAt, type Sample, type Walk } from './sample.js';

/** How the goal and each miss change with each value, across its whole range. */
export interface Slopes {
  readonly goal: readonly number[];
  /** By miss, then by value. */
  readonly misses: readonly (readonly number[])[];
}

/** By small moves of one value at a time, to the other side where the one leaves nothing to judge; 0 where neither can be. */
export function* slopesAt(here: Sample, walk: Walk): Generator<void, Slopes> {
  const goal: number[] = [];
  const misses: number[][] = here.misses.map(() => []);
  for (const [i, unknown] of walk.tries.problem.unknowns.entries()) {
    const beside = yield* besideIn(here, i, moveOf(unknown), walk);
    const run = beside ? beside.place[i] - here.place[i] : 0;
    goal.push(beside && run !== 0 ? (beside.goal - here.goal) / run : 0);
    for (const [k, list] of misses.entries())
      list.push(beside && run !== 0 ? (beside.misses[k] - here.misses[k]) / run : 0);
  }
  return { goal, misses };
}

const moveOf = ({ low, high, step }: Unknown): number => (step === undefined ? LEAST_MOVE : step / (high - low));

function* besideIn(here: Sample, i: number, move: number, walk: Walk): Generator<void, Sample | undefined> {
  const ways = here.place[i] + move > 1 ? [-1, 1] : [1, -1];
  for (const way of ways) {
    const place = here.place.map((each, k) => (k === i ? each + way * move : each));
    if (place[i] < -LEAST_MOVE || place[i] > 1 + LEAST_MOVE) continue;
    const beside = yield* sampleAt(place, walk);
    if (beside && beside.place[i] !== here.place[i]) return beside;
  }
  return undefined;
}
