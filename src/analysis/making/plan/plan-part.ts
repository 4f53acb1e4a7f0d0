/** The bend plan of one part: order, machines, fingers, stops, or what is in the way. */
import type { FlatPattern } from '../../fold/flat-pattern.js';
import type { Metal, Shop } from '../../model/tub.js';
import { findBlocked } from './blocked.js';
import type { CanBend, Plan, PlanStep } from './plan.js';
import { findRemedies } from './remedies.js';
import { handlingBetween, type Handling } from './pose.js';
import { searchOrder, withAllDies, type Begun, type OrderedStep, type Progress, type SearchResult } from './search.js';
import { stepChecker, type StepChecker } from './stroke/step-check.js';
import { chooseTooling } from './tooling.js';

export interface PlanOptions {
  readonly metal: Metal;
  /** Looks (`Tally`) before giving up; about 0.2 ms each. Default `PLAN_BUDGET`. */
  readonly budget?: number;
  /** What to find out about a part that cannot be bent: nothing, what is in the way, or what frees it as well (default). */
  /** The search for any order, where a verdict has made it already, with the same budget. */
  readonly begun?: Begun | undefined;
  readonly ifBlocked?: 'nothing' | 'reason' | 'remedies';
}

/**
 * About a second. A blocked part takes half as much again to find the nearest miss, and as much again for remedies. Enough for 12 bends of a usual part; 20 are often planned without the proof of fewest handlings.
 */
export const PLAN_BUDGET = 5000;

/**
 * Plans one part in one shop. Yields its progress now and then, so that the caller can show it, give way to others or
 * drop the generator; returns the plan. Deterministic: the budget counts work, not time. Never throws for a part that
 * cannot be made. The flat must be sound (`Unfolded.flat` is); bends without a machine give an `impossible` plan.
 */
export function* planPart(flat: FlatPattern, shop: Shop, options: PlanOptions): Generator<Progress, Plan> {
  const budget = options.budget ?? PLAN_BUDGET;
  const usual = options.begun?.usual ?? stepChecker(flat, shop, options.metal);
  const plan = (checker: StepChecker, rest: Partial<Plan> & Pick<Plan, 'outcome' | 'complete'>): Plan => ({
    steps: [],
    flips: 0,
    turns: 0,
    blocked: undefined,
    remedies: [],
    work: checker.work(),
    budget,
    ...rest,
  });
  if (usual.operations.every(({ isMade }) => isMade))
    return plan(usual, { outcome: 'nothing to bend', complete: true });
  const { checker, found } = options.begun
    ? yield* goOn(options.begun, budget)
    : yield* withAllDies(flat, shop, options.metal, usual, (one) => searchOrder(one, budget));
  if (found.kind === 'found') {
    const order = yield* chooseTooling(checker, found.steps, () => ({
      work: Math.min(budget, checker.work()),
      budget,
      best: found.cost,
    }));
    const steps = planSteps(flat, checker, order);
    const count = (what: 'flip' | 'turn'): number => steps.filter((step) => step[what]).length;
    const [flips, turns] = [count('flip'), count('turn')];
    return plan(checker, { outcome: 'planned', complete: found.proven, steps, flips, turns });
  }
  if (found.kind === 'unknown') return plan(checker, { outcome: 'not decided', complete: false });
  const { ifBlocked = 'remedies' } = options;
  const blocked = ifBlocked === 'nothing' ? undefined : yield* findBlocked(flat, usual, budget);
  const remedies =
    blocked && ifBlocked === 'remedies' ? yield* findRemedies(flat, shop, blocked, replan(options.metal, budget)) : [];
  return plan(usual, { outcome: 'impossible', complete: true, blocked, remedies });
}

function* goOn(
  { checker, found }: Begun,
  budget: number,
): Generator<Progress, { readonly checker: StepChecker; readonly found: SearchResult }> {
  return { checker, found: yield* searchOrder(checker, budget, found) };
}

/** Work for one attempt at a changed part; an attempt that needs more counts as failed. */
const ATTEMPT_BUDGET = 600;

/** Attempts together draw on one budget; when it is used up, further ones fail. */
const replan = (metal: Metal, budget: number): CanBend => {
  let left = budget;
  return function* canBend(flat, shop) {
    if (left <= 0) return false;
    const result = yield* planPart(flat, shop, {
      metal,
      budget: Math.min(left, ATTEMPT_BUDGET),
      ifBlocked: 'nothing',
    });
    left -= Math.max(1, result.work);
    return result.outcome === 'planned' || result.outcome === 'nothing to bend';
  };
};

/** The plan in one go. */
export const planInOneGo = (flat: FlatPattern, shop: Shop, options: PlanOptions): Plan => {
  const planning = planPart(flat, shop, options);
  for (;;) {
    const step = planning.next();
    if (step.done) return step.value;
  }
};

const planSteps = (flat: FlatPattern, checker: StepChecker, steps: readonly OrderedStep[]): readonly PlanStep[] =>
  steps.map(({ operation: index, back, pose, step }, i): PlanStep => {
    const operation = checker.operations[index];
    const before = i > 0 ? steps[i - 1] : undefined;
    const handling: Handling = before ? handlingBetween(before.pose, pose) : { flips: 0, turns: 0 };
    const first = flat.bends[operation.bends[0]];
    return {
      bends: operation.bends,
      setup: step.setup,
      fingers: step.fingers.widths,
      placement: step.placement,
      load: step.load,
      up: pose.up === 'up' ? 'dry' : 'wet',
      flip: handling.flips === 1,
      turn: handling.turns === 1,
      behind: back === 0 ? first.parent : first.child,
      stop: step.stop,
      angle: operation.angle,
      length: operation.line.length,
      bent: operation.line.bent,
    };
  });
