import type { Stages } from '../../stages/stages.js';
import { fileStem } from '../file-names.js';
import type { Progress, ExportFile, ExportOptions } from '../exporter.js';
import { customerSheetOf } from './customer-sheet.js';
import { htmlOf } from './to-html.js';
import { makeTraveller } from './traveller.js';

export function* htmlFiles(stages: Stages, options: ExportOptions): Iterable<ExportFile | Progress> {
  const stem = fileStem(stages.tub.name);
  yield { name: `${stem}-traveller.html`, content: htmlOf(yield* makeTraveller(stages, options)) };
  yield { name: `${stem}-sheet.html`, content: htmlOf(customerSheetOf(stages, options)) };
}
