/** The folded tub as files for other programs: exact solids, triangles for a printer, and a model to look at. */
import type { FoldedPart } from '../../fold/flat-pattern.js';
import type { Stages } from '../../stages/stages.js';
import { writeGlb } from './gltf.js';
import { meshOf } from '../../solid/mesh.js';
import { exportMark } from '../../../files/own-mark.js';
import { fileStem } from '../file-names.js';
import type { ExportFile } from '../exporter.js';
import { writeStep } from './step.js';
import { writeStl } from './stl.js';

/** mm. Chords of the bends in the triangle files: finer than a bend is held true, coarse enough for small files. */
const CHORD_ERROR = 0.01;

export function* stepFiles(stages: Stages): Iterable<ExportFile> {
  const name = stages.tub.name;
  yield { name: `${fileStem(name)}.step`, content: writeStep(name, foldedParts(stages)) };
}

export function* stlFiles(stages: Stages): Iterable<ExportFile> {
  const name = stages.tub.name;
  const meshes = foldedParts(stages).map((part) => meshOf(part, CHORD_ERROR));
  yield { name: `${fileStem(name)}.stl`, content: writeStl(exportMark(name), meshes) };
}

export function* glbFiles(stages: Stages): Iterable<ExportFile> {
  const name = stages.tub.name;
  const parts = foldedParts(stages).map((part) => ({ name: part.name, mesh: meshOf(part, CHORD_ERROR) }));
  yield { name: `${fileStem(name)}.glb`, content: writeGlb(name, parts) };
}

/** Parts that cannot be folded are left out; findings say why. */
const foldedParts = (stages: Stages): FoldedPart[] => [
  ...stages.folded().filter((part) => part !== undefined),
  ...stages.fasteners(),
  ...stages.fitted().map(({ body }) => body),
];
