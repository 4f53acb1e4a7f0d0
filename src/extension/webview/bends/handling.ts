/** How a part gets from one stroke to the next: turned round on the table, then turned over. */
import type { BendPose } from '../../../language/protocol.js';

export type Point3 = readonly [number, number, number];

export interface Handling {
  /** Seen from above, counter-clockwise, rad. */
  readonly round: number;
  /** Turned over about the bend line, or about the line square to it; undefined: it stays as it lies. */
  readonly over: 'line' | 'across' | undefined;
}

/** rad. Less is how an operator lays it down, no handling. */
const LEAST = 0.02;

export const isNone = ({ round, over }: Handling): boolean => over === undefined && Math.abs(round) < LEAST;

type Plane = readonly [readonly [number, number], readonly [number, number]];

/** Flat, seen dry side up, to what lies right of and away from the operator. */
const planeOf = ({ up, heading }: BendPose): Plane => {
  const [away, side] = [[Math.cos(heading), Math.sin(heading)] as const, up === 'dry' ? 1 : -1];
  return [[side * away[1], -side * away[0]], away];
};

/** The way with the least turning round: over about the line and about its square lead to the same, half a turn apart. */
export const handlingBetween = (from: BendPose, to: BendPose): Handling => {
  const [a, b] = [planeOf(from), planeOf(to)];
  const at = (i: 0 | 1, j: 0 | 1): number => b[i][0] * a[j][0] + b[i][1] * a[j][1];
  if (from.up === to.up) return { round: Math.atan2(at(1, 0), at(0, 0)), over: undefined };
  const aboutLine = Math.atan2(-at(1, 0), at(0, 0));
  const aboutAcross = Math.atan2(at(1, 0), -at(0, 0));
  return Math.abs(aboutLine) <= Math.abs(aboutAcross) + LEAST
    ? { round: aboutLine, over: 'line' }
    : { round: aboutAcross, over: 'across' };
};

/** Where a point of the part, as it lies after the handling, is on the way; `share` 0..1, about the origin. */
export const onTheWay = (handling: Handling, share: number): ((point: Point3) => Point3) => {
  const { over, round } = handling;
  const rounds = over === undefined ? 1 : 0.4;
  // What is too little to be shown by itself is turned while the part goes over: it is not lost.
  const together = over !== undefined && Math.abs(round) < LEAST;
  const first = together ? share : Math.min(1, share / rounds);
  const second = together ? share : rounds === 1 ? 1 : Math.max(0, (share - rounds) / (1 - rounds));
  // Of the whole handling what is still to do is taken back.
  const back = Math.PI * (1 - second);
  const turn = -round * (1 - first);
  return (point) => turned(overBy(point, over, -back), first < 1 ? turn : 0);
};

const turned = ([x, y, z]: Point3, angle: number): Point3 => {
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  return [c * x - s * y, s * x + c * y, z];
};

const overBy = ([x, y, z]: Point3, over: Handling['over'], angle: number): Point3 => {
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  if (over === 'line') return [x, c * y - s * z, s * y + c * z];
  return over === 'across' ? [c * x + s * z, y, c * z - s * x] : [x, y, z];
};
