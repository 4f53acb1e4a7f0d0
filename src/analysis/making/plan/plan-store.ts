/** Plans that were made already, by what they depend on. */
import { bentFlat } from '../../fold/bent-flat.js';
import type { FlatPattern } from '../../fold/flat-pattern.js';
import type { Shop } from '../../model/tub.js';
import { LruCache } from '../../cache/lru-cache.js';
import { takeBegun } from './begun.js';
import { planKey } from './plan-key.js';
import { PLAN_BUDGET, planPart, type PlanOptions } from './plan-part.js';
import type { Plan } from './plan.js';
import type { Progress } from './search.js';

/** Plans kept: more parts than a tub has, for some edits back and forth. */
const KEPT = 256;

/** A plan is a pure function of its key, so what is found here is what would be found anew. */
const plans = new LruCache<Plan>(KEPT);

/** The plan of a part as it was made, if it was; it is not made now. */
export const planMade = (whole: FlatPattern, shop: Shop, metal: PlanOptions['metal']): Plan | undefined => {
  const flat = bentFlat(whole);
  return plans.get(planKey(flat, shop, { metal })) ?? plans.get(planKey(flat, shop, { metal, ifBlocked: 'remedies' }));
};

/** `planPart`, remembered: a part whose geometry and shop did not change is not planned twice. */
export function* planOnce(whole: FlatPattern, shop: Shop, options: PlanOptions): Generator<Progress, Plan> {
  const flat = bentFlat(whole);
  const { metal, budget, ifBlocked = 'remedies' } = options;
  // What is to be found out about a blocked part makes no difference to one that is not.
  const ifFree = planKey(flat, shop, { metal, budget });
  const key = planKey(flat, shop, { metal, budget, ifBlocked });
  const plan =
    plans.get(ifFree) ??
    plans.get(key) ??
    (yield* planPart(flat, shop, {
      ...options,
      begun: takeBegun(planKey(flat, shop, { metal, budget: budget ?? PLAN_BUDGET })),
    }));
  plans.set(plan.outcome === 'impossible' ? key : ifFree, plan);
  return plan;
}
