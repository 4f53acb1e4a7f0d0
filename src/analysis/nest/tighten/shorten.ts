/** Shortens what the pieces take of a bin, step by step, as long as they can be separated again. */
import { NEST_CONTACT } from '../../model/tolerance.js';
import type { Chance } from './chance.js';
import { keepPlaces, layNear, middleOf, putBack, reachOf, type Kept } from './keep.js';
import type { Layout } from './layout.js';
import { pushPieces } from './push.js';
import { separate, type Budget } from './separate.js';

/** Shares of the length that are taken off at a time: at first, and at least. */
const FIRST_STEP = 0.03;
const LEAST_STEP = 0.001;
/** Rounds that bring nothing before a try is given up; failed tries before a smaller step. */
const PATIENCE = 40;
const TRIES_A_STEP = 1;
/** Failed tries before all of them are forgotten, with the step that it begins with again; before it is given up. */
const TRIES_A_START = 27;
const NEXT_STEP = 0.012;
const TRIES_IN_VAIN = 20 * TRIES_A_START;
/** How much sooner a failed try with little overlap is taken up again than one with much. */
const BIAS = 2;

export interface Work {
  readonly layout: Layout;
  readonly chance: Chance;
  readonly budget: Budget;
  /** Told whenever all pieces lie apart with less of the blanks used than ever before. */
  readonly onBetter: () => void;
}

interface Failed {
  readonly total: number;
  readonly kept: Kept;
}

/** Ends with the pieces apart, as they lie in the shortest length found, no shorter than `least`. Yields each round. */
export function* shorten(work: Work, target: number, least: number): Generator<void, void> {
  const { layout, chance, budget } = work;
  const bin = layout.bins[target];
  let best = keepPlaces(layout);
  let length = reachOf(layout, target);
  let step = FIRST_STEP;
  let failures = 0;
  let failed: Failed[] = [];
  while (budget.left > 0 && length > least + NEST_CONTACT && failures < TRIES_IN_VAIN) {
    const shorter = Math.max(least, length * (1 - step));
    bin.length = shorter;
    const from = failed.at(Math.floor(failed.length * chance.next() ** BIAS));
    if (from) {
      putBack(layout, from.kept);
      swapTwo(layout, chance);
    } else putBack(layout, best);
    const fits = pushIn(layout, target, from ? Infinity : chance.next() * length, length - shorter);
    const left = fits ? yield* tryApart(work) : undefined;
    if (fits && !left) {
      pushPieces(layout, target, chance);
      length = reachOf(layout, target);
      best = keepPlaces(layout);
      failures = 0;
      failed = [];
      bin.length = length;
      work.onBetter();
      continue;
    }
    if (left) failed = [...failed, left].sort((a, b) => a.total - b.total);
    failures++;
    if (failures % TRIES_A_START === 0) {
      step = NEXT_STEP;
      failed = [];
    } else if (failures % TRIES_A_STEP === 0) step = Math.max(LEAST_STEP, step / 2);
  }
  bin.length = length;
  putBack(layout, best);
}

/** Undefined when the pieces came apart, else where they overlapped least. */
export function* tryApart({ layout, chance, budget }: Work, patience = PATIENCE): Generator<void, Failed | undefined> {
  let left: Failed = { total: Infinity, kept: keepPlaces(layout) };
  const onLess = (total: number): void => {
    left = { total, kept: keepPlaces(layout) };
  };
  return (yield* separate({ layout, chance, budget, patience, onLess })) ? undefined : left;
}

/** Moves what lies beyond `from` in a bin towards its start, and what stands out in; false when a piece fits nowhere. */
const pushIn = (layout: Layout, target: number, from: number, by: number): boolean => {
  for (let i = 0; i < layout.count; i++) {
    if (layout.bin[i] !== target || layout.fixed[i] === 1) continue;
    const [x, y] = middleOf(layout, i);
    if (layNear(layout, i, target, x > from ? x - by : x, y)) continue;
    if (!layout.bins.some((_, bin) => layNear(layout, i, bin, x, y))) return false;
  }
  return true;
};

const swapTwo = (layout: Layout, chance: Chance): void => {
  const [a, b] = [chance.below(layout.count), chance.below(layout.count)];
  if (layout.fixed[a] === 1 || layout.fixed[b] === 1) return;
  const [binA, binB] = [layout.bin[a], layout.bin[b]];
  const [atA, atB] = [middleOf(layout, a), middleOf(layout, b)];
  layNear(layout, a, binB, ...atB);
  layNear(layout, b, binA, ...atA);
};
