import type { Stages } from '../../stages/stages.js';
import { fileStem } from '../file-names.js';
import type { Progress, ExportFile, ExportOptions } from '../exporter.js';
import { htmlOf } from './to-html.js';
import { makeTraveller } from './traveller.js';

export function* htmlFiles(stages: Stages, options: ExportOptions): Iterable<ExportFile | Progress> {
  yield { name: `${fileStem(stages.tub.name)}-traveller.html`, content: htmlOf(yield* makeTraveller(stages, options)) };
}
