/** A made tub with one reading after another off by its standard deviation, either way. */
import { GAUGE_WITHIN, TAPE_WITHIN } from '../model/shop/default-shop.js';
import type { MadePart, SourceId, Tub } from '../model/tub.js';
import { uniformDeviation } from './worth.js';

export interface ReadOtherwise {
  readonly more: Tub;
  readonly less: Tub;
  /** The reading. */
  readonly at: SourceId;
}

/** `tub`: as drawn, with its readings. */
export function* readOtherwise(tub: Tub): Generator<ReadOtherwise, void> {
  // What follows from slopes follows from them as they would be.
  const made = (tub.made ?? []).map((part) => ({ ...part, bends: part.bends.filter((each) => !each.isBySlopes) }));
  const withPart = (i: number, part: MadePart): Tub => ({
    ...tub,
    name: `${tub.name}, read otherwise`,
    made: made.map((each, k) => (k === i ? part : each)),
  });
  for (const [i, part] of made.entries()) {
    const [more, less] = [partsOtherwise(part, 1), partsOtherwise(part, -1)];
    for (const [k, { part: read, at }] of more.entries())
      yield { more: withPart(i, read), less: withPart(i, less[k].part), at };
  }
}

/** `by`: standard deviations. */
const partsOtherwise = (part: MadePart, by: number): readonly { readonly part: MadePart; readonly at: SourceId }[] => {
  const gauge = by * uniformDeviation(part.gaugeWithin ?? GAUGE_WITHIN);
  const tape = by * uniformDeviation(part.tapeWithin ?? TAPE_WITHIN);
  const replaced = <T>(items: readonly T[], i: number, other: T): readonly T[] =>
    items.map((each, k) => (k === i ? other : each));
  return [
    ...part.bends.map((each, i) => ({
      part: { ...part, bends: replaced(part.bends, i, { ...each, turn: each.turn + gauge }) },
      at: each.at,
    })),
    ...part.lengths.map((each, i) => ({
      part: { ...part, lengths: replaced(part.lengths, i, { ...each, length: each.length + tape }) },
      at: each.at,
    })),
    ...part.slopes.map((each, i) => ({
      part: { ...part, slopes: replaced(part.slopes, i, { ...each, slope: each.slope + gauge }) },
      at: each.at,
    })),
  ];
};
