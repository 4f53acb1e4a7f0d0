/** The bend plan in words: for the terminal, the page about a tub, and the preview. */
import { fixed, inDeg, inMm, named } from '../model/wording.js';
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
    (step) => `${step.step}. ${[step.bends.map(named).join(', '), ...stepFacts(step, named)].join('; ')}`,
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
export const stepFacts = (step: SequenceStep, naming: Naming = bare): string[] => {
  const handling = [step.flip ? 'flip' : '', step.turn ? 'turn' : ''].filter((word) => word !== '');
  return [
    ...(handling.length > 0 ? [`${handling.join(' and ')} the part`] : []),
    `${step.side_up} side up, ${naming(step.behind)} ${step.machine_kind === 'press brake' ? 'to the stop' : 'in the clamp'}`,
    `${naming(step.machine)}${step.die_mm === null ? '' : `, ${inMm(step.die_mm)} die`}, fingers ${step.fingers_mm.join(' + ')} mm`,
    ...(step.placement === 'middle' ? [] : [`at the ${step.placement} of the bed`]),
    ...(step.load === 'front' ? [] : ['slide it in from the end']),
    step.stop_square
      ? `stop at ${inMm(step.stop_distance_mm)}`
      : 'to the marked line: nothing straight lies at the stop',
    angleText(step),
    `${inMm(step.length_mm)} long${step.bent_mm < step.length_mm ? `, ${inMm(step.bent_mm)} of it bent` : ''}${step.force_kN === null ? '' : `, ${fixed(step.force_kN, 1)} kN`}`,
  ];
};

const angleText = (step: SequenceStep): string =>
  step.press_flat
    ? `bend to ${degrees(step.bend_to_deg)}, then press flat`
    : `bend to ${degrees(step.bend_to_deg)} up to ${degrees(step.bend_to_at_most_deg)}, until the gauge reads ${degrees(step.gauge_deg)} ± ${degrees(step.gauge_within_deg)}`;

const degrees = (deg: number): string => inDeg((deg * Math.PI) / 180);
