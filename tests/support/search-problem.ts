import type { Problem } from '../../src/analysis/solve/problem.js';

type Function = (x: readonly number[]) => number;

/** A problem as it is published: a goal to be least, sums that must not be above 0. */
export interface Functions {
  readonly limits: readonly (readonly [number, number])[];
  readonly start?: readonly number[];
  readonly step?: number;
  readonly goal: Function;
  readonly misses: readonly Function[];
  /** Walks that may bring nothing; more where there are many valleys. */
  readonly patience?: number;
}

/** What rounding may leave of a sum that must not be above 0. */
const SLACK = 1e-9;

export const problemOf = ({ limits, start, step, goal, misses }: Functions): Problem => ({
  unknowns: limits.map(([low, high], i) => ({ low, high, start: start?.[i] ?? (low + high) / 2, step })),
  *attempt(values) {
    yield;
    const missed = misses.map((miss) => miss(values) - SLACK);
    return {
      goals: [goal(values)],
      misses: missed,
      *dear() {
        yield;
        return [];
      },
    };
  },
});

/** Runs to the end in one go. */
export const finished = <T>(run: Generator<void, T>): T => {
  for (;;) {
    const step = run.next();
    if (step.done) return step.value;
  }
};
