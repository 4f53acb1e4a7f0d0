/** Why a part has no bending order: the nearest miss at the farthest point that any order reaches. */
import type { FlatPattern } from '../../fold/flat-pattern.js';
import type { Operation, OperationSet } from './operations.js';
import type { Blocked, Obstacle } from './plan.js';
import type { Progress } from './search.js';
import { depthOfHit } from './stroke/side-check.js';
import type { StepChecker } from './stroke/step-check.js';
import type { BadStep } from './stroke/step.js';

/** Looks: the search has shown already that there is no order, and this only finds words for it. */
const EXPLAIN_BUDGET = 300;

/**
 * Explores forwards from the flat sheet within a small budget, takes the first of the largest bent sets that nothing can
 * be added to, and among all that is tried from there the miss that lacks least. Where the budget ends before any such
 * set is met, backwards from the finished part to the first set of which no bend can be the last: the search that showed
 * that there is no order has met it. Lengths mm, angles rad.
 */
export function* findBlocked(
  flat: FlatPattern,
  checker: StepChecker,
  budget: number,
): Generator<Progress, Blocked | undefined> {
  const made = yield* farthestSet(checker, Math.min(budget / 2, EXPLAIN_BUDGET));
  const tries =
    made === undefined ? triesOfLast(checker, noLastOf(checker)).slice(-MOST_MEASURED) : triesOfNext(checker, made);
  const misses = tries.flatMap(({ operation, bent }) =>
    ([0, 1] as const).flatMap((back) => missesOf(flat, checker, operation, bent, back)),
  );
  if (misses.length === 0) return undefined;
  const nearest = misses.reduce((best, miss) => (miss.lacks < best.lacks ? miss : best));
  return {
    bends: nearest.operation.bends,
    made: checker.operations.flatMap(({ index, bends }) => ((nearest.bent & bitOf(index)) === 0n ? [] : bends)),
    machine: nearest.step.setup?.machine,
    die: nearest.step.setup?.die,
    obstacle: nearest.obstacle,
  };
}

/** A bend to be made, and those made before. */
interface Try {
  readonly operation: Operation;
  readonly bent: OperationSet;
}

const triesOfNext = ({ operations }: StepChecker, bent: OperationSet): readonly Try[] =>
  operations.filter(({ index }) => (bent & bitOf(index)) === 0n).map((operation) => ({ operation, bent }));

/** Measuring how much each of them lacks costs more than finding that it is blocked. */
const MOST_MEASURED = 2;

const triesOfLast = ({ operations }: StepChecker, set: OperationSet): readonly Try[] =>
  operations
    .filter(({ index, isMade }) => !isMade && (set & bitOf(index)) !== 0n)
    .map((operation) => ({ operation, bent: set & ~bitOf(operation.index) }));

/** Back from the finished part, to the first set of which no bend can be the last. */
const noLastOf = (checker: StepChecker): OperationSet => {
  let set = checker.operations.reduce((all, { index }) => all | bitOf(index), 0n);
  for (;;) {
    const last = triesOfLast(checker, set).find(({ operation, bent }) => canFollow(checker, operation.index, bent));
    if (!last) return set;
    set = last.bent;
  }
};

const bitOf = (operation: number): OperationSet => 1n << BigInt(operation);

const sizeOf = (set: OperationSet): number => {
  let size = 0;
  for (let rest = set; rest !== 0n; rest &= rest - 1n) size++;
  return size;
};

/**
 * Goes forwards, one bend after another, and back from each set that nothing can be added to. A bend that is blocked now
 * mostly stays so: each set tries first what comes before the bend that was made last.
 */
