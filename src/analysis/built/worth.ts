/**
 * What the results of readings are worth: standard deviations by linear propagation. Source: GUM (JCGM 100:2008), 5.1.2 and, for
 * a reading that is off by at most a and anywhere within it alike, 4.3.7: a / sqrt(3).
 */
import { propagated } from '../geometry/propagation.js';
import { bendsWithinOf, GAUGE_WITHIN, shopOf, TAPE_WITHIN } from '../model/shop/default-shop.js';
import type { MadePart, Tub } from '../model/tub.js';
import { turnsBySlopes } from './by-slopes.js';
import { foldingWith, type ClosingTask } from './closing.js';
import type { MadeStrip } from './as-made.js';
import { foldedAs } from './profile.js';

/** Standard deviations of what was read, in rad and mm. */
export interface ReadingDeviations {
  /** By bend: of an open one how true the shop will hold it; 0 of one that follows from slopes. */
  readonly bends: readonly number[];
  /** By taped leg, in the order of the task. */
  readonly tapes: readonly number[];
  /** By leg whose slope was found. */
  readonly slopes: readonly number[];
}

export interface Worth {
  /** rad, by leg. */
  readonly slopes: readonly number[];
  /** mm, by corner of the profile: along the heading, and up. */
  readonly corners: readonly (readonly [number, number])[];
}

/** Of what is off by at most so much and anywhere within it alike. */
export const uniformDeviation = (within: number): number => within / Math.sqrt(3);

export const deviationsOf = (
  tub: Tub,
  made: MadePart,
  { read, task }: Pick<MadeStrip, 'read' | 'task'>,
): ReadingDeviations => {
  const gauge = uniformDeviation(made.gaugeWithin ?? GAUGE_WITHIN);
  const held = uniformDeviation(bendsWithinOf(shopOf(tub)));
  return {
    bends: task.read.map((turn, i) => (turn !== undefined ? gauge : read.includes(i) ? 0 : held)),
    tapes: task.taped.map(() => uniformDeviation(made.tapeWithin ?? TAPE_WITHIN)),
    slopes: task.footing.slopes.map(() => gauge),
  };
};

/** By linear propagation, readings independent of one another. Cost: O(readings legs). */
export const worthOf = (task: ClosingTask, turns: readonly number[], deviations: ReadingDeviations): Worth => {
  const { taped, footing, profile } = task;
  const all = [...deviations.bends, ...deviations.tapes, ...deviations.slopes];
  const results = (x: readonly number[]): number[] => {
    const [tapes, slopes] = [x.slice(turns.length, turns.length + taped.length), x.slice(turns.length + taped.length)];
    const stands = footing.slopes.map((each, i) => ({ ...each, slope: slopes[i] }));
    const read = task.read.map((turn, i) => (turn === undefined ? undefined : x[i]));
    const known = turnsBySlopes(profile, read, stands);
    const otherwise = { ...task, taped: taped.map((each, i) => ({ ...each, length: tapes[i] })) };
    const folding = foldingWith(
      otherwise,
      turns.map((_, i) => known[i] ?? x[i]),
    );
    const moved = foldedAs(profile, folding, { ...footing, slopes: stands });
    return [...moved.turned, ...moved.by.flat()];
  };
  const x = [
    ...turns.map((turn, i) => task.read[i] ?? turn),
    ...taped.map(({ length }) => length),
    ...footing.slopes.map(({ slope }) => slope),
  ];
  const found = propagated(results, x, all);
  const legs = profile.points.length - 1;
  return {
    slopes: Array.from({ length: legs }, (_, leg) => found[leg]),
    corners: profile.points.map((_, i) => [found[legs + 2 * i], found[legs + 2 * i + 1]]),
  };
};
