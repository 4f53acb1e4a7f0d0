/** The flat patterns of a tub as files, one for each piece that differs. */
import type { Stages } from '../../stages/stages.js';
import { dxfOf } from './dxf.js';
import { drawFlat, type FlatDrawing } from './flat-drawing.js';
import { flatsToCut } from '../../stages/flats-to-cut.js';
import { partFileNames } from '../file-names.js';
import type { ExportFile } from '../exporter.js';
import { nickerOf } from '../../stages/nicks.js';
import { svgOf } from './svg.js';

export function* dxfFiles(stages: Stages): Iterable<ExportFile> {
  yield* flatFiles(stages, 'dxf', dxfOf);
}

export function* svgFiles(stages: Stages): Iterable<ExportFile> {
  yield* flatFiles(stages, 'svg', svgOf);
}

function* flatFiles(
  stages: Stages,
  extension: string,
  write: (drawing: FlatDrawing, file: string) => string,
): Iterable<ExportFile> {
  const flats = flatsToCut(stages);
  const names = partFileNames(
    stages.tub.name,
    flats.map(({ name }) => name),
  );
  const nicks = nickerOf(stages);
  for (const [i, flat] of flats.entries()) {
    yield { name: `${names[i]}.${extension}`, content: write(drawFlat(stages.tub, flat, nicks(flat)), names[i]) };
  }
}
