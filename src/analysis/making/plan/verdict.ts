/** Is there any bending order of a part? One verdict for whoever asks, and what is open while typing. */
import { bentFlat } from '../../fold/bent-flat.js';
import type { FlatPattern } from '../../fold/flat-pattern.js';
import type { Metal, Shop } from '../../model/tub.js';
import { LruCache } from '../../cache/lru-cache.js';
import { keepBegun } from './begun.js';
import { findBlocked } from './blocked.js';
import { planKey } from './plan-key.js';
import { PLAN_BUDGET } from './plan-part.js';
import type { Blocked } from './plan.js';
import { isOrder, searchAnyOrder, withAllDies, type OrderChoice, type Progress } from './search.js';
import { stepChecker } from './stroke/step-check.js';

/** `live`: what a keystroke has time for. `full`: as far as the bend plan looks, so that both say the same. */
export type Effort = 'live' | 'full';

export type Verdict =
  | { readonly kind: 'possible' }
  /** Every order was shown to be blocked; what is in the way, as far as it was found. */
  | { readonly kind: 'impossible'; readonly blocked: Blocked | undefined }
  /** The search ended before either was shown; how many looks it took. */
  | { readonly kind: 'not decided'; readonly tried: number };

/** Looks in each of the searches, with the dies of the charts and with all: some 40 ms. */
const LIVE_BUDGET = 250;

/** Bends. Of a larger part nothing is held against tools while typing: setting up its search takes too long. */
const LIVE_BENDS = 40;

/** Verdicts kept: more than any tub has parts, as each is looked at on every keystroke. */
const KEPT = 4096;

/** By what it depends on, effort included. */
const known = new LruCache<Verdict>(KEPT);

/** By the name of the part: the order that was found last. */
const orders = new LruCache<readonly OrderChoice[]>(KEPT);

/**
 * Whether a part can be bent in some order. A full verdict is that of the bend plan. A live one is the same wherever it is
 * decided; whether it is may depend on what was seen before: a full verdict on the same part, or the order that did before an
 * edit, which mostly does after it.
 */
export function* decide(whole: FlatPattern, shop: Shop, metal: Metal, effort: Effort): Generator<Progress, Verdict> {
  const flat = bentFlat(whole);
  const full = planKey(flat, shop, { metal, budget: PLAN_BUDGET });
  const key = effort === 'full' ? full : planKey(flat, shop, { metal, budget: LIVE_BUDGET });
  const verdict = known.get(full) ?? known.get(key) ?? (yield* look(flat, shop, metal, effort));
  known.set(key, verdict);
  return verdict;
}

function* look(flat: FlatPattern, shop: Shop, metal: Metal, effort: Effort): Generator<Progress, Verdict> {
  if (effort === 'live' && flat.bends.length > LIVE_BENDS) return { kind: 'not decided', tried: 0 };
  // The bend plan knows no earlier order, and a full verdict is to be the plan's.
  const before = effort === 'live' ? orders.get(flat.name) : undefined;
  if (before && isOrder(stepChecker(flat, shop, metal), before)) return { kind: 'possible' };
  // A checker of its own: what was held against tools already costs the search nothing, and the budget must mean the same.
  const checker = stepChecker(flat, shop, metal);
  const budget = effort === 'full' ? PLAN_BUDGET : LIVE_BUDGET;
  const { checker: able, found } = yield* withAllDies(flat, shop, metal, checker, (one) => searchAnyOrder(one, budget));
  if (found.kind === 'unknown') return { kind: 'not decided', tried: Math.ceil(checker.work()) };
  if (found.kind === 'none') return { kind: 'impossible', blocked: yield* findBlocked(flat, checker, budget) };
  if (effort === 'full') keepBegun(planKey(flat, shop, { metal, budget }), { usual: checker, checker: able, found });
  orders.set(flat.name, found.steps);
  return { kind: 'possible' };
}
