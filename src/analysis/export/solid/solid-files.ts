/** The folded tub as files for other programs: exact solids, triangles for a printer, and a model to look at. */
import type { FoldedPart } from '../../fold/flat-pattern.js';
import type { Frame } from '../../geometry/frame.js';
import { squared, type Lean } from '../../geometry/lean.js';
import type { Stages } from '../../stages/stages.js';
import { writeGlb } from './gltf.js';
import { meshOf } from '../../solid/boundary/mesh.js';
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

/** Parts that cannot be folded are left out; findings say why. As they are built: what is set up leaning is square here. */
const foldedParts = (stages: Stages): FoldedPart[] => {
  const { stands } = stages.tub;
  const bodies = [
    ...stages.folded().filter((part) => part !== undefined),
    ...stages.fasteners(),
    ...stages.fitted().map(({ body }) => body),
  ];
  return stands ? bodies.map((body) => squaredPart(body, stands)) : bodies;
};

const squaredPart = (part: FoldedPart, lean: Lean): FoldedPart => {
  const square = ({ origin, u, v, normal }: Frame): Frame => ({
    origin: squared(origin, lean),
    u: squared(u, lean),
    v: squared(v, lean),
    normal: squared(normal, lean),
  });
  return {
    ...part,
    plates: part.plates.map((plate) => ({ ...plate, frame: square(plate.frame) })),
    rolls: part.rolls.map((roll) => ({ ...roll, axis: square(roll.axis) })),
  };
};
