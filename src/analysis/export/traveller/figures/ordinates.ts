/** Dimensions from a datum along one axis: which are shown, and where their words stand so that none covers another. */
import { NOISE } from '../../../geometry/tolerance.js';
import { HOLE_WEIGHT, type Ordinate } from '../../../report/flats/flat-ordinates.js';

export interface ShownOrdinate extends Ordinate {
  /** Where its word stands along the axis, mm on paper. */
  readonly at: number;
}

/** mm on paper. Of two dimensions nearer than this the weightier is shown: their lines would run into one. */
export const APART = 1.2;

/** The weightiest ordinates that fit along `room` mm of paper with `pitch` between words; `toPaper` maps a value onto it. */
export const shownOrdinates = (
  all: readonly Ordinate[],
  toPaper: (value: number) => number,
  room: number,
  pitch: number,
): ShownOrdinate[] => {
  const most = Math.max(2, Math.floor(room / pitch));
  const kept: Ordinate[] = [];
  for (const ordinate of [...all].sort((a, b) => b.weight - a.weight || a.value - b.value || a.reach - b.reach)) {
    if (kept.length >= most) break;
    if (kept.every(({ value }) => Math.abs(toPaper(value) - toPaper(ordinate.value)) > APART)) kept.push(ordinate);
  }
  kept.sort((a, b) => a.value - b.value);
  const wanted = kept.map(({ value }) => toPaper(value));
  const places = spread(wanted, pitch);
  return kept.map((ordinate, i) => ({ ...ordinate, at: places[i] }));
};

/** Places in the same order, at least `pitch` apart, as near to the wanted ones as their neighbours let them. */
export const spread = (wanted: readonly number[], pitch: number): number[] => {
  // Groups that touch move as one, to the mean of where their members want to be.
  const groups: { sum: number; count: number }[] = [];
  const startOf = ({ sum, count }: { sum: number; count: number }): number => sum / count - ((count - 1) * pitch) / 2;
  for (const place of wanted) {
    groups.push({ sum: place, count: 1 });
    for (let last = groups.length - 1; last > 0; last--) {
      const [before, after] = [groups[last - 1], groups[last]];
      if (startOf(before) + before.count * pitch <= startOf(after) + NOISE) break;
      groups.splice(last - 1, 2, { sum: before.sum + after.sum, count: before.count + after.count });
    }
  }
  return groups.flatMap((group) => Array.from({ length: group.count }, (_, i) => startOf(group) + i * pitch));
};

/** What is dimensioned on the near side, and what on the far one; no value stands on both. */
export const nearAndFar = (
  all: readonly Ordinate[],
  half: number,
  shrink: number,
): readonly [Ordinate[], Ordinate[]] => {
  const near = all.filter(({ reach, weight }) => weight >= HOLE_WEIGHT || reach <= half);
  const far = all.filter((ordinate) => !near.includes(ordinate));
  return [near, far.filter(({ value }) => near.every((other) => Math.abs(other.value - value) > APART * shrink))];
};
