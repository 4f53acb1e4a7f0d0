/** Is there any bending order? What is cheap enough for every keystroke. */
import type { FlatPattern } from '../../fold/flat-pattern.js';
import type { Material, Shop } from '../../model/tub.js';
import { Recent } from '../../cache/lru-cache.js';
import { findBlocked } from './blocked.js';
import { planKey } from './plan-key.js';
import type { Blocked } from './plan.js';
import { isOrder, searchAnyOrder, type OrderChoice, type Progress } from './search.js';
import { stepChecker } from './step-check.js';

/** Sides held against tools: some 30 ms. A part that needs more is left to the bend plan. */
const BUDGET = 150;

/** Parts kept: more than any tub has, as each is looked at on every keystroke. */
const KEPT = 4096;

export interface AnyOrder {
  /** Every order was shown to be blocked. */
  readonly isImpossible: boolean;
  /** What is in the way then, as far as it was found. */
  readonly blocked: Blocked | undefined;
}

/** By what it depends on. */
const known = new Recent<AnyOrder>(KEPT);

/** By the name of the part: the order that was found last. */
const orders = new Recent<readonly OrderChoice[]>(KEPT);

/**
 * Whether a part can be bent in some order, as far as the budget tells. The order that did before an edit mostly does after
 * it, and is tried first; only whether there is one comes back, which does not depend on what was seen.
 */
export function* findAnyOrder(flat: FlatPattern, shop: Shop, material: Material): Generator<Progress, AnyOrder> {
  const key = planKey(flat, shop, { material, budget: BUDGET });
  const result = known.get(key) ?? (yield* look(flat, shop, material));
  known.set(key, result);
  return result;
}

function* look(flat: FlatPattern, shop: Shop, material: Material): Generator<Progress, AnyOrder> {
  const possible = { isImpossible: false, blocked: undefined };
  const before = orders.get(flat.name);
  if (before && isOrder(stepChecker(flat, shop, material), before)) return possible;
  // A checker of its own: what was held against tools already costs the search nothing, and the budget must mean the same.
  const checker = stepChecker(flat, shop, material);
  const found = yield* searchAnyOrder(checker, BUDGET);
  if (found.kind === 'found') orders.set(flat.name, found.steps);
  if (found.kind !== 'none') return possible;
  return { isImpossible: true, blocked: yield* findBlocked(flat, checker, BUDGET) };
}
