import type { FlatPattern } from '../../../fold/flat-pattern.js';
import { namesOf, obstacleText } from '../../../making/plan-wording.js';
import type { Plan, PlanStep } from '../../../making/plan/plan.js';
import { BOX, type Block, type Cell, type Column, type Section } from '../block.js';
import { pieceNumber, strokesOf, type Job, type Stroke } from '../job.js';
import { degreesOf, wordsIn } from '../units.js';

/** One line a stroke: how the sheet lies, what it takes, and what the gauge is to read. Undefined: nothing is bent. */
export const bendSection = (job: Job): Section | undefined => {
  const bent = job.flats.filter((flat) => flat.bends.length > 0);
  if (bent.length === 0) return undefined;
  return {
    title: 'Bend plan',
    starts: 'sheet',
    blocks: [
      {
        kind: 'text',
        text: 'Gauge: zero it on the panel behind the line, let go of the sheet, then read it on the other panel. \u201cBend to\u201d is the angle under load: the first figure for soft sheet, the second for sheet at its strongest. Try it on a strip of the same sheet first and correct every line by what the strip shows.',
      },
      ...bent.flatMap((flat) => planBlocks(job, flat)),
    ],
  };
};

const planBlocks = (job: Job, flat: FlatPattern): Block[] => {
  const plan = job.planOf(flat);
  const strokes = strokesOf(job, flat);
  const head: Block = {
    kind: 'text',
    weight: 'bold',
    text: `${pieceNumber(job, flat)}  ${flat.name}${flat.quantity > 1 ? `, ${flat.quantity} pieces` : ''}`,
  };
  if (plan.outcome === 'planned') {
    const note: Block = {
      kind: 'text',
      text: `Turned over: ${plan.flips}. Turned round: ${plan.turns}.${plan.complete ? '' : ' An order with fewer may exist: the search was cut short.'}`,
    };
    return [
      head,
      note,
      { kind: 'table', columns: plannedColumns(job), rows: strokes.map((stroke) => plannedRow(job, flat, stroke)) },
    ];
  }
  return [
    head,
    ...unplannedNote(job, flat, plan),
    { kind: 'table', columns: plainColumns, rows: strokes.map((stroke) => plainRow(flat, stroke)) },
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

const plannedColumns = (job: Job): readonly Column[] => [
  { head: 'Step', align: 'middle', share: 13 },
  { head: 'First', align: 'left', share: 27 },
  { head: 'Bend', align: 'left', share: 35 },
  { head: 'Machine', align: 'left', share: 38 },
  { head: `Stop, ${job.units.lengthUnit}`, align: 'right', share: 17 },
  { head: 'Bend to', align: 'right', share: 17 },
  { head: 'Gauge reads', align: 'right', share: 18 },
  { head: 'Done', align: 'middle', share: 14 },
];

const plannedRow = (job: Job, flat: FlatPattern, { number, bends, step }: Stroke): readonly Cell[] => {
  const bend = flat.bends[bends[0]];
  if (!step) return [];
  return [
    String(number),
    handlingText(step, number),
    bendName(flat, bends),
    machineText(job, step),
    job.units.length(step.stop.distance),
    bendToText(step),
    degreesOf(bend.angle),
    BOX,
  ];
};

const bendToText = ({ setup }: PlanStep): string =>
  setup.flatten
    ? `${degreesOf(setup.bendTo)}, then flat`
    : `${degreesOf(setup.bendTo)} to ${degreesOf(setup.bendToAtMost)}`;

const handlingText = (step: PlanStep, number: number): string => {
  const side = `${step.up} side up`;
  const moves = [...(step.flip ? ['turn over'] : []), ...(step.turn ? ['turn round'] : [])];
  if (number === 1) return `lay it ${side}`;
  return moves.length === 0 ? `as it lies, ${side}` : `${moves.join(' and ')}: ${side}`;
};

const bendName = (flat: FlatPattern, bends: readonly number[]): string =>
  bends.length === 1 ? flat.bends[bends[0]].name : `${flat.bends[bends[0]].name}, ${bends.length} in one stroke`;

const machineText = (job: Job, step: PlanStep): string => {
  const { units } = job;
  const tools = [
    step.setup.machine.name,
    ...(step.setup.die === undefined ? [] : [`V ${units.tool(step.setup.die)}`]),
    ...(step.fingers.length === 0 ? [] : [`fingers ${step.fingers.map((width) => units.tool(width)).join(' + ')}`]),
    ...(step.setup.force === undefined ? [] : [units.forceOf(step.setup.force)]),
    ...(step.placement === 'middle' ? [] : [`at the ${step.placement}`]),
    ...(step.load === 'end' ? ['slide it in from the end'] : []),
    ...(step.stop.square ? [] : ['one point touches the stop: square it by eye']),
  ];
  return tools.join(', ');
};

const plainColumns: readonly Column[] = [
  { head: 'Bend', align: 'middle', share: 13 },
  { head: 'Between', align: 'left', share: 70 },
  { head: 'Way', align: 'left', share: 22 },
  { head: 'Bends', align: 'right', share: 18 },
  { head: 'Gauge reads', align: 'right', share: 32 },
  { head: 'Done', align: 'middle', share: 20 },
];

const plainRow = (flat: FlatPattern, { number, bends }: Stroke): readonly Cell[] => {
  const bend = flat.bends[bends[0]];
  return [String(number), bend.name, bend.direction, String(bends.length), degreesOf(bend.angle), BOX];
};
