import { NO_CROSS } from '../geometry/tolerance.js';
import { dearOf, type Point, type Tries } from './tries.js';
import type { Trial } from './problem.js';

/** One question asked of a problem: which wishes count, and what is to be least. */
export interface Task {
  readonly misses: (trial: Trial) => readonly number[];
  readonly dear: (misses: readonly number[]) => readonly number[];
  /** Each to be least; the first counts more than all others. */
  readonly goals: (trial: Trial) => readonly number[];
}

/** The whole problem. */
export const wholeTask: Task = {
  misses: ({ misses }) => misses,
  dear: (misses) => misses,
  goals: ({ goals }) => goals,
};

/** By how much wishes are missed in all; Infinity where one cannot be judged. */
export const missed = (misses: readonly number[]): number =>
  misses.reduce((sum, miss) => sum + (Number.isNaN(miss) ? Infinity : Math.max(0, miss)), 0);

/** How good a point is, as far as it is cheap to say. */
export interface Merit {
  readonly point: Point;
  readonly missed: number;
  readonly goals: readonly number[];
}

export const meritOf = (task: Task, point: Point): Merit => {
  const { trial } = point;
  return trial
    ? { point, missed: missed(task.misses(trial)), goals: task.goals(trial) }
    : { point, missed: Infinity, goals: [] };
};

/** Less missed first; of what misses nothing, the goals in their order. Negative: `a` is the better one. */
export const compareMerits = (a: Merit, b: Merit): number => {
  if (a.missed !== b.missed && (a.missed > 0 || b.missed > 0)) return a.missed < b.missed ? -1 : 1;
  for (const [i, goal] of a.goals.entries()) {
    const [p, q] = [finite(goal), finite(b.goals[i])];
    if (p === q) continue;
    if (!(Math.abs(p - q) <= NO_CROSS * Math.max(Math.abs(p), Math.abs(q)))) return p - q;
  }
  return 0;
};

const finite = (goal: number): number => (Number.isNaN(goal) ? Infinity : goal);

/** The best point so far. A point is judged in full only where it would be the best by what is cheap to say. */
export class Best {
  merit: Merit | undefined;

  constructor(readonly task: Task) {}

  /** Nothing that counts is missed. */
  get isMet(): boolean {
    return this.merit?.missed === 0;
  }

  /** Takes the point if it is better; says whether. */
  *offer(point: Point | undefined): Generator<void, boolean> {
    if (!point?.trial) return false;
    const cheap = meritOf(this.task, point);
    if (point === this.merit?.point || (this.merit && compareMerits(cheap, this.merit) >= 0)) return false;
    const whole = { ...cheap, missed: cheap.missed + missed(this.task.dear(yield* dearOf(point))) };
    if (this.merit && compareMerits(whole, this.merit) >= 0) return false;
    this.merit = whole;
    return true;
  }

  /** What was tried for other questions. */
  *offerAll({ points }: Tries): Generator<void, void> {
    const merits = points.filter(({ trial }) => trial).map((point) => meritOf(this.task, point));
    for (const { point } of merits.sort(compareMerits)) {
      yield* this.offer(point);
      if (this.isMet && this.merit!.point === point) return;
    }
  }
}
