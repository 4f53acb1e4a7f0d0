/** Making up a punch or a clamp from its segments. Lengths mm. */

/** mm. Segment widths are added up on this grid, so that sums compare. */
const GRID = 0.1;

/**
 * The segments that a tool consists of: the listed fingers and, as a tool is as long as its bed, one more of what they
 * do not add up to. No fingers listed: one segment of full length.
 */
export const segmentsOf = (fingers: readonly number[], bed: number): readonly number[] => {
  const listed = fingers.filter((width) => width > 0).reduce((sum, width) => sum + width, 0);
  const rest = bed - listed;
  return rest > GRID ? [...fingers, rest] : fingers;
};

/**
 * What may stay uncovered at each end of a bend and between two fingers: five thicknesses, at least 5 mm; the sheet's
 * own stiffness carries the bend across. Common practice, no source.
 */
export const uncoveredAtMost = (thickness: number): number => Math.max(5, 5 * thickness);

export interface FingerQuestion {
  readonly segments: readonly number[];
  /** Length of the bend to cover. */
  readonly length: number;
  /** Room for the tool along the bend: between what stands up on both sides, else infinite. */
  readonly room: number;
  readonly thickness: number;
}

export interface FingerSet {
  /** Widths, widest first. */
  readonly widths: readonly number[];
  readonly length: number;
}

/**
 * The segments to put on: the shortest set that covers the bend and fits the room, else the longest that leaves no more
 * uncovered than is allowed at the ends and between fingers. Undefined when no set does; ask `nearestFingers` why.
 * Among sets of equal length the one with the fewest segments is taken. Cost: segments x room / 0.1 mm.
 */
export const makeUpFingers = (question: FingerQuestion): FingerSet | undefined => {
  const { length, room, thickness } = question;
  const sets = setsUpTo(question.segments, Math.min(room, length + Math.max(0, ...question.segments)));
  const covering = sets.find((set) => set.length >= length - GRID / 2);
  if (covering) return covering;
  const gap = uncoveredAtMost(thickness);
  return [...sets].reverse().find((set) => length - set.length <= gap * (set.widths.length + 1) + 1e-9);
};

/** The longest set that fits the room, whether it covers the bend or not; undefined when none fits at all. */
export const nearestFingers = ({ segments, length, room }: FingerQuestion): FingerSet | undefined =>
  setsUpTo(segments, Math.min(room, length)).at(-1);

/** For every reachable length up to `atMost` the set of fewest segments, shortest first. */
const setsUpTo = (segments: readonly number[], atMost: number): readonly FingerSet[] => {
  const limit = Math.floor(atMost / GRID + 1e-6);
  const best = new Map<number, readonly number[]>([[0, []]]);
  for (const width of [...segments].sort((a, b) => b - a)) {
    const step = Math.round(width / GRID);
    for (const [sum, widths] of [...best]) {
      const next = sum + step;
      const known = best.get(next);
      if (next <= limit && (!known || known.length > widths.length + 1)) best.set(next, [...widths, width]);
    }
  }
  best.delete(0);
  return [...best.entries()]
    .sort(([a], [b]) => a - b)
    .map(([, widths]) => ({ widths, length: widths.reduce((sum, width) => sum + width, 0) }));
};
