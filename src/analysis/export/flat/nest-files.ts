/** The nested sheets as drawings for the cutter, one file a blank. */
import { dxfOf } from './dxf.js';
import { sheetFileName } from '../file-names.js';
import type { Progress, ExportFile, ExportOptions } from '../exporter.js';
import type { Stages } from '../../stages/stages.js';
import { drawSheet } from './draw-sheet.js';
import type { Nest, NestProgress } from '../../nest/nest.js';
import { nestTub } from '../../nest/nest-tub.js';

export function* nestFiles(stages: Stages, { nestTries }: ExportOptions): Iterable<ExportFile | Progress> {
  const { sheets } = yield* nestWithWords(stages, nestTries);
  for (const [i, sheet] of sheets.entries()) {
    yield { name: `${sheetFileName(stages.tub.name, i + 1)}.dxf`, content: dxfOf(drawSheet(stages.tub, sheet, i + 1)) };
  }
}

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
    : `Moving pieces closer, ${Math.floor((100 * done) / total)} % done, ${(100 * saved).toFixed(1)} % of the sheet saved`;
