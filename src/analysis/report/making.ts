import type { FlatPattern } from '../fold/flat-pattern.js';
import { bendsWithinOf } from '../model/default-shop.js';
import { obstacleText, obstacleValues, remedyText, remedyValues } from '../making/plan-wording.js';
import type { Plan, PlanStep } from '../making/plan/plan.js';
import type { Stages } from '../stages/stages.js';
import { inDeg, inMm, named } from '../model/wording.js';
import { reportDegrees, reportLength, reportRatio } from './numbers.js';

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
  readonly press_flat: boolean;
  readonly force_kN: number | null;
  readonly length_mm: number;
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

const sequenceOf = (flat: FlatPattern, plan: Plan, within: number): PartSequence => ({
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
  press_flat: step.setup.flatten,
  force_kN: step.setup.force === undefined ? null : reportRatio(step.setup.force / 1000),
  length_mm: reportLength(step.length),
});

const CAUTION =
  "Keep hands and lips of sheet clear of punch, clamp and leaf; guards stay on. The brake maker's limits and local rules govern; forces and springback are guides, so try a piece of the same sheet first.";

/** Numbered lines for each part, for a terminal or a page; empty when there is nothing to bend. */
export const makingText = ({ sequence }: MakingReport): string => {
  if (sequence.length === 0) return '';
  return [...sequence.map(partText), CAUTION].join('\n\n');
};

const partText = (row: PartSequence): string => {
  const head = `${named(row.part)}: ${summaryOf(row)}`;
  const lines = row.steps.map(stepText);
  const blocked = row.blocked
    ? [`   Bend ${named(row.blocked.bend)}${afterText(row.blocked.made)}: ${row.blocked.text}.`]
    : [];
  const remedies = row.remedies.map(({ text }) => `   - ${text}.`);
  const frees = remedies.length > 0 ? ['   What frees it (each planned again):'] : [];
  return [head, ...lines, ...blocked, ...frees, ...remedies].join('\n');
};

const afterText = (made: readonly string[]): string =>
  made.length === 0 ? '' : `, with ${made.map(named).join(', ')} made`;

const counted = (count: number, what: string): string => `${count} ${what}${count === 1 ? '' : 's'}`;

const summaryOf = ({ outcome, complete, flips, turns, steps }: PartSequence): string => {
  if (outcome === 'impossible') return 'cannot be bent in any order on these machines';
  if (outcome === 'not decided') return 'no order found within the search; it may still exist';
  const proof = complete ? 'no order needs fewer' : 'stopped early, an order with fewer may exist';
  return `${counted(steps.length, 'stroke')}, ${counted(flips, 'flip')}, ${counted(turns, 'turn')} (${proof})`;
};

const stepText = (step: SequenceStep): string => {
  const handling = [step.flip ? 'flip' : '', step.turn ? 'turn' : ''].filter((word) => word !== '');
  const parts = [
    `${step.step}. ${step.bends.map(named).join(', ')}`,
    ...(handling.length > 0 ? [`${handling.join(' and ')} the part`] : []),
    `${step.side_up} side up, ${named(step.behind)} ${step.machine_kind === 'press brake' ? 'to the stop' : 'in the clamp'}`,
    `${named(step.machine)}${step.die_mm === null ? '' : ` ${inMm(step.die_mm)} die`}, fingers ${step.fingers_mm.map((width) => String(width)).join(' + ')} mm`,
    ...(step.placement === 'middle' ? [] : [`at the ${step.placement} of the bed`]),
    ...(step.load === 'front' ? [] : ['slide it in from the end']),
    step.stop_square ? `stop at ${inMm(step.stop_distance_mm)}` : 'to the marked line',
    step.press_flat
      ? `bend to ${degrees(step.bend_to_deg)}, then press flat`
      : `bend to ${degrees(step.bend_to_deg)} up to ${degrees(step.bend_to_at_most_deg)}, until the gauge reads ${degrees(step.gauge_deg)} ± ${degrees(step.gauge_within_deg)}`,
  ];
  return parts.join('; ');
};

const degrees = (deg: number): string => inDeg((deg * Math.PI) / 180);
