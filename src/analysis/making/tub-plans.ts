/**
 * Bend plans of a whole tub.
 *
 * Planning may take a second a part, so no check that runs while typing asks for it beyond a small budget. Whoever wants
 * plans runs `planTub` step by step, looking at its own cancellation between steps; plans are remembered by the geometry
 * they depend on, so `stages.plans()` then has them at once, and so has the next edit that leaves a part alone.
 */
import { metalOf } from '../material/properties.js';
import type { FlatPattern } from '../fold/flat-pattern.js';
import type { Shop, Tub } from '../model/tub.js';
import { shopOf } from '../model/shop/default-shop.js';
import { planMade, planOnce } from './plan/plan-store.js';
import type { PlanOptions } from './plan/plan-part.js';
import type { Plan, PlanStep } from './plan/plan.js';
import type { Progress } from './plan/search.js';

export interface TubProgress extends Progress {
  /** Index of the part that is being planned, and how many there are. */
  readonly part: number;
  readonly parts: number;
}

export type TubPlanOptions = Omit<PlanOptions, 'metal'>;

/** `plans[i]` belongs to `flats[i]`; undefined where the part cannot be laid flat. */
export function* planTub(
  tub: Tub,
  flats: readonly (FlatPattern | undefined)[],
  options: TubPlanOptions = {},
): Generator<TubProgress, readonly (Plan | undefined)[]> {
  const shop: Shop = shopOf(tub);
  const plans: (Plan | undefined)[] = [];
  for (const [part, flat] of flats.entries()) {
    plans.push(flat && (yield* planned(part, flat)));
  }
  return plans;

  function* planned(part: number, flat: FlatPattern): Generator<TubProgress, Plan> {
    const planning = planOnce(flat, shop, { ...options, metal: metalOf(tub.sheets[flat.sheet]) });
    for (;;) {
      const step = planning.next();
      if (step.done) return step.value;
      yield { ...step.value, part, parts: flats.length };
    }
  }
}

/** The plan of a flat, dry side up, where it is made already. */
export const planMadeOf = (tub: Tub, flat: FlatPattern): Plan | undefined =>
  planMade(flat, shopOf(tub), metalOf(tub.sheets[flat.sheet]));

/**
 * The strokes of one flat in order, without a look at what is in the way where there is no order: then there are none.
 * Yields its progress.
 */
export function* strokesInSteps(tub: Tub, flat: FlatPattern): Generator<Progress, readonly PlanStep[]> {
  const metal = metalOf(tub.sheets[flat.sheet]);
  return (yield* planOnce(flat, shopOf(tub), { metal, ifBlocked: 'nothing' })).steps;
}

/** The same in one go. */
export const strokesOf = (tub: Tub, flat: FlatPattern): readonly PlanStep[] => {
  const planning = strokesInSteps(tub, flat);
  for (;;) {
    const step = planning.next();
    if (step.done) return step.value;
  }
};

/** The plans in one go. */
export const plansInOneGo = (
  tub: Tub,
  flats: readonly (FlatPattern | undefined)[],
  options: TubPlanOptions = {},
): readonly (Plan | undefined)[] => {
  const planning = planTub(tub, flats, options);
  for (;;) {
    const step = planning.next();
    if (step.done) return step.value;
  }
};
