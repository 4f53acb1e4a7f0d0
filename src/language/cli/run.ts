/** The three commands over an analysis and a console that are handed in, so that tests need neither process nor disk. */
import {
  isFile,
  type ExportFile,
  type ExportFormat,
  type ExportOptions,
  type Exporter,
} from '../../analysis/export/exporter.js';
import { reportOf, reportText } from '../../analysis/report/report.js';
import type { Stages } from '../../analysis/stages/stages.js';
import { CannotRead, type AnalyseFile } from './analysed.js';
import { parseCommand, USAGE, type Command } from './arguments.js';
import type { Paint } from './paint.js';
import { countOf, findingsJson, findingsText, type CheckedFile } from './print-findings.js';
import { CannotWrite, writeFiles } from './write-files.js';

export interface Console {
  readonly out: (text: string) => void;
  /** One plain sentence at a time. */
  readonly error: (sentence: string) => void;
  readonly paint: Paint;
  readonly version: string;
  /** What this host can export to. */
  readonly exporters: readonly Exporter[];
}

/** 0: no finding of severity error. 1: errors. 2: could not run. */
export type ExitCode = 0 | 1 | 2;

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
  { file, output }: CommandOf<'report'>,
  analyse: AnalyseFile,
  console: Console,
): Promise<ExitCode> => {
  const { stages, findings } = await analyse(file);
  if (!stages) return noTub(file, console);
  const value = reportOf(stages);
  console.out(output === 'json' ? JSON.stringify(value, undefined, 2) : reportText(value));
  const errors = countOf(findings, 'error');
  if (errors > 0)
    console.error(`${errorsIn(file, errors)}: the report covers what could be worked out; tubwright check lists them`);
  return 0;
};

const exportFiles = async (command: CommandOf<'export'>, analyse: AnalyseFile, console: Console): Promise<ExitCode> => {
  const { file, directory, formats } = command;
  const { stages, findings } = await analyse(file);
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
  const written = await writeFiles(
    directory,
    stages.tub.name,
    await makeFiles(stages, formats, command.options, console.exporters),
  );
  for (const name of partsWithoutFlat(stages))
    console.error(`Part ${name} has no flat pattern, so it is not among the flat patterns`);
  console.out(written.map(({ name, outcome }) => `${name} ${console.paint.quiet(outcome)}`).join('\n'));
  return 0;
};

const makeFiles = async (
  stages: Stages,
  formats: readonly ExportFormat[],
  options: ExportOptions,
  exporters: readonly Exporter[],
): Promise<ExportFile[]> => {
  const files: ExportFile[] = [];
  for (const { format, load } of exporters) {
    if (formats.length > 0 && !formats.includes(format)) continue;
    for await (const made of (await load())(stages, options)) if (isFile(made)) files.push(made);
  }
  return files;
};

const partsWithoutFlat = (stages: Stages): string[] =>
  stages.parts().flatMap(({ name }, i) => (stages.flats()[i] ? [] : [name]));

const noTub = (file: string, console: Console): ExitCode => {
  console.error(`${file} describes no tub that could be worked out; tubwright check says why`);
  return 2;
};

const errorsIn = (file: string, count: number): string => `${file} has ${count} ${count === 1 ? 'error' : 'errors'}`;
