/** The nested sheets as drawings for the cutter, one file a blank. */
import { dxfOf } from './dxf.js';
import { sheetFileName } from '../file-names.js';
import type { Doing, ExportFile } from '../exporter.js';
import type { Stages } from '../../stages/stages.js';
import { drawSheet } from './draw-sheet.js';
import type { Nest } from '../../nest/nest.js';
import { nestTub } from '../../nest/nest-tub.js';

export function* nestFiles(stages: Stages): Iterable<ExportFile | Doing> {
  const { sheets } = yield* nestWithWords(stages);
  for (const [i, sheet] of sheets.entries()) {
    yield { name: `${sheetFileName(stages.tub.name, i + 1)}.dxf`, content: dxfOf(drawSheet(stages.tub, sheet, i + 1)) };
  }
}

/** The nest, with words on how far it is. */
export function* nestWithWords(stages: Stages): Generator<Doing, Nest> {
  const nesting = nestTub(stages);
  let step = nesting.next();
  for (; !step.done; step = nesting.next()) yield { doing: `Nesting, ${step.value.placed + 1} of ${step.value.total}` };
  return step.value;
}
