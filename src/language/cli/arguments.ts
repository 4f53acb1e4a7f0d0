import { parseArgs } from 'node:util';
import { MOST_TRIES, type WorkOutOptions } from '../solve/work-out.js';
import { exportFormats, type ExportFormat, type ExportOptions } from '../../analysis/export/exporter.js';

export type Command =
  | { readonly kind: 'help' }
  | { readonly kind: 'version' }
  | { readonly kind: 'check'; readonly files: readonly string[]; readonly output: Output }
  | {
      readonly kind: 'solve';
      readonly file: string;
      readonly output: Output;
      /** What becomes of values that meet all wishes. */
      readonly found: 'print' | 'write';
      readonly options: WorkOutOptions;
    }
  | { readonly kind: 'report'; readonly file: string; readonly variant: string | undefined; readonly output: Output }
  | {
      readonly kind: 'export';
      readonly file: string;
      readonly variant: string | undefined;
      readonly directory: string;
      /** Named by the user; empty: all. */
      readonly formats: readonly ExportFormat[];
      readonly errors: 'refuse' | 'export all the same';
      /** What becomes of files that earlier exports of the tub wrote and this one does not. */
      readonly stale: 'name' | 'remove';
      readonly options: ExportOptions;
    }
  | { readonly kind: 'wrong'; readonly reason: string };

/** Hours of work. */
const TRIES_AT_MOST = 1_000_000;

export type Output = 'text' | 'json';

export const USAGE = `Usage:
  tubwright check  FILE... [--json]
  tubwright report FILE [--variant NAME] [--json]
  tubwright solve  FILE [--write] [--curve] [--tries N] [--json]
  tubwright export FILE --out DIR [--variant NAME] [--FORMAT ...] [--letter] [--inch] [--with-errors] [--clean]

  check    the findings of each file and its variants; exit 0: no error, 1: errors, 2: could not run
  solve    the free values of a file for its aim; exit 0: all wishes are met, 1: they are not
           --write puts them into the file where all wishes are met
           --curve also tells the choices between the first two goals
           --tries most tubs that are tried, ${MOST_TRIES} unless given
  report   what is known of the tub: parts, bends, water, joints, making
  export   files to cut, bend and check by; all formats when none is named:
           ${exportFormats.map((format) => `--${format}`).join(' ')}
           what is printed is A4 and metric unless --letter or --inch says so
           --variant exports that variant under its own name
           --clean removes files of earlier exports of the tub that are no longer made`;

/** What the words on the command line ask for; `wrong` with one plain sentence when they make no sense. */
export const parseCommand = (words: readonly string[]): Command => {
  const [name, ...rest] = words;
  switch (name) {
    case 'check':
      return parseCheck(rest);
    case 'report':
      return parseReport(rest);
    case 'solve':
      return parseSolve(rest);
    case 'export':
      return parseExport(rest);
    case '--version':
      return { kind: 'version' };
    case '--help':
    case '-h':
    case 'help':
      return { kind: 'help' };
    case undefined:
      return { kind: 'wrong', reason: 'Say what to do: check, report, solve or export' };
    default:
      return { kind: 'wrong', reason: `There is no command ${name}: it is check, report, solve or export` };
  }
};

type Switches = Record<string, { type: 'boolean' | 'string' }>;

interface Words {
  readonly files: readonly string[];
  readonly has: (name: string) => boolean;
  readonly valueOf: (name: string) => string | undefined;
}

/** The switches and files of a command, or the reason why it makes no sense. */
const wordsOf = (rest: readonly string[], switches: Switches): Words | string => {
  try {
    const options: Switches = { ...switches, help: { type: 'boolean' } };
    const { values, positionals } = parseArgs({ args: [...rest], options, allowPositionals: true });
    return {
      files: positionals,
      has: (name) => values[name] === true,
      valueOf: (name) => (typeof values[name] === 'string' ? values[name] : undefined),
    };
  } catch (error) {
    return error instanceof Error ? error.message.split(/\.\s/)[0] : String(error);
  }
};

const wrong = (reason: string): Command => ({ kind: 'wrong', reason });

const outputOf = (words: Words): Output => (words.has('json') ? 'json' : 'text');

const parseCheck = (rest: readonly string[]): Command => {
  const words = wordsOf(rest, { json: { type: 'boolean' } });
  if (typeof words === 'string') return wrong(words);
  if (words.has('help')) return { kind: 'help' };
  if (words.files.length === 0) return wrong('Name at least one file to check');
  return { kind: 'check', files: words.files, output: outputOf(words) };
};

const parseReport = (rest: readonly string[]): Command => {
  const words = wordsOf(rest, { json: { type: 'boolean' }, variant: { type: 'string' } });
  if (typeof words === 'string') return wrong(words);
  if (words.has('help')) return { kind: 'help' };
  if (words.files.length !== 1) return wrong('Name one file to report on');
  return { kind: 'report', file: words.files[0], variant: words.valueOf('variant'), output: outputOf(words) };
};

const SOLVE_SWITCHES: Switches = {
  write: { type: 'boolean' },
  curve: { type: 'boolean' },
  tries: { type: 'string' },
  json: { type: 'boolean' },
};

const parseSolve = (rest: readonly string[]): Command => {
  const words = wordsOf(rest, SOLVE_SWITCHES);
  if (typeof words === 'string') return wrong(words);
  if (words.has('help')) return { kind: 'help' };
  if (words.files.length !== 1) return wrong('Name one file to work out');
  const tries = Number(words.valueOf('tries') ?? MOST_TRIES);
  if (!Number.isInteger(tries) || tries < 1 || tries > TRIES_AT_MOST)
    return wrong(`--tries needs a whole number from 1 to ${TRIES_AT_MOST}`);
  return {
    kind: 'solve',
    file: words.files[0],
    output: outputOf(words),
    found: words.has('write') ? 'write' : 'print',
    options: { tries, curve: words.has('curve') },
  };
};

const EXPORT_SWITCHES: Switches = {
  out: { type: 'string' },
  variant: { type: 'string' },
  'with-errors': { type: 'boolean' },
  clean: { type: 'boolean' },
  letter: { type: 'boolean' },
  inch: { type: 'boolean' },
  ...Object.fromEntries(exportFormats.map((format) => [format, { type: 'boolean' as const }])),
};

const parseExport = (rest: readonly string[]): Command => {
  const words = wordsOf(rest, EXPORT_SWITCHES);
  if (typeof words === 'string') return wrong(words);
  if (words.has('help')) return { kind: 'help' };
  if (words.files.length !== 1) return wrong('Name one file to export');
  const directory = words.valueOf('out');
  if (directory === undefined || directory === '') return wrong('Say where the files go: --out DIR');
  return {
    kind: 'export',
    file: words.files[0],
    variant: words.valueOf('variant'),
    directory,
    formats: exportFormats.filter((format) => words.has(format)),
    stale: words.has('clean') ? 'remove' : 'name',
    errors: words.has('with-errors') ? 'export all the same' : 'refuse',
    options: { paper: words.has('letter') ? 'Letter' : 'A4', units: words.has('inch') ? 'inch' : 'metric' },
  };
};
