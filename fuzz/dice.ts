import { seededUniform } from '../tests/support/random/random.js';

/** Repeatable chance. */
export class Dice {
  private readonly uniform: () => number;

  constructor(seed: number) {
    this.uniform = seededUniform(seed);
  }

  /** A whole number from 0 up to, without, `count`. */
  below(count: number): number {
    return Math.floor(this.uniform() * count);
  }

  /** From a list that has something in it. */
  of<T>(list: readonly T[]): T {
    return list[this.below(list.length)];
  }

  /** True once in so many times. */
  onceIn(times: number): boolean {
    return this.uniform() * times < 1;
  }
}
