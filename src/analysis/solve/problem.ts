/** A number to be found. */
export interface Unknown {
  readonly low: number;
  readonly high: number;
  readonly start: number;
  /** Counted from `low`, as far as they go below `high`; undefined: any value between. */
  readonly step: number | undefined;
}

/** What comes of one choice of values. */
export interface Trial {
  /** Each to be as little as may be; the first counts more than all others. */
  readonly goals: readonly number[];
  /** By how much each wish is missed, about 1 where it is missed by as much as it asks for; 0 or less: met. */
  readonly misses: readonly number[];
  /** The same of wishes that are dear to judge; worked out when it is asked for. */
  readonly dear: () => Generator<void, readonly number[]>;
}

/** What values are to be found for. Nothing here knows of metal: a test may hand in any function. */
export interface Problem {
  readonly unknowns: readonly Unknown[];
  /** Must give the same for the same values. Undefined: nothing that could be judged comes of them. May yield where it can be broken off. */
  readonly attempt: (values: readonly number[]) => Generator<void, Trial | undefined>;
}
