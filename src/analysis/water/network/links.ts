/** Waters and the ways between them, before their levels are known. */

/** Part of what runs over a link, and the water that it comes to. */
export type Share = readonly [node: number, share: number];

/** A way between two waters, or out. */
export interface Link {
  /** `to` -1: out. */
  readonly between: readonly [number, number];
  /** mm. Nothing runs over it below. */
  readonly bottom: number;
  /** From the higher to the lower level; never falls with the first, never grows with the second. mm3/s. */
  readonly flow: (high: number, low: number) => number;
  /** Waters to which what leaves the one at that end comes; what is left of the share goes elsewhere. */
  readonly reaches: (end: 0 | 1) => readonly Share[];
}

/** What runs over a link between waters at these levels: positive from its first to its second; out of the last it is -Infinity. */
export const flowBetween = ({ flow }: Link, first: number, second: number): number =>
  first >= second ? flow(first, second) : -flow(second, first);

/** A way out of one water alone: never falls with its level. */
export interface Drain {
  readonly node: number;
  readonly takes: (level: number) => number;
}

export interface Network {
  /** By node: what comes to it by itself, mm3/s, and the level from which something leaves it. */
  readonly inflow: readonly number[];
  readonly start: readonly number[];
  readonly links: readonly Link[];
  readonly drains: readonly Drain[];
}
