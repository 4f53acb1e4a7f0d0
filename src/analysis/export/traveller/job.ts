/** All that the pages of a traveller are made from, looked up once. */
import type { FlatPattern, FoldedPart } from '../../fold/flat-pattern.js';
import { flatsToCut } from '../../fold/flats-to-cut.js';
import { shopOf } from '../../making/default-shop.js';
import { planInOneGo } from '../../making/plan/plan-part.js';
import type { Plan, PlanStep } from '../../making/plan/plan.js';
import type { Nest } from '../../nest/nest.js';
import type { Stages } from '../../stages.js';
import type { Tub } from '../../model.js';
import { sceneryOf, type Scenery } from './folded-figure.js';
import type { Units } from './units.js';

export interface Job {
  readonly stages: Stages;
  readonly tub: Tub;
  readonly units: Units;
  readonly flats: readonly FlatPattern[];
  readonly nest: Nest;
  readonly scenery: Scenery;
  /** The bend plan of a flat, searched when first asked for. */
  readonly planOf: (flat: FlatPattern) => Plan;
}

export const jobOf = (stages: Stages, units: Units, nest: Nest): Job => ({
  stages, units, nest,
  tub: stages.tub,
  flats: flatsToCut(stages),
  scenery: sceneryOf(stages.folded().filter((part): part is FoldedPart => part !== undefined)),
  planOf: plannerOf(stages.tub),
});

const plannerOf = (tub: Tub): Job['planOf'] => {
  const plans = new Map<FlatPattern, Plan>();
  return (flat) => {
    const plan = plans.get(flat) ?? planInOneGo(flat, shopOf(tub), { material: tub.sheets[flat.sheet].material, remedies: 'none' });
    plans.set(flat, plan);
    return plan;
  };
};

/** `3`: the number of a piece in the parts list. */
export const pieceNumber = (job: Job, flat: FlatPattern): string => String(job.flats.indexOf(flat) + 1);

/** A stroke of the brake with what is bent in it; without a plan, one for each group of like bends, in the flat's order. */
export interface Stroke {
  readonly number: number;
  readonly bends: readonly number[];
  readonly step: PlanStep | undefined;
}

export const strokesOf = (job: Job, flat: FlatPattern): Stroke[] => {
  const plan = job.planOf(flat);
  if (plan.outcome === 'planned') return plan.steps.map((step, i) => ({ number: i + 1, bends: step.bends, step }));
  const groups = new Map<string, number[]>();
  flat.bends.forEach((bend, i) => {
    const key = [bend.name, bend.direction, bend.angle.toFixed(6), bend.radius].join('|');
    groups.set(key, [...(groups.get(key) ?? []), i]);
  });
  return [...groups.values()].map((bends, i) => ({ number: i + 1, bends, step: undefined }));
};
