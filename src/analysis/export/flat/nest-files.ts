/** The nested sheets as drawings for the cutter, one file a blank. */
import { dxfOf } from './dxf.js';
import { sheetFileName } from '../file-names.js';
import type { Progress, ExportFile, ExportOptions } from '../exporter.js';
import type { Stages } from '../../stages/stages.js';
import { drawSheet } from './draw-sheet.js';
import { nickerOf } from '../../stages/nicks.js';
import { extentOfContour } from '../../geometry/contour.js';
import type { Nest, NestProgress, Unplaced } from '../../nest/nest.js';
import { nestTub } from '../../nest/nest-tub.js';
import { fixed } from '../../model/wording.js';

export function* nestFiles(stages: Stages, { nestTries }: ExportOptions): Iterable<ExportFile | Progress> {
  const { sheets, unplaced } = yield* nestWithWords(stages, nestTries);
  // Where the shop states no stock of anything that is cut, one sentence says so.
  const isWithoutStock = sheets.length === 0 && unplaced.every(({ reason }) => reason === 'no stock of this sheet');
  if (!isWithoutStock) yield { doing: 'Pieces on no sheet', notHeld: unplaced.map(unplacedWords) };
  const nicks = nickerOf(stages);
  for (const [i, sheet] of sheets.entries()) {
    const file = sheetFileName(stages.tub.name, i + 1);
    yield { name: `${file}.dxf`, content: dxfOf(drawSheet(stages.tub, sheet, i + 1, nicks), file) };
  }
}

/** Why a piece lies on no sheet. */
export const WHY_UNPLACED: Readonly<Record<Unplaced['reason'], string>> = {
  'no stock of this sheet': 'The shop states no stock of this sheet',
  'larger than every blank': 'Larger than every blank that fits the cutter',
  'stock used up': 'The stock that is stated is used up',
};

const unplacedWords = ({ flat, count, reason }: Unplaced): string => {
  const { min, max } = extentOfContour(flat.outline);
  const size = [max[0] - min[0], max[1] - min[1]].map((side) => fixed(side, 1)).join(' by ');
  const why = WHY_UNPLACED[reason].toLowerCase();
  return `${count > 1 ? `${count} of ` : ''}Part ${flat.name} (${size} mm) ${count > 1 ? 'lie' : 'lies'} on no sheet: ${why}`;
};

/** The nest, with words on how far it is. */
export function* nestWithWords(stages: Stages, triesAPiece: number | undefined): Generator<Progress, Nest> {
  const nesting = nestTub(stages, triesAPiece);
  let step = nesting.next();
  for (; !step.done; step = nesting.next()) yield { doing: nestWords(step.value) };
  return step.value;
}

export const nestWords = ({
  stage,
  done,
  total,
  saved,
}: Pick<NestProgress, 'stage' | 'done' | 'total' | 'saved'>): string =>
  stage === 'laying'
    ? `Nesting, ${done + 1} of ${total}`
    : `Moving pieces closer, ${Math.floor((100 * done) / total)} % done, ${fixed(100 * saved, 1)} % of the sheet saved`;
