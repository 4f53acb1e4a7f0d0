/** How the part lies at the brake, and what it takes to get from one step to the next. Angles rad. */
import { SAME_HEADING } from '../../geometry/tolerance.js';
import type { Operation } from './operations.js';

export interface Pose {
  /** Face of the flat that looks up: the dry one for `up` bends. */
  readonly up: Operation['direction'];
  /** Direction on the flat, from the bend line towards the back gauge, -pi..pi. */
  readonly heading: number;
}

export interface Handling {
  /** Turned over. */
  readonly flips: 0 | 1;
  /** Turned in its plane. */
  readonly turns: 0 | 1;
}

export const poseOf = (operation: Operation, back: 0 | 1): Pose => {
  const [x, y] = operation.line.away;
  return { up: operation.direction, heading: back === 1 ? Math.atan2(y, x) : Math.atan2(-y, -x) };
};

const turnBetween = (a: number, b: number): number => {
  const turn = Math.abs(a - b) % (2 * Math.PI);
  return Math.min(turn, 2 * Math.PI - turn);
};

/**
 * Turning over brings the back to the front or not, as one likes (about the bend line, or about the line square to it),
 * so it takes a turn besides only where the next bend line lies at another angle. Counted on the flat.
 */
export const handlingBetween = (from: Pose, to: Pose): Handling => {
  const turn = turnBetween(from.heading, to.heading);
  if (from.up === to.up) return { flips: 0, turns: turn > SAME_HEADING ? 1 : 0 };
  const sideways = Math.min(turn, Math.PI - turn);
  return { flips: 1, turns: sideways > SAME_HEADING ? 1 : 0 };
};

export const costOf = ({ flips, turns }: Handling): number => flips + turns;

/** Poses between which at least one handling is needed get different names; so each new name costs at least one. */
export const poseClass = ({ up, heading }: Pose): string => {
  const line = ((heading % Math.PI) + Math.PI) % Math.PI;
  const step = Math.round(line / SAME_HEADING) % Math.round(Math.PI / SAME_HEADING);
  return `${up}${step}`;
};
