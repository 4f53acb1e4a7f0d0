/** The bend plan of one part: order, machines, fingers, stops, or what is in the way. */
import type { FlatPattern } from '../../fold/flat-pattern.js';
import type { Material, Shop } from '../../model.js';
import { findBlocked } from './blocked.js';
import type { CanBend, Plan, PlanStep } from './plan.js';
import { findRemedies } from './remedies.js';
import { handlingBetween, type Handling } from './pose.js';
import { searchOrder, type OrderedStep, type Progress } from './search.js';
import { isSameTooling, stepChecker, type StepChecker } from './step-check.js';
import type { GoodStep } from './step.js';

export interface PlanOptions {
  readonly material: Material;
  /** Sides to hold against tools before giving up; about 0.2 ms each. Default `PLAN_BUDGET`. */
  readonly budget?: number;
  /** What to find out about a part that cannot be bent: nothing, what is in the way, or what frees it as well (default). */
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
  const checker = stepChecker(flat, shop, options.material);
  const plan = (rest: Partial<Plan> & Pick<Plan, 'outcome' | 'complete'>): Plan => ({
    steps: [], flips: 0, turns: 0, blocked: undefined, remedies: [], work: checker.work(), budget, ...rest,
  });
  if (checker.operations.length === 0) return plan({ outcome: 'nothing to bend', complete: true });
  const found = yield* searchOrder(checker, budget);
  if (found.kind === 'found') {
    const steps = planSteps(flat, checker, withFewestChanges(checker, found.steps));
    const count = (what: 'flip' | 'turn'): number => steps.filter((step) => step[what]).length;
    return plan({ outcome: 'planned', complete: found.proven, steps, flips: count('flip'), turns: count('turn') });
  }
  if (found.kind === 'unknown') return plan({ outcome: 'not decided', complete: false });
  const { ifBlocked = 'remedies' } = options;
  const blocked = ifBlocked === 'nothing' ? undefined : yield* findBlocked(flat, checker, budget);
  const remedies =
    blocked && ifBlocked === 'remedies' ? yield* findRemedies(flat, shop, blocked, replan(options.material, budget)) : [];
  return plan({ outcome: 'impossible', complete: true, blocked, remedies });
}

/** Work for one attempt at a changed part; an attempt that needs more counts as failed. */
const ATTEMPT_BUDGET = 600;

/** Attempts together draw on one budget; when it is used up, further ones fail. */
const replan = (material: Material, budget: number): CanBend => {
  let left = budget;
  return function* canBend(flat, shop) {
    if (left <= 0) return false;
    const result = yield* planPart(flat, shop, { material, budget: Math.min(left, ATTEMPT_BUDGET), ifBlocked: 'nothing' });
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

/** Weight of setting up another machine, and another die on the same one, when tooling is chosen for an order. */
const OTHER_MACHINE = 1000;
const OTHER_DIE = 100;

/** Chooses among the setups that work for each step of an order, so that machine and die change least. */
const withFewestChanges = (checker: StepChecker, steps: readonly OrderedStep[]): readonly OrderedStep[] => {
  let bent = 0n;
  const options = steps.map(({ operation, back }) => {
    const good = checker.checkAll({ operation, bent, back }).filter((step): step is GoodStep => step.ok);
    bent |= 1n << BigInt(operation);
    return good;
  });
  interface Choice {
    readonly cost: number;
    readonly picks: readonly GoodStep[];
  }
  let choices: readonly Choice[] = [{ cost: 0, picks: [] }];
  for (const good of options) {
    choices = good.map((step, rank) =>
      choices
        .map(({ cost, picks }): Choice => ({ cost: cost + rank + changeCost(picks[picks.length - 1], step), picks: [...picks, step] }))
        .reduce((best, choice) => (choice.cost < best.cost ? choice : best)),
    );
  }
  const best = choices.reduce((a, b) => (b.cost < a.cost ? b : a));
  return steps.map((step, i) => ({ ...step, step: best.picks[i] }));
};

const changeCost = (from: GoodStep | undefined, to: GoodStep): number => {
  if (!from || isSameTooling(from.setup, to.setup)) return 0;
  const sameMachine = from.setup.machine.kind === to.setup.machine.kind && from.setup.machine.index === to.setup.machine.index;
  return sameMachine ? OTHER_DIE : OTHER_MACHINE;
};

const planSteps = (flat: FlatPattern, checker: StepChecker, steps: readonly OrderedStep[]): readonly PlanStep[] =>
  steps.map(({ operation: index, back, pose, step }, i): PlanStep => {
    const operation = checker.operations[index];
    const before = i > 0 ? steps[i - 1] : undefined;
    const handling: Handling = before ? handlingBetween(before.pose, pose) : { flips: 0, turns: 0 };
    const first = flat.bends[operation.bends[0]];
    const { setup } = step;
    return {
      bends: operation.bends,
      machine: setup.machine,
      die: setup.die,
      fingers: step.fingers.widths,
      placement: step.placement,
      load: step.load,
      up: pose.up === 'up' ? 'dry' : 'wet',
      flip: handling.flips === 1,
      turn: handling.turns === 1,
      behind: back === 0 ? first.parent : first.child,
      stop: step.stop,
      angle: operation.angle,
      bendTo: setup.bendTo,
      flatten: setup.flatten,
      force: setup.force,
      length: operation.line.length,
    };
  });
