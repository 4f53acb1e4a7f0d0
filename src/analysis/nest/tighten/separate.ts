/** Takes pieces apart that overlap, by moving one after the other to where it overlaps least. */
import { NEST_CONTACT } from '../../model/tolerance.js';
import type { Chance } from './chance.js';
import { weigh, type Layout } from './layout.js';
import { relocate } from './relocate.js';

/** How much the weight of the deepest overlap grows each round, and what is left of that of a pair that is apart. */
const GROWTH = 1.9;
const DECAY = 0.8;
/** A round that leaves more than this share of the least overlap so far brought nothing. */
const IDLE = 0.98;

/** Sum of all overlaps, mm; 0 when no pair overlaps by more than the slack, which is to say not at all. */
export const totalOverlap = ({ count, depth, shapes }: Layout): number => {
  let sum = 0;
  let deepest = 0;
  for (let i = 0; i < count; i++) {
    for (let j = 0; j < i; j++) {
      const deep = depth[i * count + j];
      sum += deep;
      if (deep > deepest) deepest = deep;
    }
  }
  return deepest <= shapes.slack + NEST_CONTACT ? 0 : sum;
};

/** Work that may still be done, in places tried. */
export interface Budget {
  left: number;
}

export interface Separating {
  readonly layout: Layout;
  readonly chance: Chance;
  readonly budget: Budget;
  /** Rounds that bring nothing before it is given up. */
  readonly patience: number;
  /** Told whenever less overlap than ever before is left, mm. */
  readonly onLess: (total: number) => void;
}

/**
 * True when the pieces came apart. What a pair's overlap weighs grows as long as it lasts (guided local search): a piece
 * that is stuck between two others is thrown out at last. Yields after each round.
 */
export function* separate({ layout, chance, budget, patience, onLess }: Separating): Generator<void, boolean> {
  const { count } = layout;
  layout.weight.set(layout.firstWeight);
  for (let i = 0; i < count; i++) weigh(layout, i);
  let least = totalOverlap(layout);
  const order = new Int32Array(count);
  for (let idle = 0; least > 0 && idle < patience && budget.left > 0; idle++) {
    const before = layout.tried;
    const found = overlapping(layout, order, chance);
    for (let k = 0; k < found; k++) if (overlapOf(layout, order[k]) > 0) relocate(layout, order[k], chance);
    budget.left -= layout.tried - before;
    yield;
    const total = totalOverlap(layout);
    if (total < IDLE * least) idle = -1;
    if (total < least) onLess((least = total));
    reweigh(layout);
  }
  return least === 0;
}

const overlapOf = ({ count, depth }: Layout, piece: number): number => {
  let sum = 0;
  for (let j = 0, at = piece * count; j < count; j++) sum += depth[at + j];
  return sum;
};

/** Fills `order` with the pieces that overlap, shuffled; gives their number. */
const overlapping = (layout: Layout, order: Int32Array, chance: Chance): number => {
  let found = 0;
  for (let i = 0; i < layout.count; i++) if (layout.fixed[i] === 0 && overlapOf(layout, i) > 0) order[found++] = i;
  for (let i = found - 1; i > 0; i--) {
    const j = chance.below(i + 1);
    const kept = order[i];
    order[i] = order[j];
    order[j] = kept;
  }
  return found;
};

const reweigh = ({ depth, weight, firstWeight }: Layout): void => {
  let deepest = 0;
  for (const deep of depth) if (deep > deepest) deepest = deep;
  for (let at = 0; at < depth.length; at++) {
    if (depth[at] > 0) weight[at] *= 1 + (GROWTH - 1) * (depth[at] / deepest);
    else weight[at] = Math.max(firstWeight[at], weight[at] * DECAY);
  }
};
