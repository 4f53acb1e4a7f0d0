/** Which angles of bends that are still to be made close the seams best, and which bend that is made had best be corrected. */
import { fitResiduals } from '../geometry/fitting/fit.js';
import { NOISE } from '../geometry/tolerance.js';
import type { Vec2 } from '../geometry/vec.js';
import { shopOf } from '../model/shop/default-shop.js';
import { STAYING_EDGE } from '../model/tolerance.js';
import type { Tub } from '../model/tub.js';
import type { ReadTurns } from './by-slopes.js';
import { gapsOf, misfitOf, type Contact } from './contact.js';
import { foldedAs, wetLengthOf, type Folding, type Footing, type Profile, type Taped } from './profile.js';

/** A strip that is to close what it meets. */
export interface ClosingTask {
  readonly profile: Profile;
  readonly footing: Footing;
  readonly taped: readonly Taped[];
  /** Of each bend as it was read by itself. */
  readonly read: ReadTurns;
  /** Of each bend, as read and by the slopes beside it or, where it is still open, as drawn. */
  readonly turns: readonly number[];
  readonly contacts: readonly Contact[];
  /** rad. How far a bend can be turned at all. */
  readonly reach: number;
}

/** The most that a machine of the shop turns a bend, as finished: springback is judged with each bend. */
export const reachOf = (tub: Tub): number => {
  const { foldingBrakes, pressBrakes } = shopOf(tub);
  const all = [
    ...foldingBrakes.map(({ angleAtMost }) => angleAtMost),
    ...pressBrakes.map(({ nose }) => Math.PI - nose),
  ];
  return all.length === 0 ? Math.PI / 2 : Math.min(Math.max(...all), Math.PI - NOISE);
};

export const foldingWith = ({ profile, taped }: ClosingTask, turns: readonly number[]): Folding => ({
  turns,
  lengths: new Map(taped.map((each) => [each.leg, wetLengthOf(profile, turns, each)])),
});

export const pointsWith = (task: ClosingTask, turns: readonly number[]): readonly Vec2[] => {
  const { profile, footing } = task;
  const { by } = foldedAs(profile, foldingWith(task, turns), footing);
  return profile.points.map(([x, y], i) => [x + by[i][0], y + by[i][1]]);
};

/** The sum over all that the strip meets of the integral of gap^2 along it, mm3: what open bends are chosen to make least. */
export const misfit = (task: ClosingTask, turns: readonly number[]): number =>
  residualsOf(task, turns).reduce((sum, each) => sum + each * each, 0);

const residualsOf = (task: ClosingTask, turns: readonly number[]): number[] => {
  const made = pointsWith(task, turns);
  return task.contacts.flatMap((contact) => misfitOf(task.profile.points, made, contact));
};

/**
 * The turns of all bends when those named are chosen best, within what the machines reach; the others stay. Of turns that close alike
 * those are taken that are nearest to what the bends have.
 */
export const closedBy = (task: ClosingTask, chosen: readonly number[]): readonly number[] => {
  if (chosen.length === 0) return task.turns;
  const { profile, turns } = task;
  const most = chosen.map((bend) => Math.max(task.reach, Math.abs(profile.bends[bend].turn)));
  const isDown = chosen.map((bend) => profile.bends[bend].turn < 0);
  const withTurns = (x: readonly number[]): number[] => {
    const all = [...turns];
    chosen.forEach((bend, i) => (all[bend] = x[i]));
    return all;
  };
  const apart = (x: readonly number[]): number[] =>
    chosen.map((bend, i) => Math.sqrt(STAYING_EDGE ** 3 / 3) * (x[i] - turns[bend]));
  const { x } = fitResiduals(
    (each) => [...residualsOf(task, withTurns(each)), ...apart(each)],
    chosen.map((bend) => turns[bend]),
    { low: most.map((reach, i) => (isDown[i] ? -reach : 0)), high: most.map((reach, i) => (isDown[i] ? 0 : reach)) },
  );
  return withTurns(x);
};

/** Largest gap, either way, that is left anywhere, mm. */
export const largestGap = (task: ClosingTask, turns: readonly number[]): number => {
  const made = pointsWith(task, turns);
  const gaps = task.contacts.flatMap((contact) => gapsOf(task.profile.points, made, contact));
  return gaps.reduce((most, { start, end }) => Math.max(most, Math.abs(start), Math.abs(end)), 0);
};

export interface Correction {
  /** Of the profile. */
  readonly bend: number;
  /** rad, what to turn it to, as `ProfileBend.turn`. */
  readonly turn: number;
  /** All bends with it. */
  readonly turns: readonly number[];
}

/** The one bend that is made whose correction, open bends chosen with it, leaves least; undefined: none makes it less. */
export const firstCorrection = (
  task: ClosingTask,
  open: readonly number[],
  made: readonly number[],
): Correction | undefined => {
  const closed = closedBy(task, open);
  const before = misfit(task, closed);
  let best: { readonly left: number; readonly correction: Correction } | undefined;
  for (const bend of made) {
    const turns = closedBy({ ...task, turns: closed }, [...open, bend]);
    const left = misfit(task, turns);
    if (left < Math.min(before, best?.left ?? Infinity) - NOISE)
      best = { left, correction: { bend, turn: turns[bend], turns } };
  }
  return best?.correction;
};
