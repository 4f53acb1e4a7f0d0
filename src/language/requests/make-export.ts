/** The files of an export, made one by one by the exporters that a host has: for the command line and the editor alike. */
import {
  isFile,
  type Progress,
  type ExportFile,
  type ExportFormat,
  type ExportOptions,
  type Exporter,
} from '../../analysis/export/exporter.js';
import { fileNamesOf } from '../../analysis/export/file-names.js';
import { cutParts, flatsOfParts } from '../../analysis/stages/flats-to-cut.js';
import type { Stages } from '../../analysis/stages/stages.js';

export interface ExportWish {
  /** As named by the user. */
  readonly formats: readonly ExportFormat[] | 'all';
  readonly options: ExportOptions;
}

export interface ExportStep {
  readonly made: ExportFile | Progress;
  /** Formats that are done, of `total`. */
  readonly done: number;
  readonly total: number;
}

export interface Export {
  readonly files: readonly ExportFile[];
  /** Names that an earlier export of the same formats may have given, composed. */
  readonly earlier: RegExp;
  /** Why something that was asked for is not there: a sentence each, without its full stop. */
  readonly left: readonly string[];
}

/** Yields at every point where it can be stopped. */
export async function* makeExport(
  stages: Stages,
  { formats, options }: ExportWish,
  exporters: readonly Exporter[],
): AsyncGenerator<ExportStep, Export> {
  const wanted = exporters.filter(({ format }) => formats === 'all' || formats.includes(format));
  const files: ExportFile[] = [];
  const notHeld: string[] = [];
  const empty: ExportFormat[] = [];
  for (const [done, { format, load }] of wanted.entries()) {
    const before = files.length + notHeld.length;
    yield { made: { doing: format.toUpperCase() }, done, total: wanted.length };
    for await (const made of (await load())(stages, options)) {
      if (isFile(made)) files.push(made);
      notHeld.push(...(made.notHeld ?? []));
      yield { made, done, total: wanted.length };
    }
    if (files.length + notHeld.length === before) empty.push(format);
  }
  return {
    files,
    earlier: fileNamesOf(
      stages.tub.name,
      wanted.map(({ format }) => format),
    ),
    left: [
      ...partsWithoutFlat(stages),
      ...notHeld,
      ...files.flatMap(lettersLost),
      ...(formats === 'all' ? [] : empty.flatMap((format) => NOTHING[format] ?? [])),
    ],
  };
}

const partsWithoutFlat = (stages: Stages): string[] => {
  const cut = flatsOfParts(stages);
  const isCut = cutParts(stages);
  return stages.parts().flatMap(({ name }, i) => {
    if (isCut.has(i)) return [`Part ${name} is cut already (\`made\`), so it is not among the flat patterns to cut`];
    if (cut[i]) return [];
    if (!stages.flats()[i]) return [`Part ${name} has no flat pattern, so it is not among the flat patterns`];
    return [`Part ${name} is not among the flat patterns: its outline would cross itself (flat/overlaps-itself)`];
  });
};

const lettersLost = ({ name, lacks = '' }: ExportFile): string[] =>
  lacks === '' ? [] : [`${name} has no type for ${lacks} and prints \u25a1 in their place; the HTML page shows them`];

/** Where a drawing is missing for want of a flat pattern, that is said of the part. */
const NOTHING: Partial<Record<ExportFormat, string>> = {
  template:
    'No hole, slot or screw fastens this tub to anything, and no stated mouth is near it, so there is no template to print',
  nest: 'No piece of this tub fits on a stock sheet that its text or its shop names, so there is no sheet to cut',
};
