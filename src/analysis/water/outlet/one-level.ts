import type { Joined } from './joined-pools.js';
import { leastThat } from '../../geometry/least-that.js';

/** What one outlet does with water over it. */
export interface Mouth {
  /** Level from which water runs in, mm. */
  readonly lip: number;
  /** What runs to it by itself, mm3/s. */
  readonly rateMm3S: number;
  /** What it takes under a head over its lip, strainer and all; never falls with the head. */
  readonly takes: (head: number) => number;
}

/** An outlet among the others of its hollow. */
export interface Settled {
  /** What it takes, mm3/s. */
  readonly rateMm3S: number;
  /** Level of the water over it, mm; Infinity where no level is enough. */
  readonly level: number;
}

export interface Shared {
  /** In the order of the mouths. */
  readonly settled: readonly Settled[];
  /** Outlets between which water is exchanged, each with at least two. */
  readonly groups: readonly (readonly number[])[];
}

/**
 * Outlets over which the water comes together stand under one level, and each takes what its own head there lets it.
 *
 * Pools fill apart up to the sill between them. One that takes all that runs to it below the sill stays apart; one that
 * does not runs over into the other; where both are full to the sill they are one pool under one level, at which all
 * of them together take what comes. Levels to 1e-9 of the head.
 */
export const shareLevel = (mouths: readonly Mouth[], pools: readonly Joined[]): Shared => {
  const state: State = {
    mouths,
    settled: mouths.map(({ lip, rateMm3S }) => ({ rateMm3S, level: lip })),
    groups: new Set(mouths.map((_, i) => [i])),
  };
  for (const pool of pools) settle(state, pool, { extra: 0, brim: Infinity });
  return { settled: state.settled, groups: [...state.groups].filter((group) => group.length > 1) };
};

interface State {
  readonly mouths: readonly Mouth[];
  readonly settled: Settled[];
  readonly groups: Set<readonly number[]>;
}

/** What comes to a pool over a sill beside what runs to its outlets, mm3/s, and the level above which it runs over itself. */
interface Filling {
  readonly extra: number;
  readonly brim: number;
}

/** Settles a pool and returns what runs over its brim, mm3/s. */
const settle = (state: State, pool: Joined, { extra, brim }: Filling): number => {
  const { parts, sill, outlets } = pool;
  const comes = sum(outlets, (i) => state.mouths[i].rateMm3S) + extra;
  if (comes <= 0) return 0;
  if (parts.length < 2) return standAlone(state, outlets[0], { extra, brim });
  if (takenAt(state, outlets, sill) <= comes) {
    exchange(state, outlets);
    return standTogether(state, outlets, comes, brim);
  }
  const [first, second] = parts;
  const over = settle(state, first, { extra, brim: sill });
  const back = settle(state, second, { extra: over, brim: sill });
  if (over > 0 || back > 0) exchange(state, outlets);
  if (back > 0) settle(state, first, { extra: extra + back, brim: sill });
  return 0;
};

const standAlone = (state: State, outlet: number, { extra, brim }: Filling): number => {
  const { lip, rateMm3S, takes } = state.mouths[outlet];
  const comes = rateMm3S + extra;
  const taken = brim < Infinity ? takenBy(state.mouths[outlet], brim) : Infinity;
  if (taken < comes) {
    state.settled[outlet] = { rateMm3S: taken, level: brim };
    return comes - taken;
  }
  state.settled[outlet] = { rateMm3S: comes, level: lip + leastThat(1, (head) => takes(head) >= comes) };
  return 0;
};

const standTogether = (state: State, outlets: readonly number[], comes: number, brim: number): number => {
  const lowest = Math.min(...outlets.map((i) => state.mouths[i].lip));
  const taken = brim < Infinity ? takenAt(state, outlets, brim) : Infinity;
  const over = Math.max(0, comes - taken);
  const level = over > 0 ? brim : lowest + leastThat(1, (head) => takenAt(state, outlets, lowest + head) >= comes);
  if (level === Infinity) {
    for (const i of outlets) state.settled[i] = { rateMm3S: state.mouths[i].rateMm3S, level };
    return 0;
  }
  for (const i of outlets) state.settled[i] = { rateMm3S: takenBy(state.mouths[i], level), level };
  return over;
};

const takenBy = ({ lip, takes }: Mouth, level: number): number => (level > lip ? takes(level - lip) : 0);

const takenAt = ({ mouths }: State, outlets: readonly number[], level: number): number =>
  sum(outlets, (i) => takenBy(mouths[i], level));

const exchange = ({ groups }: State, outlets: readonly number[]): void => {
  const all = new Set(outlets);
  for (const group of groups) {
    if (!group.some((i) => all.has(i))) continue;
    for (const i of group) all.add(i);
    groups.delete(group);
  }
  groups.add([...all].sort((p, q) => p - q));
};

const sum = (list: readonly number[], value: (i: number) => number): number =>
  list.reduce((total, i) => total + value(i), 0);
