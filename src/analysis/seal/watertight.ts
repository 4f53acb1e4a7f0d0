/** Does it hold: the account of all edges, every leak, and the level to which the tub can be filled. */
import type { FlatPattern, FoldedPart } from '../fold/flat-pattern.js';
import type { Unfolded } from '../fold/unfolded.js';
import type { Joints } from '../join/joints.js';
import type { Tub } from '../model/tub.js';
import type { Shape } from '../shape/shape.js';
import { cornerLeaks } from './corner-leaks.js';
import { accountEdges, type EdgeAccount } from '../shape/edge-account.js';
import { edgeLeaks, seamLeaks } from './edge-leaks.js';
import { floodOf, type Flood } from './flood.js';
import { frameLeaks, notchLeaks, openingLeaks, reliefLeaks } from './hole-leaks.js';
import { jointEndsOf } from './joint-ends.js';
import type { Leak } from './leak.js';

export interface Watertight {
  readonly account: EdgeAccount;
  readonly flood: Flood;
  /** All open places, lowest first. */
  readonly leaks: readonly Leak[];
  /** The lowest place that is open as drawn and that standing water reaches; undefined: none, it holds to its rim. */
  readonly lowest: Leak | undefined;
}

export interface SealInput {
  readonly tub: Tub;
  readonly shape: Shape;
  readonly unfolded: readonly Unfolded[];
  readonly flats: readonly (FlatPattern | undefined)[];
  readonly folded: readonly (FoldedPart | undefined)[];
  readonly joints: Joints;
}

/** Looks for leaks of every kind. Cost: O(n log n) in stretches. */
export const watertightOf = (input: SealInput): Watertight => {
  const { tub, shape, unfolded, joints } = input;
  const account = accountEdges(shape);
  const flood = floodOf(shape, account);
  const ends = jointEndsOf(tub, joints);
  const leaks = [
    ...edgeLeaks(shape, account, flood),
    ...seamLeaks(tub, joints, flood),
    ...openingLeaks(tub, shape, flood),
    ...frameLeaks(tub, shape, joints, flood),
    ...reliefLeaks(unfolded, ends, flood),
    ...notchLeaks(tub, joints, flood),
    ...cornerLeaks({ ...input, ends, flood }),
  ].sort((a, b) => a.height - b.height || compareText(a.kind, b.kind) || a.faces[0] - b.faces[0]);
  return { account, flood, leaks, lowest: leaks.find((leak) => leak.isUnderWater && leak.isAsDrawn) };
};

const compareText = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);
