/** Why a part has no bending order: the nearest miss at the farthest point that any order reaches. */
import type { FlatPattern } from '../../fold/flat-pattern.js';
import type { Operation, OperationSet } from './operations.js';
import type { Blocked, Obstacle } from './plan.js';
import type { Progress } from './search.js';
import { depthOfHit } from './side-check.js';
import type { StepChecker } from './step-check.js';
import type { BadStep } from './step.js';

/**
 * Explores forwards from the flat sheet within half the budget, takes the first of the largest bent sets that nothing can
 * be added to, and among all that is tried from there the miss that lacks least. Undefined when the budget ends before any
 * such set is met. Lengths mm, angles rad.
 */
export function* findBlocked(
  flat: FlatPattern,
  checker: StepChecker,
  budget: number,
): Generator<Progress, Blocked | undefined> {
  const made = yield* farthestSet(checker, budget / 2);
  if (made === undefined) return undefined;
  const misses = checker.operations
    .filter(({ index }) => (made & bitOf(index)) === 0n)
    .flatMap((operation) => ([0, 1] as const).flatMap((back) => missesOf(flat, checker, operation, made, back)));
  const nearest = misses.reduce((best, miss) => (miss.lacks < best.lacks ? miss : best));
  return {
    bends: nearest.operation.bends,
    made: checker.operations.flatMap(({ index, bends }) => ((made & bitOf(index)) === 0n ? [] : bends)),
    machine: nearest.step.setup?.machine,
    die: nearest.step.setup?.die,
    obstacle: nearest.obstacle,
  };
}

const bitOf = (operation: number): OperationSet => 1n << BigInt(operation);

const sizeOf = (set: OperationSet): number => {
  let size = 0;
  for (let rest = set; rest !== 0n; rest &= rest - 1n) size++;
  return size;
};

function* farthestSet(checker: StepChecker, budget: number): Generator<Progress, OperationSet | undefined> {
  const stop = checker.work() + budget;
  // All of them but one is the most that can be reached of a part that has no order.
  const most = checker.operations.length - 1;
  const seen = new Set<OperationSet>([0n]);
  const stack: OperationSet[] = [0n];
  let farthest: OperationSet | undefined;
  for (let set = stack.pop(); set !== undefined && checker.work() < stop; set = stack.pop()) {
    yield { work: budget - Math.max(0, stop - checker.work()), budget, best: undefined };
    const next = oneMore(checker, set);
    if (next.length === 0 && (farthest === undefined || sizeOf(set) > sizeOf(farthest))) farthest = set;
    if (farthest !== undefined && sizeOf(farthest) === most) break;
    for (const larger of next) {
      if (!seen.has(larger)) stack.push(larger);
      seen.add(larger);
    }
  }
  return farthest;
}

/** The sets that one more bend makes of a set. */
const oneMore = (checker: StepChecker, set: OperationSet): readonly OperationSet[] =>
  checker.operations
    .filter(({ index }) => (set & bitOf(index)) === 0n)
    .filter(({ index }) => ([0, 1] as const).some((back) => checker.check({ operation: index, bent: set, back }).ok))
    .map(({ index }) => set | bitOf(index));

interface Miss {
  readonly operation: Operation;
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
    return [{ operation, step, obstacle: { kind: 'no machine' }, lacks: BEYOND_MEASURE }];
  }
  return steps.flatMap((step) =>
    step.ok ? [] : [{ operation, step, ...measured(flat, checker, operation, bent, step) }],
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
