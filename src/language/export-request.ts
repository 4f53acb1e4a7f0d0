import { interruptAndCheck, type Cancellation } from 'langium';
import { DEFAULT_OPTIONS, exportFormats, isFile, type ExportFile, type Exporter } from '../analysis/export/exporter.js';
import { exportMarker } from '../analysis/export/own-export.js';
import type { Stages } from '../analysis/stages/stages.js';
import type { Analysis } from './analyse.js';
import type { ExportedFile, ExportParams, ExportResult } from './protocol.js';

type Report = (done: number, total: number, message: string) => Promise<void>;

/** Makes the files of an export one by one, with a look at the token between them. Writes nothing. */
export const exportAll = async (
  { stages, findings }: Analysis,
  { formats, errors, options = DEFAULT_OPTIONS }: ExportParams,
  exporters: readonly Exporter[],
  report: Report,
  token: Cancellation.CancellationToken,
): Promise<ExportResult> => {
  const faults = findings.filter(({ severity }) => severity === 'error');
  if (errors === 'unless errors' && faults.length > 0)
    return { kind: 'refused', errors: faults.length, first: faults[0].message };
  const wanted = exporters.filter(({ format }) => formats === 'all' || formats.includes(format));
  const files: ExportedFile[] = [];
  for (const [i, { format, load }] of wanted.entries()) {
    await report(i, wanted.length, format.toUpperCase());
    await interruptAndCheck(token);
    for await (const made of (await load())(stages, options)) {
      if (isFile(made)) files.push({ name: made.name, base64: base64Of(made) });
      await report(i, wanted.length, isFile(made) ? made.name : made.doing);
      await interruptAndCheck(token);
    }
  }
  return {
    kind: 'files',
    files,
    marker: exportMarker(stages.tub.name),
    left: [...notMade(formats, exporters), ...notFlat(stages)],
  };
};

/** What this host has no means for: a browser has no fonts to set a PDF with. */
const notMade = (formats: ExportParams['formats'], exporters: readonly Exporter[]): readonly string[] =>
  exportFormats
    .filter(
      (format) => (formats === 'all' || formats.includes(format)) && !exporters.some((each) => each.format === format),
    )
    .map((format) => `${format.toUpperCase()} cannot be made here; the editor on the desktop and the command line can`);

const notFlat = (stages: Stages): readonly string[] =>
  stages
    .parts()
    .flatMap(({ name }, i) => (stages.flats()[i] ? [] : [`Part ${name} has no flat pattern, so it is not exported`]));

const base64Of = ({ content }: ExportFile): string => {
  const bytes = typeof content === 'string' ? new TextEncoder().encode(content) : content;
  const chunks: string[] = [];
  // In pieces: the call stack holds only so many arguments.
  for (let i = 0; i < bytes.length; i += 0x8000) chunks.push(String.fromCharCode(...bytes.subarray(i, i + 0x8000)));
  return btoa(chunks.join(''));
};
