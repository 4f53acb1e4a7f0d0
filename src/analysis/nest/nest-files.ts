/** The nested sheets as drawings for the cutter, one file a blank. */
import { dxfOf } from '../export/dxf.js';
import { fileStem } from '../export/own-export.js';
import type { ExportFile } from '../export/registry.js';
import type { Stages } from '../stages.js';
import { drawSheet } from './draw-sheet.js';
import { finishNest, nestTub } from './nest-tub.js';

export function* nestFiles(stages: Stages): Iterable<ExportFile> {
  const { sheets } = finishNest(nestTub(stages));
  const stem = fileStem(stages.tub.name);
  for (const [i, sheet] of sheets.entries()) {
    yield { name: `${stem}-sheet-${i + 1}.dxf`, content: dxfOf(drawSheet(stages.tub, sheet, i + 1)) };
  }
}
