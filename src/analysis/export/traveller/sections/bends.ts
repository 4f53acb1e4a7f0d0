import { bentFlat } from '../../../fold/bent-flat.js';
import type { FlatPattern } from '../../../fold/flat-pattern.js';
import type { Plan } from '../../../making/plan/plan.js';
import { namesOf, obstacleText } from '../../../making/plan-wording.js';
import { bendsWithinOf } from '../../../model/shop/default-shop.js';
import { FLAT_BEND_COLUMNS, flatBendRow } from '../../../report/making/bends.js';
import { sequenceOf, STROKE_COLUMNS, type SequenceStep } from '../../../report/making/making.js';
import { reportDegrees } from '../../../report/numbers.js';
import { BOX, WRITE, type Block, type Section } from '../layout/block.js';
import type { Stroke } from '../../../report/flats/numbered-strokes.js';
import { pieceNumber, strokesOf, type Job } from '../job.js';
import { partSeamBlocks } from './part-seams.js';
import { toldTable } from '../layout/told-table.js';
import { exactDegrees, gaugeDegrees, wordsIn, type Units } from '../layout/units.js';

/** Of one flat: a line a stroke, how the sheet lies, what it takes, what the gauge is to read and did read. Undefined: nothing is bent. */
export const bendSection = (job: Job, flat: FlatPattern): Section | undefined => {
  if (bentFlat(flat).bends.length === 0) return undefined;
  const plan = job.planOf(flat);
  const number = pieceNumber(job, flat);
  const pieces = flat.quantity > 1 ? `, ${flat.quantity} pieces` : '';
  const bent = job.flats.filter((each) => bentFlat(each).bends.length > 0);
  return {
    key: `bends-${number}`,
    title: `Bend plan ${number}: ${flat.name}${pieces}`,
    starts: 'follows',
    blocks: [
      ...(flat === bent[0] ? [GAUGE] : []),
      ...madeText(flat),
      ...planBlocks(job, flat, plan),
      ...partSeamBlocks(job, flat),
    ],
  };
};

const GAUGE: Block = {
  kind: 'text',
  text: 'Gauge: let go of the sheet, zero it on one panel beside the line, then read it on the other, and write it down. It reads the turn from flat; 180\u00b0 less that lie between their faces. \u201cBend to\u201d is the angle under load: the first figure for soft sheet, the second for sheet at its strongest. Try it on a strip of the same sheet first and correct every line by what the strip shows. Where a gauge reads less than the first or more than the second figure under \u201cType in beyond\u201d, stop: type the readings into the text before anything else is bent or cut, and go on by what it then says.',
};

/** Every order begins with what is made. */
const madeText = (flat: FlatPattern): Block[] => {
  const names = bentFlat(flat).bends.flatMap(({ name, isMade }) => (isMade ? [name] : []));
  return names.length === 0
    ? []
    : [{ kind: 'text', text: `Made and read already: ${names.join(', ')}. What follows is what is left.` }];
};

const planBlocks = (job: Job, flat: FlatPattern, plan: Plan): Block[] => {
  if (plan.outcome === 'nothing to bend') return [];
  if (plan.outcome !== 'planned')
    return [...unplannedNote(job, flat, plan), plainTable(job, flat, strokesOf(job, flat))];
  const within = exactDegrees(reportDegrees(bendsWithinOf(job.stages.making().shop)));
  return [
    {
      kind: 'text',
      text: `Turned over: ${plan.flips}. Turned round: ${plan.turns}. Bends are held within ${within}.${plan.complete ? '' : ' An order with fewer may exist: the search was cut short.'}`,
    },
    plannedTable(job, flat, plan),
  ];
};

