/** Looks for an order of bending, from the finished part backwards. */
import type { FlatPattern } from '../../fold/flat-pattern.js';
import type { Metal, Shop } from '../../model/tub.js';
import type { Setup } from '../bend-fit.js';
import type { OperationSet } from './operations.js';
import { costOf, handlingBetween, poseClass, poseOf, type Pose } from './pose.js';
import { stepChecker, type StepChecker } from './stroke/step-check.js';
import type { GoodStep } from './stroke/step.js';

/** One step of an order that was found. */
export interface OrderedStep {
  readonly operation: number;
  readonly back: 0 | 1;
  readonly pose: Pose;
  readonly step: GoodStep;
}

export type SearchResult =
  /** `proven`: no order needs fewer flips and turns. */
  | { readonly kind: 'found'; readonly steps: readonly OrderedStep[]; readonly cost: number; readonly proven: boolean }
  /** Every order was shown to be blocked. */
  | { readonly kind: 'none' }
  /** The budget ran out before either. */
  | { readonly kind: 'unknown' };

export interface Progress {
  /** Work done and allowed, in looks. */
  readonly work: number;
  readonly budget: number;
  /** Flips and turns of the best order so far. */
  readonly best: number | undefined;
}

/**
 * First a depth-first search for any order; then best-first search over (bent set, pose of the step that follows) for the
 * fewest flips and turns, cut off by the best order known. `known`: the order that `searchAnyOrder` found with this checker, which
 * did nothing else. Both go backwards: the last bend of a set is any that clears the
 * tools with the others made. The budget counts looks (`Tally`), not time, so the answer is the same on every
 * machine.
 */
export function* searchOrder(checker: StepChecker, budget: number, known?: Found): Generator<Progress, SearchResult> {
  // What was worked to find the known order counts as if it were found here.
  const left = budgetOf(checker, budget, known ? 0 : checker.work());
  const first = known ?? (yield* anyOrder(checker, left));
  if (first.kind !== 'found') return first;
  return yield* bestOrder(checker, first, left);
}

/** A search that has found an order, to be gone on with for a better one. Checkers remember: it is good for going on once. */
export interface Begun {
  /** With the dies of the charts. */
  readonly usual: StepChecker;
  /** With which the order was found. */
  readonly checker: StepChecker;
  readonly found: Found;
}

/** Any order, or that there is none. Remembers bent sets from which the flat sheet cannot be reached. */
export const searchAnyOrder = (checker: StepChecker, budget: number): Generator<Progress, SearchResult> =>
  anyOrder(checker, budgetOf(checker, budget));

/**
 * A search with the dies of the charts and, where that shows that there is no order, with all dies: one more die never
 * leaves fewer parts that can be bent.
 */
export function* withAllDies(
  flat: FlatPattern,
  shop: Shop,
  metal: Metal,
  usual: StepChecker,
  search: (checker: StepChecker) => Generator<Progress, SearchResult>,
): Generator<Progress, { readonly checker: StepChecker; readonly found: SearchResult }> {
  const found = yield* search(usual);
  if (found.kind !== 'none' || !usual.hasMoreDies) return { checker: usual, found };
  const checker = stepChecker(flat, shop, metal, 'all');
  return { checker, found: yield* search(checker) };
}

/** Which stroke comes, and which of its sides lies behind the line. */
export type OrderChoice = Pick<OrderedStep, 'operation' | 'back'>;

/** Does each stroke of an order that is not made yet clear the tools, first stroke first? An order of other strokes than the part's does not. */
export const isOrder = (checker: StepChecker, found: readonly OrderChoice[]): boolean => {
  const order = found.filter(({ operation }) => !checker.operations[operation]?.isMade);
  const strokes = new Set(order.map(({ operation }) => operation));
  const open = checker.operations.filter(({ isMade }) => !isMade);
  if (strokes.size !== open.length || order.length !== strokes.size) return false;
  if (open.some(({ index }) => !strokes.has(index))) return false;
  let bent = checker.made;
  return order.every(({ operation, back }) => {
    const { ok } = checker.check({ operation, bent, back });
    bent |= bitOf(operation);
    return ok;
  });
};

