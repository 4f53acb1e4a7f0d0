/** The bend plan in words: for the terminal, the page about a tub, and the preview. */
import { gaugeWords } from '../../fold/bend-words.js';
import { fixed, inDeg, inMm, named } from '../../model/wording.js';
import type { Blockage, MakingReport, PartSequence, SequenceStep } from './making.js';

const CAUTION =
  "Keep hands and lips of sheet clear of punch, clamp and leaf; guards stay on. The brake maker's limits and local rules govern; forces and springback are guides, so try a piece of the same sheet first.";

/** Numbered lines for each part, for a terminal or a page; empty when there is nothing to bend. */
export const makingText = ({ sequence }: MakingReport): string => {
  if (sequence.length === 0) return '';
  return [...sequence.map(partText), CAUTION].join('\n\n');
};

const partText = (row: PartSequence): string => {
  const lines = row.steps.map(
    (step, i) =>
      `${step.step}. ${[step.bends.map(named).join(', '), ...stepFacts(step, { naming: named, before: row.steps[i - 1] })].join('; ')}`,
  );
  const blocked = row.blocked ? [`   Bend ${blockedText(row.blocked, named)}.`] : [];
  const remedies = row.remedies.map(({ text }) => `   - ${text}.`);
  const frees = remedies.length > 0 ? ['   What frees it (each planned again):'] : [];
  return [`${named(row.part)}: ${orderText(row)}`, ...lines, ...blocked, ...frees, ...remedies].join('\n');
};

/** How names stand among the words: `named` where they would be taken for words or marks, as they are elsewhere. */
type Naming = (name: string) => string;
const bare: Naming = (name) => name;

export const blockedText = ({ bend, made, text }: Blockage, naming: Naming = bare): string => {
  const after = made.length === 0 ? '' : `, with ${made.map(naming).join(', ')} made`;
  return `${naming(bend)}${after}: ${text}`;
};

const counted = (count: number, what: string): string => `${count} ${what}${count === 1 ? '' : 's'}`;

/** What is known of a part's order. */
export const orderText = ({ outcome, complete, flips, turns, steps }: PartSequence): string => {
  if (outcome === 'impossible') return 'cannot be bent in any order on these machines';
  if (outcome === 'not decided') return 'no order found within the search; it may still exist';
  const proof = complete ? 'no order needs fewer' : 'stopped early, an order with fewer may exist';
  return `${counted(steps.length, 'stroke')}, ${counted(flips, 'flip')}, ${counted(turns, 'turn')} (${proof})`;
};

/** One stroke: what to do before it, how the sheet lies, the tools, the stop, the angles, and what it takes. */
export const stepFacts = (step: SequenceStep, { naming = bare, before }: Telling): string[] => [
  ...handlingText(step),
  ...changesText(step, before),
  `${step.side_up} side up, ${naming(step.behind)} ${step.machine_kind === 'press brake' ? 'to the stop' : 'in the clamp'}`,
  `${naming(step.machine)}${step.die_mm === null ? '' : `, ${inMm(step.die_mm)} die`}, ${fingersText(step)}`,
  ...(step.placement === 'middle' ? [] : [`at the ${step.placement} of the bed`]),
  ...(step.load === 'front' ? [] : ['slide it in from the end']),
  stopText(step),
  angleText(step, naming),
  `${inMm(step.length_mm)} long${step.bent_mm < step.length_mm ? `, ${inMm(step.bent_mm)} of it bent` : ''}${step.force_kN === null ? '' : `, ${fixed(step.force_kN, 1)} kN`}`,
];

interface Telling {
  readonly naming?: Naming;
  /** The stroke before it; undefined: it is the first. */
  readonly before: SequenceStep | undefined;
}

/** What is done with the part before a stroke. */
export const handlingText = ({ flip, turn }: SequenceStep): string[] => {
  const ways = [...(flip ? ['over'] : []), ...(turn ? ['round'] : [])];
  return ways.length === 0 ? [] : [`turn the part ${ways.join(' and ')}`];
};

/** What is changed at the machine after the stroke before. */
export const changesText = (step: SequenceStep, before: SequenceStep | undefined): string[] => {
  if (!before) return [];
  if (step.machine !== before.machine) return [`go to ${step.machine}`];
  const changed = [
    ...(step.die_mm === before.die_mm || step.die_mm === null ? [] : [`the ${inMm(step.die_mm)} die`]),
    ...(step.fingers_mm.join() === before.fingers_mm.join() ? [] : [fingersText(step)]),
  ];
  return changed.length === 0 ? [] : [`change to ${changed.join(' and ')}`];
};

const fingersText = ({ fingers_mm }: SequenceStep): string => `fingers ${fingers_mm.join(' + ')} mm`;

export const stopText = (step: SequenceStep): string =>
  step.stop_square ? `stop at ${inMm(step.stop_distance_mm)}` : 'to the marked line: nothing straight lies at the stop';

const angleText = (step: SequenceStep, naming: Naming): string => {
  const [one, other] = step.gauged;
  return step.press_flat
    ? `bend to ${degrees(step.bend_to_deg)}, then press flat`
    : `bend to ${degrees(step.bend_to_deg)} up to ${degrees(step.bend_to_at_most_deg)}, until it is ${gaugeWords(toRad(step.gauge_deg), [naming(one), naming(other)], toRad(step.gauge_within_deg))}`;
};

const toRad = (deg: number): number => (deg * Math.PI) / 180;
const degrees = (deg: number): string => inDeg(toRad(deg));
