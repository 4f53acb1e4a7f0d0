/** What panels that were found standing to level say of the bends between them. */
import { leastSquares } from '../geometry/fitting/least-squares.js';
import { NOISE } from '../geometry/tolerance.js';
import { subtract2 } from '../geometry/vec.js';
import { READING_FAR_OFF } from '../model/tolerance.js';
import type { Profile } from './profile.js';

/** rad to level that a leg was found at, 0..pi/2. */
export interface FoundSlope {
  readonly leg: number;
  readonly slope: number;
}

/** Of each bend as `ProfileBend.turn`; undefined: it was not read. */
export type ReadTurns = readonly (number | undefined)[];

/** A leg with the direction, rad from the heading to up, that its slope gives it. */
interface Lying {
  readonly leg: number;
  readonly direction: number;
}

/**
 * One bend that was not read between two legs whose slopes were found follows from these. Where all between them were read, readings
 * and slopes check one another: each is taken as true as the other, and the sum of the squares of what is changed is least. Slopes
 * that go with no turn of the right way, or that readings miss by 5 deg, change nothing: a check tells them.
 * Cost: O(n k^2) for n readings between k slopes.
 */
export const turnsBySlopes = (profile: Profile, read: ReadTurns, slopes: readonly FoundSlope[]): ReadTurns => {
  if (slopes.length < 2) return read;
  const turns = [...read];
  for (const run of runsOf(read, lyingOf(profile, read, slopes))) {
    const adjusted = adjustedRun(profile, read, run);
    adjusted?.forEach((turn, i) => (turns[run[0].leg + i] = turn));
  }
  return turns;
};

const directionsOf = ({ points }: Profile): number[] =>
  points.slice(1).map((point, i) => {
    const [x, y] = subtract2(point, points[i]);
    return Math.atan2(y, x);
  });

const wrapped = (angle: number): number => Math.atan2(Math.sin(angle), Math.cos(angle));

/** What bends between two legs turn together; undefined: not all of them are read. */
const turnBetween = (read: ReadTurns, from: number, to: number): number | undefined => {
  let sum = 0;
  for (let i = Math.min(from, to); i < Math.max(from, to); i++) {
    const turn = read[i];
    if (turn === undefined) return undefined;
    sum += turn;
  }
  return to < from ? -sum : sum;
};

/**
 * A slope says not to which side of upright a leg leans: it is the one nearer to where the most level leg and the bends between have
 * it, or nearer to the plan. A leg within 5 deg of upright by plan alone may lean either way, and says nothing.
 */
const lyingOf = (profile: Profile, read: ReadTurns, slopes: readonly FoundSlope[]): Lying[] => {
  const drawn = directionsOf(profile);
  const upright = (leg: number): number => Math.abs(Math.abs(drawn[leg]) - Math.PI / 2);
  const nearest = ({ leg, slope }: FoundSlope, to: number): number => {
    const sign = drawn[leg] < 0 ? -1 : 1;
    const [ahead, back] = [sign * slope, sign * (Math.PI - slope)];
    return Math.abs(wrapped(ahead - to)) <= Math.abs(wrapped(back - to)) ? ahead : back;
  };
  const anchor = slopes.reduce((best, each) => (upright(each.leg) > upright(best.leg) ? each : best));
  const known = nearest(anchor, drawn[anchor.leg]);
  return slopes
    .flatMap((found): Lying[] => {
      const between = turnBetween(read, anchor.leg, found.leg);
      if (between === undefined && upright(found.leg) < READING_FAR_OFF) return [];
      return [
        { leg: found.leg, direction: nearest(found, between === undefined ? drawn[found.leg] : known + between) },
      ];
    })
    .sort((a, b) => a.leg - b.leg);
};

/** Legs one after another with at most one bend between two of them that was not read; runs of two and more. */
const runsOf = (read: ReadTurns, lying: readonly Lying[]): readonly (readonly Lying[])[] => {
  const runs: Lying[][] = [];
  lying.forEach((each, i) => {
    const before = lying[i - 1];
    const open = before && read.slice(before.leg, each.leg).filter((turn) => turn === undefined).length;
    if (open !== undefined && open <= 1) runs[runs.length - 1].push(each);
    else runs.push([each]);
  });
  return runs.filter((run) => run.length > 1);
};

/** Turns of the bends from the first to the last leg of a run; undefined: they cannot be so. */
const adjustedRun = (profile: Profile, read: ReadTurns, run: readonly Lying[]): readonly number[] | undefined => {
  const [first, last] = [run[0], run[run.length - 1]];
  const bends = profile.bends.slice(first.leg, last.leg);
  const own = read.slice(first.leg, last.leg);
  const start = own.map((turn, i) => turn ?? bends[i].turn);
  // Unknowns: how far the first leg and every bend are off from there.
  const rows: number[][] = [];
  const off: number[] = [];
  for (const { leg, direction } of run) {
    const count = leg - first.leg;
    const lies = first.direction + start.slice(0, count).reduce((sum, turn) => sum + turn, 0);
    rows.push([1, ...start.map((_, i) => (i < count ? 1 : 0))]);
    off.push(wrapped(direction - lies));
  }
  if (own.every((turn) => turn !== undefined) && off.every((each) => Math.abs(each) <= NOISE)) return start;
  own.forEach((turn, k) => {
    if (turn === undefined) return;
    rows.push([0, ...start.map((_, i) => (i === k ? 1 : 0))]);
    off.push(0);
  });
  const outcome = leastSquares(rows, off);
  if (!('fit' in outcome)) return undefined;
  const [, ...by] = outcome.fit.x;
  const turns = start.map((turn, i) => (Math.abs(by[i]) <= NOISE ? turn : turn + by[i]));
  const isRight = turns.every((turn, i) => turn * bends[i].turn > 0 && Math.abs(turn) < Math.PI);
  const isNear = own.every((turn, i) => turn === undefined || Math.abs(by[i]) <= READING_FAR_OFF);
  return isRight && isNear ? turns : undefined;
};
