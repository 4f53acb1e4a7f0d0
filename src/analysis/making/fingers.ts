import { NOISE, ROUND_OFF } from '../geometry/tolerance.js';
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
 * uncovered than is allowed at the ends and between fingers. Undefined when no set does; `nearestFingers` tells by how
 * much. Of equally long sets the one with the fewest segments that will do. Cost: segments x room / 0.1 mm.
 */
export const makeUpFingers = (question: FingerQuestion): FingerSet | undefined => {
  const { length, room, thickness, segments } = question;
  const few = setsUpTo(segments, Math.min(room, length + Math.max(0, ...segments)), fewer);
  const covering = few.find((set) => set.length >= length - GRID / 2);
  if (covering) return covering;
  const gap = uncoveredAtMost(thickness);
  const leavesLittle = (set: FingerSet): boolean => length - set.length <= gap * (set.widths.length + 1) + NOISE;
  // More pieces may leave more gaps, each a small one.
  const many = setsUpTo(segments, Math.min(room, length), more);
  const longest = [...many].reverse().find(leavesLittle);
  return (
    longest && (few.find((set) => Math.abs(set.length - longest.length) < GRID / 2 && leavesLittle(set)) ?? longest)
  );
};

/** The longest set that fits the room, whether it covers the bend or not; undefined when none fits at all. */
export const nearestFingers = ({ segments, length, room }: FingerQuestion): FingerSet | undefined =>
  setsUpTo(segments, Math.min(room, length), fewer).at(-1);

type Preference = (candidate: readonly number[], known: readonly number[]) => boolean;
const fewer: Preference = (candidate, known) => candidate.length < known.length;
const more: Preference = (candidate, known) => candidate.length > known.length;

/** For every reachable length up to `atMost` the preferred set, shortest first. */
const setsUpTo = (segments: readonly number[], atMost: number, isPreferred: Preference): readonly FingerSet[] => {
  const limit = Math.floor(atMost / GRID + ROUND_OFF);
  const best = new Map<number, readonly number[]>([[0, []]]);
  for (const width of [...segments].sort((a, b) => b - a)) {
    const step = Math.round(width / GRID);
    for (const [sum, widths] of [...best]) {
      const next = sum + step;
      if (next > limit) continue;
      const made = [...widths, width];
      const known = best.get(next);
      if (!known || isPreferred(made, known)) best.set(next, made);
    }
  }
  best.delete(0);
  return [...best.entries()]
    .sort(([a], [b]) => a - b)
    .map(([, widths]) => ({ widths, length: widths.reduce((sum, width) => sum + width, 0) }));
};
