/**
 * The measure of work: outlines of metal that were placed, seen along a bend line or followed over a stretch of a stroke.
 * Each takes about as long as the next, whatever the part; and it is the same on every machine, unlike time.
 */
export interface Tally {
  outlines: number;
}

export const newTally = (): Tally => ({ outlines: 0 });

/** Outlines in a look: what it takes to hold one side of a usual part against a tool, some 0.2 ms. */
const OUTLINES_OF_A_LOOK = 100;

/** Looks done so far, whole and parts of one. */
export const looksOf = ({ outlines }: Tally): number => outlines / OUTLINES_OF_A_LOOK;
