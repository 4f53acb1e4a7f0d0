/** Ends what seams ask for before it is placed: a fine pitch on a long edge states thousands of pieces in a few words. */
import { limits } from '../model/limits.js';
import type { Seam, Tub } from '../model/tub.js';
import type { SeamRun } from './seam/seam-runs.js';
import { fastenerCount } from './fasteners/fastener-places.js';
import { tabCountOf } from './tabs/tab-layout.js';

/** A seam whose tabs, clips and spots are not placed. */
export interface TooManyPieces {
  readonly seam: number;
  /** What it asks for. */
  readonly count: number;
}

export interface LimitedSeams {
  /** As stated, or without the tabs, clips and spots of the seams that are too much. */
  readonly tub: Tub;
  readonly tooMany: readonly TooManyPieces[];
}

/** The seams in the order of the text, as long as the pieces of all of them are within the limit. Cost: O(n) in runs. */
export const withinPiecesLimit = (tub: Tub, runs: readonly (readonly SeamRun[])[]): LimitedSeams => {
  const tooMany: TooManyPieces[] = [];
  let placed = 0;
  const seams = tub.seams.map((seam, i): Seam => {
    const count = runs[i].reduce((sum, run) => sum + piecesOn(seam, run), 0);
    if (placed + count <= limits.joints.atMost) {
      placed += count;
      return seam;
    }
    tooMany.push({ seam: i, count });
    return { ...seam, tabs: undefined, spots: undefined, fasteners: undefined };
  });
  return { tub: tooMany.length === 0 ? tub : { ...tub, seams }, tooMany };
};

const piecesOn = ({ tabs, spots = 0, fasteners }: Seam, { length }: SeamRun): number => {
  const through = (wide: number): number => (fasteners ? fastenerCount(wide, fasteners.every) : 0);
  return tabs ? tabCountOf(length, tabs) * (1 + spots + through(tabs.wide)) : spots + through(length);
};
