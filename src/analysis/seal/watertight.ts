/** Does it hold: the account of all edges, every leak, and the level to which the tub can be filled. */
import type { FlatPattern, FoldedPart } from '../fold/flat-pattern.js';
import type { Unfolded } from '../fold/unfolded.js';
import type { Joints } from '../join/joints.js';
import type { Tub } from '../model/tub.js';
import type { Shape } from '../shape/shape.js';
import { cornerLeaks } from './corner-leaks.js';
import { accountEdges, type EdgeAccount } from '../shape/account/edge-account.js';
import { edgeLeaks, seamLeaks } from './edge-leaks.js';
import { faceLeaks } from './face-leaks.js';
import { frameLeaks, notchLeaks, openingLeaks, reliefLeaks } from './hole-leaks.js';
import { dividersOf } from '../shape/account/dividers.js';
import { jointEndsOf } from './joint-ends.js';
import { CLINGS, type Leak } from './leak.js';
import type { Water } from '../water/water.js';

export interface Watertight {
  readonly account: EdgeAccount;
  /** All open places, lowest first. */
  readonly leaks: readonly Leak[];
  /** The lowest place that is open as drawn, leads out of the tub and that standing water reaches; undefined: none, it holds to its rim. */
  readonly lowest: Leak | undefined;
}

export interface SealInput {
  readonly tub: Tub;
  readonly shape: Shape;
  readonly unfolded: readonly Unfolded[];
  readonly flats: readonly (FlatPattern | undefined)[];
  readonly folded: readonly (FoldedPart | undefined)[];
  readonly joints: Joints;
  readonly water: Pick<Water, 'levelAt' | 'levelIfClosed' | 'reachedAt'>;
}

/** Looks for leaks of every kind; dry things have none (`wetShapeOf`). Cost: O(n log n) in stretches. */
export function* watertightOf(input: SealInput): Generator<void, Watertight> {
  const { tub, shape, unfolded, joints, water } = input;
  const { levelAt } = water;
  const account = accountEdges(shape);
  yield;
  const ends = jointEndsOf(tub, joints);
  yield;
  const leaks: Leak[] = [];
  const dividers = dividersOf(tub, shape);
  for (const kind of [
    () => edgeLeaks(shape, account, levelAt),
    () => seamLeaks(tub, joints, levelAt),
    () => faceLeaks(tub, shape, joints, levelAt),
    () => openingLeaks(tub, shape, joints, water),
    () => frameLeaks(tub, shape, joints, levelAt),
    () => reliefLeaks(unfolded, ends, levelAt),
    () => notchLeaks(tub, joints, levelAt),
    () => cornerLeaks({ ...input, ends, levelAt }),
  ]) {
    const found = kind().filter(({ faces }) => faces.every((face) => shape.faces[face]?.usable));
    for (const each of found) {
      const leak = besideHem(water, each);
      leaks.push(leak.faces.some((face) => dividers.has(face)) ? { ...leak, isInside: true } : leak);
    }
    yield;
  }
  leaks.sort((a, b) => a.height - b.height || compareText(a.kind, b.kind) || a.faces[0] - b.faces[0]);
  return { account, leaks, lowest: leaks.find((leak) => leak.isUnderWater && leak.isAsDrawn && !leak.isInside) };
}

/** What is open from the corner at which a hem ends is so from where the liquid gets to there. */
const besideHem = ({ reachedAt }: SealInput['water'], leak: Leak): Leak => {
  const point = reachedAt(leak.faces[0], leak.point);
  if (point === leak.point) return leak;
  return { ...leak, point, height: point[2], isUnderWater: leak.flood - point[2] > CLINGS };
};

const compareText = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);
