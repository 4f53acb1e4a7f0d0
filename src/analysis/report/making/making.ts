import { gaugedOn } from '../../fold/bend-words.js';
import type { FlatPattern } from '../../fold/flat-pattern.js';
import { bendsWithinOf } from '../../model/shop/default-shop.js';
import { obstacleText, obstacleValues, remedyText, remedyValues } from '../../making/plan-wording.js';
import type { Plan, PlanStep } from '../../making/plan/plan.js';
import type { Stages } from '../../stages/stages.js';
import { reportDegrees, reportLength, reportRatio } from '../numbers.js';
import type { Column } from '../table.js';

export interface MakingReport {
  readonly shop: string;
  readonly is_default_shop: boolean;
  /** One entry for each part with bends, in the model's order. */
  readonly sequence: readonly PartSequence[];
}

export interface PartSequence {
  readonly part: string;
  readonly outcome: Plan['outcome'];
  /** The search ran to its end: fewest flips and turns, or no order at all. */
  readonly complete: boolean;
  readonly flips: number;
  readonly turns: number;
  readonly steps: readonly SequenceStep[];
  /** What is in the way, where there is no order. */
  readonly blocked: Blockage | null;
  /** Changes that free the part, each planned again with success; the smallest first. */
  readonly remedies: readonly (Readonly<Record<string, number | string>> & { readonly text: string })[];
}

export interface Blockage {
  readonly bend: string;
  readonly made: readonly string[];
  readonly text: string;
  readonly values: Readonly<Record<string, number | string>>;
}

export interface SequenceStep {
  readonly step: number;
  readonly bends: readonly string[];
  readonly machine: string;
  readonly machine_kind: PlanStep['setup']['machine']['kind'];
  /** Null on a folding brake. */
  readonly die_mm: number | null;
  readonly fingers_mm: readonly number[];
  readonly placement: PlanStep['placement'];
  readonly load: PlanStep['load'];
  readonly side_up: PlanStep['up'];
  /** To be done before this step. */
  readonly flip: boolean;
  readonly turn: boolean;
  /** Panel towards the back gauge; on a folding brake under the clamp. */
  readonly behind: string;
  /** From the back gauge to the bend line. */
  readonly stop_distance_mm: number;
  /** False: nothing straight lies at the stop; bend to the marked line. */
  readonly stop_square: boolean;
  /** Angle under load: the least of the band that springback lies in, and the most. */
  readonly bend_to_deg: number;
  readonly bend_to_at_most_deg: number;
  /** What a gauge zeroed on the one panel reads on the other after release. */
  readonly gauge_deg: number;
  readonly gauge_within_deg: number;
  /** The two panels that the gauge is laid on: zeroed on the one, read on the other. */
  readonly gauged: readonly [string, string];
  readonly press_flat: boolean;
  readonly force_kN: number | null;
  readonly length_mm: number;
  /** Metal that is bent over that length, gaps between tabs left out: what the force is reckoned with. */
  readonly bent_mm: number;
}

/** The bend plan of every part with bends. Plans what is not planned yet: seconds for a large tub. */
export const reportMaking = (stages: Stages): MakingReport => {
  const { shop, isDefaultShop } = stages.making();
  const within = reportDegrees(bendsWithinOf(shop));
  const flats = stages.flats();
  const sequence = stages.plans().flatMap((plan, i): PartSequence[] => {
    const flat = flats[i];
    if (!plan || !flat || plan.outcome === 'nothing to bend') return [];
    return [sequenceOf(flat, plan, within)];
  });
  return { shop: shop.name, is_default_shop: isDefaultShop, sequence };
};

/** The plan of one flat as it leaves; `within`: deg, to which bends are held. */
export const sequenceOf = (flat: FlatPattern, plan: Plan, within: number): PartSequence => ({
  part: flat.name,
  outcome: plan.outcome,
  complete: plan.complete,
  flips: plan.flips,
  turns: plan.turns,
  steps: plan.steps.map((step, i) => stepOf(flat, step, i + 1, within)),
  blocked: plan.blocked
    ? {
        bend: flat.bends[plan.blocked.bends[0]].name,
        made: bendNames(flat, plan.blocked.made),
        text: obstacleText(flat, plan.blocked),
        values: roundedValues(obstacleValues(flat, plan.blocked)),
      }
    : null,
  remedies: plan.remedies.map((remedy) => ({
    text: remedyText(flat, remedy),
    ...roundedValues(remedyValues(flat, remedy)),
  })),
});

const bendNames = (flat: FlatPattern, bends: readonly number[]): readonly string[] => [
  ...new Set(bends.map((bend) => flat.bends[bend].name)),
];

const roundedValues = (values: Readonly<Record<string, number | string>>): Readonly<Record<string, number | string>> =>
  Object.fromEntries(
    Object.entries(values).map(([key, value]) => [key, typeof value === 'number' ? reportRatio(value) : value]),
  );

const stepOf = (flat: FlatPattern, step: PlanStep, number: number, within: number): SequenceStep => ({
  step: number,
  bends: bendNames(flat, step.bends),
  machine: step.setup.machine.name,
  machine_kind: step.setup.machine.kind,
  die_mm: step.setup.die ?? null,
  fingers_mm: step.fingers.map(reportLength),
  placement: step.placement,
  load: step.load,
  side_up: step.up,
  flip: step.flip,
  turn: step.turn,
  behind: flat.panels[step.behind].name,
  stop_distance_mm: reportLength(step.stop.distance),
  stop_square: step.stop.square,
  bend_to_deg: reportDegrees(step.setup.bendTo),
  bend_to_at_most_deg: reportDegrees(step.setup.bendToAtMost),
  gauge_deg: reportDegrees(step.angle),
  gauge_within_deg: within,
  gauged: gaugedOn(flat, flat.bends[step.bends[0]]),
  press_flat: step.setup.flatten,
  force_kN: step.setup.force === undefined ? null : reportRatio(step.setup.force / 1000),
  length_mm: reportLength(step.length),
  bent_mm: reportLength(step.bent),
});

/** Strokes of a bend plan: what a table of them tells beside its words. */
export const STROKE_COLUMNS: readonly Column<SequenceStep>[] = [
  { key: 'step', head: 'Step', value: (row) => row.step },
  { key: 'stop_distance_mm', head: 'Stop', value: (row) => row.stop_distance_mm, places: 1 },
  { key: 'gauge_deg', head: 'Gauge reads', value: (row) => row.gauge_deg, places: 1 },
];
