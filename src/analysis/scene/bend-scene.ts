import type { FlatBend, FlatPattern } from '../fold/flat-pattern.js';
import { placeOfBend } from '../making/making.js';
import { obstacleText } from '../making/plan-wording.js';
import type { Plan } from '../making/plan/plan.js';
import { reportMaking, type PartSequence, type SequenceStep } from '../report/making.js';
import type { Bend } from '../shape/shape.js';
import type { Stages } from '../stages/stages.js';
import { gaugeWords, turnWords } from '../fold/bend-words.js';
import { inMm, plain } from '../model/wording.js';
import { drawn2, drawnDegrees, drawnLength, drawnUnit, note } from './drawn.js';
import { partKey } from './flat-scene.js';
import type { BendStepItem, SceneEntry } from './scene-items.js';
import { boxOf, sectionsOf, type Move, type Sections, type StrokeSection } from './stroke-section.js';

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
      text: orderWords(sequence),
      remedies: sequence.remedies.map(({ text }) => text),
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
        title: sequence.steps[i].bends.join(', '),
        facts: stepFacts(sequence.steps[i]),
        ...drawnSection(sections.ofStep(plan.steps, i)),
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
        title: `In the way: ${bends.join(', ')}`,
        facts: [obstacleText(flat, blocked).replaceAll('`', '')],
        ...drawnSection(section),
        hit: blocked.obstacle.tool,
      },
    },
  ];
};

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

const drawnMove = ([c, s, x, y]: Move): Move => {
  const [cos, sin] = drawnUnit([c, s, 0]);
  return [cos, sin, drawnLength(x), drawnLength(y)];
};

const stepFacts = (step: SequenceStep): string[] => {
  const handling = [...(step.flip ? ['flip it over'] : []), ...(step.turn ? ['turn it'] : [])].join(' and ');
  const onPress = step.machine_kind === 'press brake';
  return [
    ...(handling === '' ? [] : [`before: ${handling}`]),
    `${step.side_up} side up, ${step.behind} ${onPress ? 'to the stop' : 'in the clamp'}${step.load === 'front' ? '' : ', slid in from the end'}`,
    `${step.machine}${step.die_mm === null ? '' : `, ${plain(step.die_mm, 1)} mm die`}, fingers ${step.fingers_mm.map((width) => plain(width, 1)).join(' + ')} mm${step.placement === 'middle' ? '' : ` at the ${step.placement}`}`,
    step.stop_square
      ? `stop at ${plain(step.stop_distance_mm, 2)} mm`
      : 'to the marked line: nothing straight lies at the stop',
    `bend to ${plain(step.bend_to_deg, 1)}°${step.press_flat ? ', then press flat' : ` up to ${plain(step.bend_to_at_most_deg, 1)}°, until the gauge reads ${plain(step.gauge_deg, 1)}° ± ${plain(step.gauge_within_deg, 1)}°`}`,
    `${plain(step.length_mm, 1)} mm long${step.force_kN === null ? '' : `, ${plain(step.force_kN, 1)} kN`}`,
  ];
};

const orderWords = ({ outcome, complete, steps, flips, turns, blocked }: PartSequence): string => {
  if (outcome === 'impossible') return `cannot be bent in any order: ${blockedWords(blocked)}`;
  if (outcome === 'not decided')
    return `no order found within the search; one may exist. Nearest: ${blockedWords(blocked)}`;
  return `${counted(steps.length, 'stroke')}, ${counted(flips, 'flip')}, ${counted(turns, 'turn')}${complete ? '' : '; the search stopped early, an order with fewer may exist'}`;
};

const blockedWords = (blocked: PartSequence['blocked']): string =>
  blocked ? `bend ${blocked.bend}: ${blocked.text}` : 'nothing is known of what is in the way';

const counted = (count: number, what: string): string => `${count} ${what}${count === 1 ? '' : 's'}`;

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
      facts: [
        `${turnWords(flatBend.direction)}; ${gaugeWords(flatBend.angle, flat.panels[flatBend.parent].name, flat.panels[flatBend.child].name)}`,
        `inside radius ${inMm(flatBend.radius)}`,
        `${inMm(Math.hypot(flatBend.end[0] - flatBend.start[0], flatBend.end[1] - flatBend.start[1]))} long`,
        `K ${plain(flatBend.kFactor)}: allowance ${inMm(flatBend.allowance)}${bend ? `, deduction ${inMm(bend.deduction)}` : ''}`,
      ],
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
