import { NOISE } from '../../../analysis/geometry/tolerance.js';

/** By how much a number misses what is needed; 0 or less: it passes; NaN: it cannot be judged. */
export type Shortfall = (value: number) => number;

/** Where a number stands, how far it may go, and the smallest step that makes another value of it. */
export interface Start {
  readonly value: number;
  readonly reach: number;
  readonly step: number;
}

/** Which way a number has to go, by a small step to see. */
export interface Lead {
  readonly way: 1 | -1;
  readonly step: number;
  /** The shortfall that the step took away, and the whole of it. */
  readonly gain: number;
  readonly whole: number;
}

/** How far down a number may be taken: to a third, as the reach allows about three times as much; beyond, it is another tub. */
const DOWN = 2 / 3;

/** A step of 1 % (or of a thousandth of the reach) up or down, whichever helps; undefined when neither does. */
export function* leadFrom(shortfall: Shortfall, whole: number, start: Start): Generator<void, Lead | undefined> {
  const step = Math.max(Math.abs(start.value) * 0.01, start.reach / 1000, start.step);
  const least = NOISE * Math.max(1, whole);
  for (const way of [1, -1] as const) {
    if (way < 0 && start.value <= 0) return undefined;
    const gain = whole - shortfall(start.value + way * step);
    yield;
    if (gain > least) return { way, step, gain, whole };
    // What makes no difference upwards makes none downwards.
    if (Math.abs(gain) <= least) return undefined;
  }
  return undefined;
}

/** Most evaluations that one search may take. */
const EVALUATIONS = 14;
/** Share of the way to which the nearest passing value is found; it is rounded to a neat number afterwards. */
const CLOSE = 0.02;

/** Distances from the start: the farthest known to fail and by how much, and where it may be looked at most. */
interface Known {
  readonly fails: number;
  readonly misses: number;
  readonly limit: number;
  /** At the limit itself nothing can be judged. */
  readonly isOpen: boolean;
}

/**
 * The value nearest to the start found to pass: straight-line guesses outwards until one passes, then back as long as a
 * little nearer passes too. Undefined when nothing within reach passes. For a shortfall that falls in a straight line
 * three evaluations are enough. Yields between evaluations, each of which is a whole tub.
 */
export function* nearestPassing(shortfall: Shortfall, lead: Lead, start: Start): Generator<void, number | undefined> {
  const { way, step, gain, whole } = lead;
  const limit = farthest(lead, start);
  let known: Known = { fails: 0, misses: whole, limit, isOpen: false };
  let left = EVALUATIONS;
  let passes = Math.min(limit, Math.max(start.step, (step * whole) / gain));
  for (;;) {
    if (left-- === 0) return undefined;
    const missing = shortfall(start.value + way * passes);
    yield;
    if (missing <= 0) break;
    const next = outwards(known, passes, missing);
    if (!next) return undefined;
    [known, passes] = next;
  }
  // First a look just short of it: a straight-line guess is right as it stands.
  let { fails } = known;
  for (
    let nearer = passes * (1 - CLOSE);
    passes - fails > Math.max(CLOSE * passes, start.step) && left-- > 0;
    nearer = (passes + fails) / 2
  ) {
    if (shortfall(start.value + way * nearer) <= 0) passes = nearer;
    else fails = nearer;
    yield;
  }
  return start.value + way * passes;
}

/** How far a number may go its way. */
export const farthest = ({ way }: Lead, { value, reach }: Start): number =>
  way < 0 ? Math.min(reach, DOWN * value) : reach;

/** Where to look after a distance that does not pass; undefined when there is nothing left to look at. */
const outwards = (known: Known, tried: number, missing: number): readonly [Known, number] | undefined => {
  if (Number.isNaN(missing)) {
    if (tried - known.fails <= CLOSE * tried) return undefined;
    return [{ ...known, limit: tried, isOpen: true }, (known.fails + tried) / 2];
  }
  if (tried >= known.limit) return undefined;
  // The line through the last two failures, and a little beyond; at least a good step where it does not fall.
  const slope = (known.misses - missing) / (tried - known.fails);
  const onLine = slope > 0 ? tried + (missing / slope) * 1.01 : Infinity;
  const wanted = Math.max(tried * 1.05, Math.min(onLine, tried * 2));
  const most = known.isOpen ? (tried + known.limit) / 2 : known.limit;
  return [{ ...known, fails: tried, misses: missing }, Math.min(most, wanted)];
};
