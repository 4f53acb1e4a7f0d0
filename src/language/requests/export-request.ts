import { interruptAndCheck, type Cancellation } from 'langium';
import { LIST_HEADS } from '../../analysis/export/lists/csv.js';
import {
  DEFAULT_OPTIONS,
  exportFormats,
  isFile,
  type ExportFile,
  type Exporter,
} from '../../analysis/export/exporter.js';
import type { Analysis } from '../analyse.js';
import { makeExport } from './make-export.js';
import type { ExportParams, ExportResult } from '../protocol.js';

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
  const making = makeExport(stages, { formats, options }, exporters);
  let step = await making.next();
  for (; !step.done; step = await making.next()) {
    const { made, done, total } = step.value;
    await report(done, total, isFile(made) ? made.name : made.doing);
    await interruptAndCheck(token);
  }
  const { files, earlier, left } = step.value;
  return {
    kind: 'files',
    tub: stages.tub.name,
    files: files.map((file) => ({ name: file.name, base64: base64Of(file) })),
    earlier: earlier.source,
    listHeads: LIST_HEADS,
    left: [...notMade(formats, exporters), ...left],
  };
};

/** What this host has no means for: a browser has no fonts to set a PDF with. */
const notMade = (formats: ExportParams['formats'], exporters: readonly Exporter[]): readonly string[] =>
  exportFormats
    .filter(
      (format) => (formats === 'all' || formats.includes(format)) && !exporters.some((each) => each.format === format),
    )
    .map((format) => `${format.toUpperCase()} cannot be made here; the editor on the desktop and the command line can`);

const base64Of = ({ content }: ExportFile): string => {
  const bytes = typeof content === 'string' ? new TextEncoder().encode(content) : content;
  const chunks: string[] = [];
  // In pieces: the call stack holds only so many arguments.
  for (let i = 0; i < bytes.length; i += 0x8000) chunks.push(String.fromCharCode(...bytes.subarray(i, i + 0x8000)));
  return btoa(chunks.join(''));
};
