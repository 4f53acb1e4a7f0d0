import { bentFlat } from '../../fold/bent-flat.js';
import type { FlatPattern } from '../../fold/flat-pattern.js';
import type { Plan, PlanStep } from '../../making/plan/plan.js';

/** A stroke of the brake with what is bent in it; without a plan, one for each group of like bends, in the flat's order. */
export interface Stroke {
  /** From 1. */
  readonly number: number;
  /** Indices into the bends of the flat. */
  readonly bends: readonly number[];
  readonly step: PlanStep | undefined;
}

/** The strokes of a flat by their numbers, as its drawing on paper and on the screen bears them. */
export const numberedStrokes = (flat: FlatPattern, plan: Plan): Stroke[] => {
  if (plan.outcome === 'planned') return plan.steps.map((step, i) => ({ number: i + 1, bends: step.bends, step }));
  const groups = new Map<string, number[]>();
  bentFlat(flat).bends.forEach((bend, i) => {
    const key = [bend.name, bend.direction, bend.angle.toFixed(6), bend.radius].join('|');
    groups.set(key, [...(groups.get(key) ?? []), i]);
  });
  return [...groups.values()].map((bends, i) => ({ number: i + 1, bends, step: undefined }));
};
