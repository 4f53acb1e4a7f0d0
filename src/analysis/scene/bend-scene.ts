import type { FlatBend, FlatPattern } from '../fold/flat-pattern.js';
import { placeOfBend } from '../making/making.js';
import { obstacleText } from '../making/plan-wording.js';
import type { Plan } from '../making/plan/plan.js';
import { FLAT_BEND_COLUMNS, flatBendRow } from '../report/making/bends.js';
import { reportMaking, type PartSequence, type SequenceStep } from '../report/making/making.js';
import {
  blockedText,
  changesText,
  handlingText,
  orderText,
  stepFacts,
  stopText,
} from '../report/making/making-text.js';
import { toFacts } from '../report/table.js';
import type { Bend } from '../shape/shape.js';
import type { Stages } from '../stages/stages.js';
import { gaugedOn, gaugeWords } from '../fold/bend-words.js';
import { inMm } from '../model/wording.js';
import { drawn2, drawn3, drawnAngle, drawnDegrees, drawnLength, drawnUnit, note } from './drawn.js';
import { partKey } from './flat-scene.js';
import type { DrawnMove } from './items/drawn-shapes.js';
import type { BendStepItem, SceneEntry } from './scene-items.js';
import { boxOf, sectionsOf, type Sections, type Stroke, type StrokeSection } from './stroke-section.js';

/**
 * The bending order of each part, step by step with the tools; the plain bends of a part that has no order. Asks for the
 * plans, which may take seconds for parts that are new: whoever is in a hurry runs `planTub` in steps first.
 */
export const bendScene = (stages: Stages): SceneEntry[] => {
  const { bends } = stages.shape();
  if (bends.length === 0) return [note('no-bends', 'No bend yet: no two panels are joined by one', stages.tub.at)];
  const sequences = new Map(reportMaking(stages).sequence.map((sequence) => [sequence.part, sequence]));
  const plans = stages.plans();
  const entries = stages.flats().flatMap((flat, i): SceneEntry[] => {
    const sequence = flat && sequences.get(flat.name);
    return flat && sequence && plans[i] ? partEntries(stages, flat, plans[i], sequence, i) : [];
  });
  return [...shopNote(stages), ...entries, ...unplacedBends(stages)];
};

const shopNote = ({ making, tub }: Stages): SceneEntry[] =>
  making().isDefaultShop
    ? [
        note(
          'default-shop',
          'No shop is stated: the order is for the shop that the manual describes, not for yours',
          tub.at,
        ),
      ]
    : [];

const partEntries = (
  stages: Stages,
  flat: FlatPattern,
  plan: Plan,
  sequence: PartSequence,
  index: number,
): SceneEntry[] => {
  const part = partKey(flat);
  const head: SceneEntry = {
    key: `order:${flat.name}`,
    at: placeOfBend(stages.tub, stages.shape(), flat, flat.bends[0]),
    item: {
      kind: 'bend-order',
      order: index * PART,
      part,
      name: flat.name,
      told: {
        what: `Part ${flat.name}`,
        facts: [
          orderText(sequence),
          ...(sequence.blocked ? [`bend ${blockedText(sequence.blocked)}`] : []),
          ...sequence.remedies.map(({ text }) => text),
        ].map((fact) => fact.replaceAll('`', '')),
      },
    },
  };
  const sections = sectionsOf(flat, stages.making().shop);
  if (plan.outcome !== 'planned')
    return [
      head,
      ...blockedEntry(stages, flat, plan, index * PART + 1, sections),
      ...flat.bends.map((bend, i) => flatBendEntry(stages, flat, bend, index * PART + i + 2)),
    ];
  return [
    head,
    ...plan.steps.map((step, i): SceneEntry => ({
      key: `step:${flat.name} ${i + 1}`,
      at: placeOfBend(stages.tub, stages.shape(), flat, flat.bends[step.bends[0]]),
      item: {
        kind: 'bend-step',
        order: index * PART + i + 1,
        part,
        bends: sequence.steps[i].bends,
        told: {
          what: sequence.steps[i].bends.join(', '),
          facts: stepFacts(sequence.steps[i], { before: sequence.steps[i - 1] }),
        },
        ...drawnStroke(sections.ofStep(plan.steps, i), sequence.steps[i], sequence.steps[i - 1]),
      },
    })),
  ];
};

/** Items of one part stand together in the order of all: more than a part has bends. */
const PART = 100_000;