function* farthestSet(checker: StepChecker, budget: number): Generator<Progress, OperationSet | undefined> {
  interface Level {
    readonly set: OperationSet;
    readonly from: number;
    next: number;
    hasMore: boolean;
  }
  const count = checker.operations.length;
  const stop = checker.work() + budget;
  const seen = new Set<OperationSet>([checker.made]);
  const levels: Level[] = [{ set: checker.made, from: count - 1, next: 0, hasMore: false }];
  let farthest: OperationSet | undefined;
  let patience = PATIENCE;
  while (levels.length > 0 && checker.work() < stop && patience > 0) {
    yield { work: budget - Math.max(0, stop - checker.work()), budget, best: undefined };
    const level = levels[levels.length - 1];
    if (level.next === count) {
      levels.pop();
      if (level.hasMore) continue;
      patience--;
      if (farthest === undefined || sizeOf(level.set) > sizeOf(farthest)) [farthest, patience] = [level.set, PATIENCE];
      // All of them but one is the most that can be reached of a part that has no order.
      if (sizeOf(farthest) === count - 1) break;
      continue;
    }
    const operation = (level.from + count - level.next++) % count;
    const larger = level.set | bitOf(operation);
    if (larger === level.set || (level.hasMore && seen.has(larger))) continue;
    if (!canFollow(checker, operation, level.set)) continue;
    level.hasMore = true;
    if (seen.has(larger)) continue;
    seen.add(larger);
    levels.push({ set: larger, from: operation + count - 1, next: 0, hasMore: false });
  }
  return farthest;
}

/** Sets that nothing can be added to, one after another, none of them larger than the largest: then it is taken. */
const PATIENCE = 12;

const canFollow = (checker: StepChecker, operation: number, bent: OperationSet): boolean =>
  ([0, 1] as const).some((back) => checker.check({ operation, bent, back }).ok);

interface Miss extends Try {
  readonly step: BadStep;
  readonly obstacle: Obstacle;
  /** mm of whatever is missing. */
  readonly lacks: number;
}

/** Larger than any sheet: what cannot be put in mm comes last. */
const BEYOND_MEASURE = 1e6;

const missesOf = (
  flat: FlatPattern,
  checker: StepChecker,
  operation: Operation,
  bent: OperationSet,
  back: 0 | 1,
): readonly Miss[] => {
  const steps = checker.checkAll({ operation: operation.index, bent, back });
  if (steps.length === 0) {
    const step: BadStep = { ok: false, setup: undefined, reason: { kind: 'no machine' } };
    return [{ operation, bent, step, obstacle: { kind: 'no machine' }, lacks: BEYOND_MEASURE }];
  }
  return steps.flatMap((step) =>
    step.ok ? [] : [{ operation, bent, step, ...measured(flat, checker, operation, bent, step) }],
  );
};

const measured = (
  flat: FlatPattern,
  checker: StepChecker,
  operation: Operation,
  bent: OperationSet,
  { reason }: BadStep,
): { readonly obstacle: Obstacle; readonly lacks: number } => {
  switch (reason.kind) {
    case 'no machine':
      return { obstacle: reason, lacks: BEYOND_MEASURE };
    case 'flange': {
      const bend = flat.bends[operation.bends[0]];
      const panel = reason.side === 0 ? bend.parent : bend.child;
      return {
        obstacle: { kind: 'flange', panel, has: reason.has, needs: reason.needs },
        lacks: reason.needs - reason.has,
      };
    }
    case 'tool': {
      const { depth, owner } = depthOfHit(checker.side(operation.index, reason.side, bent), reason.hit);
      return { obstacle: { kind: 'tool', tool: reason.hit.tool, owner, angle: reason.hit.angle, depth }, lacks: depth };
    }
    case 'fingers':
      return {
        obstacle: { kind: 'fingers', owner: reason.hit?.owner, room: reason.room, needs: reason.needs },
        lacks: reason.needs - reason.room,
      };
    case 'load':
      return { obstacle: reason, lacks: reason.height - reason.opening };
    case 'itself':
      return {
        obstacle: { kind: 'itself', owners: [reason.hit.still.owner, reason.hit.moving.owner], angle: reason.hit.at },
        lacks: BEYOND_MEASURE / 2,
      };
  }
};
