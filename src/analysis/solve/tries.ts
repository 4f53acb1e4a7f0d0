import { NOISE } from '../geometry/tolerance.js';
import type { Problem, Trial, Unknown } from './problem.js';

/** One choice of values that was tried. */
export interface Point {
  readonly values: readonly number[];
  readonly trial: Trial | undefined;
  /** What its dear wishes came to, as far as it was asked for. */
  dear: readonly number[] | undefined;
}

/** All that was tried of one problem: nothing is tried twice, and what was tried for one question answers others. */
export class Tries {
  readonly points: Point[] = [];
  private readonly known = new Map<string, Point>();
  private stopped = false;

  constructor(
    readonly problem: Problem,
    /** Most values that are tried in all. */
    private most: number,
  ) {}

  get left(): number {
    return this.isStopped ? 0 : this.most - this.points.length;
  }

  /** The first is always tried: there is no best without it. */
  get isStopped(): boolean {
    return this.stopped && this.points.length > 0;
  }

  /** Nothing more is tried. */
  stop(): void {
    this.stopped = true;
  }

  /** For a further question so many are left at the least. */
  grant(tries: number): void {
    this.most = Math.max(this.most, this.points.length + tries);
  }

  /** The values as they may be, nearest to those given; undefined when nothing more may be tried. */
  *at(wanted: readonly number[]): Generator<void, Point | undefined> {
    const values = this.problem.unknowns.map((unknown, i) => nearestAllowed(unknown, wanted[i]));
    const key = values.join();
    const known = this.known.get(key);
    if (known) return known;
    if (this.left <= 0) return undefined;
    yield;
    const point: Point = { values, trial: yield* this.problem.attempt(values), dear: undefined };
    this.known.set(key, point);
    this.points.push(point);
    return point;
  }
}

/** Steps from the lower limit are counted in whole numbers, so that the same step is always the same value. */
export const nearestAllowed = ({ low, high, step }: Unknown, value: number): number => {
  const inside = Math.min(high, Math.max(low, value));
  if (step === undefined) return inside;
  const most = Math.floor((high - low) / step + NOISE);
  return tidy(low + Math.min(most, Math.round((inside - low) / step)) * step);
};

/** 0.1 + 2 * 0.1 is 0.3: what addition leaves behind the twelfth figure says nothing. */
const tidy = (value: number): number => Number(value.toPrecision(12));

/** The dear wishes of a point, worked out once. */
export function* dearOf(point: Point): Generator<void, readonly number[]> {
  point.dear ??= point.trial ? yield* point.trial.dear() : [];
  return point.dear;
}