/** Keeps account of the budget, and of when it is time to let others have a turn. */
interface Budget {
  readonly isSpent: () => boolean;
  /** Some work was done since the last turn was given away. */
  readonly isTurnDue: () => boolean;
  readonly progress: (best?: number) => Progress;
}

/** Looks between two turns: some milliseconds. */
const TURN = 12;

const budgetOf = (checker: StepChecker, budget: number, start = checker.work()): Budget => {
  let turn = checker.work();
  return {
    isSpent: () => checker.work() - start >= budget,
    isTurnDue: () => checker.work() - turn >= TURN,
    progress: (best) => {
      turn = checker.work();
      return { work: Math.min(budget, turn - start), budget, best };
    },
  };
};

export type Found = Extract<SearchResult, { kind: 'found' }>;

interface Choice {
  readonly operation: number;
  readonly back: 0 | 1;
  readonly pose: Pose;
  readonly cost: number;
}

/** What may have been the last step of a set, cheapest handling to the step after it first. */
const choicesOf = (checker: StepChecker, set: OperationSet, after: Pose | undefined): Choice[] => {
  const choices: Choice[] = [];
  for (const operation of checker.operations) {
    if (operation.isMade || (set & bitOf(operation.index)) === 0n) continue;
    for (const back of [0, 1] as const) {
      const pose = poseOf(operation, back);
      choices.push({ operation: operation.index, back, pose, cost: after ? costOf(handlingBetween(pose, after)) : 0 });
    }
  }
  return choices.sort((a, b) => a.cost - b.cost);
};

const bitOf = (operation: number): OperationSet => 1n << BigInt(operation);

function* anyOrder(checker: StepChecker, left: Budget): Generator<Progress, SearchResult> {
  interface Level {
    readonly set: OperationSet;
    readonly choices: readonly Choice[];
    next: number;
    readonly came: OrderedStep | undefined;
  }
  const full = checker.operations.reduce((set, { index }) => set | bitOf(index), 0n);
  const dead = new Set<OperationSet>();
  const levels: Level[] = [{ set: full, choices: choicesOf(checker, full, undefined), next: 0, came: undefined }];
  yield left.progress();
  for (;;) {
    const level = levels[levels.length - 1];
    if (level.set === checker.made) {
      const steps = levels.flatMap(({ came }) => came ?? []).reverse();
      return { kind: 'found', steps, cost: costOfOrder(steps), proven: false };
    }
    if (left.isSpent()) return { kind: 'unknown' };
    if (left.isTurnDue()) yield left.progress();
    const choice = level.choices[level.next++];
    if (!choice) {
      dead.add(level.set);
      levels.pop();
      if (levels.length === 0) return { kind: 'none' };
      continue;
    }
    const rest = level.set & ~bitOf(choice.operation);
    if (dead.has(rest)) continue;
    const step = checker.check({
      operation: choice.operation,
      bent: rest,
      back: choice.back,
      like: likeOf(level.came),
    });
    if (!step.ok) continue;
    const came = { operation: choice.operation, back: choice.back, pose: choice.pose, step };
    levels.push({ set: rest, choices: choicesOf(checker, rest, choice.pose), next: 0, came });
  }
}

const likeOf = (came: OrderedStep | undefined): Setup | undefined => came?.step.setup;

export const costOfOrder = (steps: readonly OrderedStep[]): number =>
  steps.reduce((sum, { pose }, i) => sum + (i === 0 ? 0 : costOf(handlingBetween(steps[i - 1].pose, pose))), 0);

interface Node {
  readonly set: OperationSet;
  readonly came: OrderedStep | undefined;
  readonly after: Node | undefined;
  readonly cost: number;
  readonly bound: number;
  readonly depth: number;
  readonly serial: number;
}

