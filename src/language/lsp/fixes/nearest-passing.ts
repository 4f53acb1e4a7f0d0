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
const EVALUATIONS = 12;
/** Share of the way to which the nearest passing value is found; it is rounded to a neat number afterwards. */
const CLOSE = 0.02;

/**
 * The value nearest to `start` found to pass: straight-line guesses outwards until one passes, then back as long as a
 * little nearer passes too. Undefined when nothing within `reach` passes. For a shortfall that falls in a straight line
 * three evaluations are enough. Yields between evaluations, each of which is a whole tub.
 */
export function* nearestPassing(
  shortfall: Shortfall,
  { way, step, gain, whole }: Lead,
  start: number,
  reach: number,
): Generator<void, number | undefined> {
  const limit = way < 0 && start > 0 ? Math.min(reach, DOWN * start) : reach;
  let [fails, misses] = [0, whole];
  let passes = Math.min(limit, (step * whole) / gain);
  let left = EVALUATIONS;
  for (;;) {
    if (left-- === 0) return undefined;
    const missing = shortfall(start + way * passes);
    yield;
    if (missing <= 0) break;
    if (passes >= limit) return undefined;
    // The line through the last two failures, and a little beyond; at least a good step where it does not fall.
    const slope = (misses - missing) / (passes - fails);
    const onLine = slope > 0 ? passes + (missing / slope) * 1.01 : Infinity;
    [fails, misses] = [passes, missing];
    passes = Math.min(limit, Math.max(passes * 1.05, Math.min(onLine, passes * 2)));
  }
  // First a look just short of it: a straight-line guess is right as it stands.
  for (
    let nearer = passes * (1 - CLOSE);
    passes - fails > CLOSE * passes && left-- > 0;
    nearer = (passes + fails) / 2
  ) {
    if (shortfall(start + way * nearer) <= 0) passes = nearer;
    else fails = nearer;
    yield;
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
