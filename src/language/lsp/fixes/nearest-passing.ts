/** By how much a number misses what is needed; 0 or less: it passes; NaN: it cannot be judged. */
export type Shortfall = (value: number) => number;

/** Which way a number has to go, by a small step to see. */
export interface Lead {
  readonly way: 1 | -1;
  readonly step: number;
  /** The shortfall that the step took away, and the whole of it. */
  readonly gain: number;
  readonly whole: number;
}

/** How far down a number may be taken: a length or a fall keeps its sign. */
const DOWN = 0.98;

/** A step of 1 % (or of a thousandth of `reach`) up or down, whichever helps; undefined when neither does. */
export function* leadFrom(
  shortfall: Shortfall,
  whole: number,
  start: number,
  reach: number,
): Generator<void, Lead | undefined> {
  const step = Math.max(Math.abs(start) * 0.01, reach * 1e-3);
  const least = 1e-9 * Math.max(1, whole);
  for (const way of [1, -1] as const) {
    const gain = whole - shortfall(start + way * step);
    yield;
    if (gain > least) return { way, step, gain, whole };
    // What makes no difference upwards makes none downwards.
    if (Math.abs(gain) <= least) return undefined;
  }
  return undefined;
}

/** Most evaluations that one search may take. */
const EVALUATIONS = 18;
/** Share of the way to which the nearest passing value is found; it is rounded to a neat number afterwards. */
const CLOSE = 0.01;

/**
 * The value nearest to `start` found to pass: a straight-line guess from the lead, steps outwards until it passes, then
 * halving back. Undefined when nothing within `reach` passes. Yields between evaluations, each of which is a whole tub.
 */
export function* nearestPassing(
  shortfall: Shortfall,
  { way, step, gain, whole }: Lead,
  start: number,
  reach: number,
): Generator<void, number | undefined> {
  const limit = way < 0 && start > 0 ? Math.min(reach, DOWN * start) : reach;
  let [fails, passes] = [0, Math.min(limit, (step * whole) / gain)];
  let left = EVALUATIONS;
  for (; left > 0; left--) {
    if (shortfall(start + way * passes) <= 0) break;
    yield;
    if (passes >= limit) return undefined;
    fails = passes;
    passes = Math.min(limit, passes * 1.3 + step * 0.1);
  }
  if (left === 0) return undefined;
  while (passes - fails > CLOSE * passes && left-- > 0) {
    yield;
    const middle = (passes + fails) / 2;
    if (shortfall(start + way * middle) <= 0) passes = middle;
    else fails = middle;
  }
  return start + way * passes;
}

/** Neat numbers at or beyond `value` as seen from `start`, the neatest first: whole, half, tenth … */
export const neatBeyond = (start: number, value: number): readonly number[] => {
  const away = Math.sign(value - start);
  const near = Math.max(0.08 * Math.abs(value - start), 0.02 * Math.abs(value));
  const neat = [1, 2, 10, 20, 100, 1000].map((grid) =>
    away > 0 ? Math.ceil(value * grid - 1e-9) / grid : Math.floor(value * grid + 1e-9) / grid,
  );
  return [...new Set(neat.filter((number, i) => i === neat.length - 1 || Math.abs(number - value) <= near))];
};