function* bestOrder(checker: StepChecker, first: Found, left: Budget): Generator<Progress, SearchResult> {
  const full = checker.operations.reduce((set, { index }) => set | bitOf(index), 0n);
  const classes = checker.operations.map((operation) => poseClass(poseOf(operation, 0)));
  const closed = new Map<string, number>();
  const open = new Heap();
  let serial = 0;
  /** Each kind of pose among the steps still to come that differs from the next one costs a handling at least. */
  const boundOf = (set: OperationSet, pose: Pose | undefined, cost: number): number => {
    const kinds = new Set<string>();
    for (const { index, isMade } of checker.operations) if (!isMade && set & bitOf(index)) kinds.add(classes[index]);
    return cost + kinds.size - (!pose || kinds.has(poseClass(pose)) ? Math.min(1, kinds.size) : 0);
  };
  open.push({
    set: full,
    came: undefined,
    after: undefined,
    cost: 0,
    bound: boundOf(full, undefined, 0),
    depth: 0,
    serial: serial++,
  });
  for (let visits = 1; ; visits++) {
    const node = open.pop();
    if (!node || node.bound >= first.cost) return { ...first, proven: true };
    if (node.set === checker.made) return { kind: 'found', steps: stepsOf(node), cost: node.cost, proven: true };
    const key = `${node.set.toString(36)}|${node.came ? `${node.came.pose.up}${node.came.pose.heading.toFixed(3)}` : ''}`;
    if ((closed.get(key) ?? Infinity) <= node.cost) continue;
    closed.set(key, node.cost);
    if (left.isSpent() || visits > MOST_VISITS) return first;
    if (visits % 64 === 0) yield left.progress(first.cost);
    for (const { operation, back, pose, cost: more } of choicesOf(checker, node.set, node.came?.pose)) {
      const rest = node.set & ~bitOf(operation);
      const cost = node.cost + more;
      const bound = boundOf(rest, pose, cost);
      if (bound >= first.cost) continue;
      if (left.isTurnDue()) yield left.progress(first.cost);
      const step = checker.check({ operation, bent: rest, back, like: likeOf(node.came) });
      if (!step.ok) continue;
      open.push({
        set: rest,
        came: { operation, back, pose, step },
        after: node,
        cost,
        bound,
        depth: node.depth + 1,
        serial: serial++,
      });
    }
  }
}

/** States looked at in the search for the fewest handlings, however cheap each is. */
const MOST_VISITS = 20_000;

const stepsOf = (node: Node): OrderedStep[] => {
  const steps: OrderedStep[] = [];
  for (let at: Node | undefined = node; at?.came; at = at.after) steps.push(at.came);
  return steps;
};

/** Smallest bound first, then deepest, then oldest: the same order on every run. */
class Heap {
  readonly #nodes: Node[] = [];

  push(node: Node): void {
    const nodes = this.#nodes;
    let i = nodes.length;
    nodes.push(node);
    while (i > 0) {
      const parent = (i - 1) >> 1;
      if (!isBefore(node, nodes[parent])) break;
      nodes[i] = nodes[parent];
      i = parent;
    }
    nodes[i] = node;
  }

  pop(): Node | undefined {
    const nodes = this.#nodes;
    const top = nodes[0];
    const last = nodes.pop();
    if (!last || nodes.length === 0) return top;
    let i = 0;
    for (;;) {
      let child = 2 * i + 1;
      if (child >= nodes.length) break;
      if (child + 1 < nodes.length && isBefore(nodes[child + 1], nodes[child])) child++;
      if (!isBefore(nodes[child], last)) break;
      nodes[i] = nodes[child];
      i = child;
    }
    nodes[i] = last;
    return top;
  }
}

const isBefore = (a: Node, b: Node): boolean =>
  a.bound !== b.bound ? a.bound < b.bound : a.depth !== b.depth ? a.depth > b.depth : a.serial < b.serial;