/** What is in the way of a part that has no order, as far as it can be shown. */
const blockedEntry = (
  stages: Stages,
  flat: FlatPattern,
  { blocked }: Plan,
  order: number,
  { ofBlocked }: Sections,
): SceneEntry[] => {
  const section = blocked && ofBlocked(blocked);
  if (!section || blocked.obstacle.kind !== 'tool') return [];
  const bends = [...new Set(blocked.bends.map((bend) => flat.bends[bend].name))];
  return [
    {
      key: `blocked:${flat.name}`,
      at: placeOfBend(stages.tub, stages.shape(), flat, flat.bends[blocked.bends[0]]),
      item: {
        kind: 'bend-step',
        order,
        part: partKey(flat),
        bends,
        told: {
          what: `In the way: ${bends.join(', ')}`,
          facts: [obstacleText(flat, blocked).replaceAll('`', '')],
        },
        ...drawnSection(section),
        ...NOT_PLANNED,
        hit: blocked.obstacle.tool,
      },
    },
  ];
};

type DrawnStroke = DrawnSection & Pick<BendStepItem, 'lies' | 'stop' | 'before'>;

const NOT_PLANNED = { lies: undefined, stop: undefined, before: { text: '' } };

const drawnStroke = (
  stroke: Stroke | undefined,
  step: SequenceStep,
  before: SequenceStep | undefined,
): DrawnStroke => ({
  ...drawnSection(stroke?.section),
  lies: stroke && {
    up: step.side_up,
    heading: drawnAngle(stroke.part.pose.heading),
    pieces: stroke.part.pieces.map((piece) => piece.map(drawn3)),
  },
  stop: step.stop_square ? { distance: drawnLength(step.stop_distance_mm), text: stopText(step) } : undefined,
  before: { text: [...handlingText(step), ...changesText(step, before)].join('; ') },
});

type DrawnSection = Pick<BendStepItem, 'states_deg' | 'tools' | 'sides' | 'bend' | 'box' | 'hit'>;

const drawnSection = (section: StrokeSection | undefined): DrawnSection => {
  if (!section) return { states_deg: [], tools: [], sides: [], bend: [], box: [0, 0, 1, 1], hit: undefined };
  const [left, bottom, right, top] = boxOf(section);
  return {
    states_deg: section.angles.map(drawnDegrees),
    tools: section.tools.map(({ name, outline, moves }) => ({
      name,
      outline: outline.map(drawn2),
      moves: moves?.map(drawnMove),
    })),
    sides: section.sides.map(({ mirrored, outlines, moves }) => ({
      mirrored,
      outlines: outlines.map((outline) => outline.map(drawn2)),
      moves: moves.map(drawnMove),
    })),
    bend: section.bend.map((pieces) => pieces.map((piece) => piece.map(drawn2))),
    box: [drawnLength(left), drawnLength(bottom), drawnLength(right), drawnLength(top)],
    hit: undefined,
  };
};

const drawnMove = ([c, s, x, y]: DrawnMove): DrawnMove => {
  const [cos, sin] = drawnUnit([c, s, 0]);
  return [cos, sin, drawnLength(x), drawnLength(y)];
};

const flatBendEntry = (stages: Stages, flat: FlatPattern, flatBend: FlatBend, order: number): SceneEntry => {
  const bend: Bend | undefined = flatBend.bend === undefined ? undefined : stages.shape().bends[flatBend.bend];
  return {
    key: `bend:${flatBend.name}`,
    at: placeOfBend(stages.tub, stages.shape(), flat, flatBend),
    item: {
      kind: 'bend-row',
      order,
      part: partKey(flat),
      name: flatBend.name,
      direction: flatBend.direction,
      angle_deg: drawnDegrees(flatBend.angle),
      radius_mm: drawnLength(flatBend.radius),
      told: {
        what: flatBend.name,
        facts: [
          gaugeWords(flatBend.angle, gaugedOn(flat, flatBend)),
          ...toFacts(FLAT_BEND_COLUMNS, flatBendRow(flatBend)),
          ...(bend ? [`deduction ${inMm(bend.deduction)}`] : []),
        ],
      },
    },
  };
};

/** Bends of parts that cannot be laid flat: nothing can be planned for them. */
const unplacedBends = (stages: Stages): SceneEntry[] => {
  const placed = new Set(stages.flats().flatMap((flat) => (flat?.bends ?? []).flatMap(({ bend }) => bend ?? [])));
  return stages
    .shape()
    .bends.filter(({ index }) => !placed.has(index))
    .map((bend): SceneEntry =>
      note(
        `no-flat-bend:${bend.name}`,
        `Bend \`${bend.name}\` is in no flat pattern, so it is in no bending order`,
        bend.at,
      ),
    );
};
