/** A made tub with one reading after another off by its standard deviation. */
import { GAUGE_WITHIN, TAPE_WITHIN } from '../model/shop/default-shop.js';
import type { MadePart, SourceId, Tub } from '../model/tub.js';
import { uniformDeviation } from './worth.js';

export interface ReadOtherwise {
  readonly tub: Tub;
  /** The reading. */
  readonly at: SourceId;
}

/** `tub`: as drawn, with its readings. */
export function* readOtherwise(tub: Tub): Generator<ReadOtherwise, void> {
  // What follows from slopes follows from them as they would be.
  const made = (tub.made ?? []).map((part) => ({ ...part, bends: part.bends.filter((each) => !each.isBySlopes) }));
  for (const [i, part] of made.entries()) {
    for (const { part: other, at } of partsOtherwise(part))
      yield {
        tub: { ...tub, name: `${tub.name}, read otherwise`, made: made.map((each, k) => (k === i ? other : each)) },
        at,
      };
  }
}

const partsOtherwise = (part: MadePart): readonly { readonly part: MadePart; readonly at: SourceId }[] => {
  const gauge = uniformDeviation(part.gaugeWithin ?? GAUGE_WITHIN);
  const tape = uniformDeviation(part.tapeWithin ?? TAPE_WITHIN);
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
