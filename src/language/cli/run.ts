/** The commands over an analysis and a console that are handed in, so that tests need neither process nor disk. */
import { LIST_HEADS } from '../../analysis/export/lists/csv.js';
import type { ExportFile, Exporter } from '../../analysis/export/exporter.js';
import { reportOf, reportText } from '../../analysis/report/report.js';
import type { Stages } from '../../analysis/stages/stages.js';
import type { IsOwn } from '../../files/change.js';
import { CannotWrite } from '../../files/file-store.js';
import { isOwnExport } from '../../files/own-mark.js';
import type { PlannedFile, SetFile } from '../../files/plan-set.js';
import { writeSet, type WrittenSet } from '../../files/write-set.js';
import { makeExport, type Export } from '../make-export.js';
import { CannotRead, type AnalyseFile } from './analysed.js';
import { parseCommand, USAGE, type Command } from './arguments.js';
import type { Console, ExitCode } from './console.js';
import { diskWriter, untilStopped } from './disk-writer.js';
import { countOf, findingsJson, findingsText, type CheckedFile } from './print-findings.js';
import { solve } from './solve.js';

export type { Console, ExitCode } from './console.js';

export const run = async (words: readonly string[], analyse: AnalyseFile, console: Console): Promise<ExitCode> => {
  try {
    return await runCommand(parseCommand(words), analyse, console);
  } catch (error) {
    if (!(error instanceof CannotRead || error instanceof CannotWrite)) throw error;
    console.error(error.message);
    return 2;
  }
};

const runCommand = async (command: Command, analyse: AnalyseFile, console: Console): Promise<ExitCode> => {
  switch (command.kind) {
    case 'help':
      console.out(USAGE);
      return 0;
    case 'version':
      console.out(console.version);
      return 0;
    case 'wrong':
      console.error(`${command.reason}; tubwright --help shows how`);
      return 2;
    case 'check':
      return check(command, analyse, console);
    case 'report':
      return report(command, analyse, console);
    case 'solve':
      return solve(command, analyse, console);
    case 'export':
      return exportFiles(command, analyse, console);
  }
};

type CommandOf<K extends Command['kind']> = Extract<Command, { kind: K }>;

const check = async (
  { files, output }: CommandOf<'check'>,
  analyse: AnalyseFile,
  console: Console,
): Promise<ExitCode> => {
  const checked: CheckedFile[] = [];
  for (const file of files) checked.push({ file, findings: (await analyse(file)).findings });
  console.out(output === 'json' ? findingsJson(checked) : findingsText(checked, console.paint));
  return checked.some(({ findings }) => countOf(findings, 'error') > 0) ? 1 : 0;
};

const report = async (
  { file, variant, output }: CommandOf<'report'>,
  analyse: AnalyseFile,
  console: Console,
): Promise<ExitCode> => {
  const { stages, findings } = await analyse(file, variant);
  if (!stages) return noTub(file, console);
  const value = reportOf(stages);
  console.out(output === 'json' ? JSON.stringify(value, undefined, 2) : reportText(value));
  const errors = countOf(findings, 'error');
  if (errors > 0)
    console.error(`${errorsIn(file, errors)}: the report covers what could be worked out; tubwright check lists them`);
  return 0;
};

const exportFiles = async (command: CommandOf<'export'>, analyse: AnalyseFile, console: Console): Promise<ExitCode> => {
  const { file, variant, directory, formats } = command;
  const { stages, findings } = await analyse(file, variant);
  if (!stages) return noTub(file, console);
  const errors = countOf(findings, 'error');
  if (errors > 0 && command.errors === 'refuse') {
    console.error(
      `${errorsIn(file, errors)}: nothing is exported; tubwright check lists them, --with-errors exports all the same`,
    );
    return 1;
  }
  const missing = formats.find((format) => !console.exporters.some((exporter) => exporter.format === format));
  if (missing !== undefined) {
    console.error(`This version cannot export --${missing}`);
    return 2;
  }
  const { files, earlier, left } = await makeFiles(stages, command, console.exporters);
  const set = { tub: stages.tub.name, files: files.map(withBytes), earlier };
  const written = await untilStopped((signal) =>
    writeSet(diskWriter(directory), set, { stale: command.stale, isOwn, signal }),
  );
  sayWritten(written, left, console);
  return 0;
};

const makeFiles = async (
  stages: Stages,
  { formats, options }: CommandOf<'export'>,
  exporters: readonly Exporter[],
): Promise<Export> => {
  const making = makeExport(stages, { formats: formats.length > 0 ? formats : 'all', options }, exporters);
  let step = await making.next();
  while (!step.done) step = await making.next();
  return step.value;
};

const withBytes = ({ name, content }: ExportFile): SetFile => ({
  name,
  bytes: typeof content === 'string' ? Buffer.from(content, 'utf8') : content,
});

const isOwn: IsOwn = (bytes, tubName) => isOwnExport(bytes, tubName, LIST_HEADS);

const OUTCOMES: Readonly<Record<PlannedFile['outcome'], string>> = {
  new: 'new',
  replaced: 'replaced',
  unchanged: 'unchanged',
  removed: 'removed',
  stale: 'no longer made',
};

const sayWritten = ({ files, note }: WrittenSet, left: readonly string[], console: Console): void => {
  for (const reason of left) console.error(reason);
  if (note !== undefined) console.error(note);
  if (files.length > 0)
    console.out(files.map(({ name, outcome }) => `${name} ${console.paint.quiet(OUTCOMES[outcome])}`).join('\n'));
  const stale = files.filter(({ outcome }) => outcome === 'stale').length;
  if (stale > 0)
    console.error(
      `${stale === 1 ? 'One file' : `${stale} files`} of an earlier export ${stale === 1 ? 'is' : 'are'} no longer made and may be out of date; --clean removes ${stale === 1 ? 'it' : 'them'}`,
    );
};

const noTub = (file: string, console: Console): ExitCode => {
  console.error(`${file} describes no tub that could be worked out; tubwright check says why`);
  return 2;
};

const errorsIn = (file: string, count: number): string => `${file} has ${count} ${count === 1 ? 'error' : 'errors'}`;
