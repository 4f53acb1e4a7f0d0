/** The bends of every part in the order in which they are bent, what a gauge is to read at each, and what it did read. */
import { delayNextTick } from 'langium';
import type { FlatPattern } from '../../analysis/fold/flat-pattern.js';
import { strokesInSteps } from '../../analysis/making/tub-plans.js';
import { READ_AS_PLANNED } from '../../analysis/model/tolerance.js';
import type { PanelIndex } from '../../analysis/model/tub.js';
import type { Evaluation } from '../analyse.js';
import type { BendReading, Made, TubFile } from '../generated/ast.js';
import { isMade } from '../generated/ast.js';

export interface PartToRead {
  /** As `made` calls it. */
  readonly name: string;
  /** Of a bend plan; else as the part has them. */
  readonly isInOrder: boolean;
  /** Where something of it is read already. */
  readonly node: Made | undefined;
  readonly bends: readonly BendToRead[];
}

export interface BendToRead {
  readonly panels: readonly [string, string];
  /** rad, deviation from flat. */
  readonly planned: number;
  /** rad: what an open bend had best be bent to, where that is not what was planned. */
  readonly best: number | undefined;
  readonly node: BendReading | undefined;
}

/** Parts with bends. Where a bending order is not known yet it is looked for in slices; undefined: the text changed meanwhile. */
export const partsToRead = async (evaluation: Evaluation): Promise<readonly PartToRead[] | undefined> => {
  const { stages, document } = evaluation;
  const { version } = document.textDocument;
  const parts: PartToRead[] = [];
  for (const { name, index, bends } of stages.parts()) {
    if (bends.length === 0) continue;
    const flat = stages.flats()[index];
    const order = flat ? await bendingOrder(evaluation, flat, version) : [];
    if (!order) return undefined;
    const made = bends.filter((bend) => flat?.bends.some((each) => each.bend === bend && each.isMade));
    const ordered = [...new Set([...made, ...order, ...bends])].filter((bend) => bends.includes(bend));
    parts.push(partToRead(evaluation, { name, isInOrder: order.length > 0 || made.length === bends.length }, ordered));
  }
  return parts;
};

/** ms. How long planning goes on before others get their turn. */
const SLICE = 8;

/** Bends of the shape; none where there is no order. */
const bendingOrder = async (
  { tub, document }: Evaluation,
  flat: FlatPattern,
  version: number,
): Promise<readonly number[] | undefined> => {
  const planning = strokesInSteps(tub, flat);
  let until = performance.now() + SLICE;
  for (;;) {
    const step = planning.next();
    if (step.done) return step.value.flatMap(({ bends }) => bends.flatMap((bend) => flat.bends[bend].bend ?? []));
    if (performance.now() < until) continue;
    await delayNextTick();
    if (document.textDocument.version !== version) return undefined;
    until = performance.now() + SLICE;
  }
};

const partToRead = (
  evaluation: Evaluation,
  part: Pick<PartToRead, 'name' | 'isInOrder'>,
  bends: readonly number[],
): PartToRead => {
  const { stages } = evaluation;
  const shape = stages.shape();
  const faces = new Set(bends.flatMap((bend) => shape.bends[bend].faces));
  const made = (stages.tub.made ?? []).find(({ panel }) => faces.has(panel));
  const node = made && madeNodes(evaluation).find((each) => evaluation.sources.idOf(each, 'word') === made.at);
  return { ...part, node, bends: bends.map((bend) => bendToRead(evaluation, shape.bends[bend].faces, node)) };
};

export const madeNodes = ({ documents }: Evaluation): readonly Made[] =>
  documents.flatMap(({ parseResult }) => ((parseResult.value as TubFile).statements ?? []).filter(isMade));

const bendToRead = (
  { stages, sources }: Evaluation,
  [a, b]: readonly [PanelIndex, PanelIndex],
  made: Made | undefined,
): BendToRead => {
  const { panels } = stages.tub;
  const isOf = (of: readonly [PanelIndex, PanelIndex]): boolean => of.includes(a) && of.includes(b);
  const planned = (stages.planned() ?? stages).shape().bends.find(({ faces }) => isOf(faces))?.angle ?? 0;
  const is = stages.shape().bends.find(({ faces }) => isOf(faces))?.angle ?? planned;
  const reading = (stages.tub.made ?? []).flatMap(({ bends }) => bends).find((each) => isOf(each.panels));
  const isOpen = !reading && Math.abs(is - planned) > READ_AS_PLANNED;
  return {
    panels: [panels[a].name, panels[b].name],
    planned,
    best: isOpen ? is : undefined,
    node: reading && made?.bends.find((each) => sources.idOf(each, 'word') === reading.at),
  };
};