const unplannedNote = ({ units }: Job, flat: FlatPattern, { outcome, blocked }: Plan): Block[] => {
  const order = 'The bends stand in the order of the part, not of bending.';
  if (outcome === 'not decided') return [{ kind: 'text', text: `The search for an order was cut short. ${order}` }];
  if (outcome !== 'impossible') return [];
  const why = blocked
    ? `: ${wordsIn(units, obstacleText(flat, blocked).replace(/`/g, ''))}, at ${namesOf(flat, blocked.bends).replace(/`/g, '')}`
    : '';
  return [{ kind: 'text', text: `No order of these bends clears the tools of the shop${why}. ${order}` }];
};

/** One line a stroke, in the order of the plan; what is bent in it stands in the plan alone. */
const plannedTable = ({ units, stages }: Job, flat: FlatPattern, plan: Plan): Block => {
  const { steps } = sequenceOf(flat, plan, reportDegrees(bendsWithinOf(stages.making().shop)));
  return toldTable(units, STROKE_COLUMNS, steps, [
    { head: 'Step', align: 'middle', share: 13, cell: ({ step }) => String(step) },
    { head: 'First', align: 'left', share: 24, cell: handlingText },
    { head: 'Bend', align: 'left', share: 31, cell: (_, i) => bendName(flat, plan.steps[i].bends) },
    { head: 'Machine', align: 'left', share: 34, cell: (step) => machineText(units, step) },
    { key: 'stop_distance_mm', share: 17 },
    { head: 'Bend to', align: 'right', share: 17, cell: bendToText },
    { key: 'gauge_deg', share: 18 },
    { head: 'Type in beyond', align: 'right', share: 21, cell: beyondText },
    { head: 'Read', align: 'left', share: 17, cell: () => WRITE },
    { head: 'Done', align: 'middle', share: 14, cell: () => BOX },
  ]);
};

/** What every gap is reckoned with: past it the plan no longer tells what comes next. */
const beyondText = ({ gauge_deg, gauge_within_deg }: SequenceStep): string =>
  `${gaugeDegrees(gauge_deg - gauge_within_deg)} or ${gaugeDegrees(gauge_deg + gauge_within_deg)}`;

const bendToText = (step: SequenceStep): string =>
  step.press_flat
    ? `${gaugeDegrees(step.bend_to_deg)}, then flat`
    : `${gaugeDegrees(step.bend_to_deg)} to ${gaugeDegrees(step.bend_to_at_most_deg)}`;

const handlingText = (step: SequenceStep): string => {
  const side = `${step.side_up} side up`;
  const moves = [...(step.flip ? ['turn over'] : []), ...(step.turn ? ['turn round'] : [])];
  if (step.step === 1) return `lay it ${side}`;
  return moves.length === 0 ? `as it lies, ${side}` : `${moves.join(' and ')}: ${side}`;
};

const bendName = (flat: FlatPattern, bends: readonly number[]): string =>
  bends.length === 1 ? flat.bends[bends[0]].name : `${flat.bends[bends[0]].name}, ${bends.length} in one stroke`;

const machineText = (units: Units, step: SequenceStep): string => {
  const tools = [
    step.machine,
    ...(step.die_mm === null ? [] : [`V ${units.tool(step.die_mm)}`]),
    ...(step.fingers_mm.length === 0
      ? []
      : [`fingers ${step.fingers_mm.map((width) => units.tool(width)).join(' + ')}`]),
    ...(step.force_kN === null ? [] : [units.forceOf(step.force_kN * 1000)]),
    ...(step.placement === 'middle' ? [] : [`at the ${step.placement}`]),
    ...(step.load === 'end' ? ['slide it in from the end'] : []),
    ...(step.stop_square ? [] : ['one point touches the stop: square it by eye']),
  ];
  return tools.join(', ');
};

/** Like bends together, in the order of the part. */
const plainTable = ({ units }: Job, flat: FlatPattern, strokes: readonly Stroke[]): Block =>
  toldTable(
    units,
    FLAT_BEND_COLUMNS,
    strokes.map(({ bends }) => flatBendRow(flat.bends[bends[0]])),
    [
      { head: 'Bend', align: 'middle', share: 13, cell: (_, i) => String(strokes[i].number) },
      { key: 'name', share: 70, head: 'Between' },
      { key: 'direction', share: 22 },
      { head: 'Bends', align: 'right', share: 18, cell: (_, i) => String(strokes[i].bends.length) },
      { key: 'angle_deg', share: 32, head: 'Gauge reads' },
      { head: 'Read', align: 'left', share: 20, cell: () => WRITE },
      { head: 'Done', align: 'middle', share: 20, cell: () => BOX },
    ],
  );
