import { CannotRead } from '../analysed.js';
import { FORMATS, WrongUse, wholeNumber, type CommandLine, type Format, type Host, type Words } from '../command.js';
import type { Console, ExitCode } from '../console.js';
import { untilStopped } from '../disk/disk-writer.js';
import type { Checked, CheckedFile } from '../print/checked.js';
import { countOf, findingsText } from '../print/findings-text.js';
import { findingsJson } from '../print/findings-json.js';
import { githubText } from '../print/github.js';
import { junitText } from '../print/junit.js';
import { sarifText } from '../print/sarif.js';

const WARNINGS_AT_MOST = 1_000_000;

export const check: CommandLine = {
  name: 'check',
  form: 'PATH... [--format FORMAT] [--json] [--quiet] [--max-warnings N] [--fix] [--watch]',
  help: [
    'the findings of each file and its variants; exit 0: no error, 1: errors, 2: a file could not be read',
    'PATH is a file, a folder (all .tub files in it), a pattern such as "tubs/**/*.tub", or - for standard input',
    '--format        text, json, sarif, github or junit; --json is short for --format json',
    '--quiet         errors alone',
    '--max-warnings  exit 1 where there are more warnings than that',
    '--fix           first puts right in the files what can be put right in one way only',
    '--watch         again whenever a file changes, until Ctrl-C',
  ],
  switches: {
    format: { type: 'string', oneOf: FORMATS },
    json: { type: 'boolean' },
    quiet: { type: 'boolean' },
    'max-warnings': { type: 'string' },
    fix: { type: 'boolean' },
    watch: { type: 'boolean' },
  },
  takes: 'files',
  run: (words, host, console) => {
    if (words.files.length === 0) throw new WrongUse('Name at least one file or folder to check');
    const mostWarnings = wholeNumber(words, 'max-warnings', Infinity, 0, WARNINGS_AT_MOST);
    const once = (): Promise<ExitCode> => checkOnce(words, mostWarnings, host, console);
    return words.has('watch') ? untilStopped((signal) => checkAgain(once, host, console, signal)) : once();
  },
};

const checkAgain = async (
  once: () => Promise<ExitCode>,
  host: Host,
  console: Console,
  signal: AbortSignal,
): Promise<ExitCode> => {
  let code = await once();
  while (await host.change(signal)) {
    console.error('A file has changed');
    code = await once();
  }
  return code;
};

const checkOnce = async (words: Words, mostWarnings: number, host: Host, console: Console): Promise<ExitCode> => {
  const checked = await checkFiles(words, host, console);
  for (const { reason } of checked.unread) console.error(reason);
  const format = (words.valueOf('format') ?? (words.has('json') ? 'json' : 'text')) as Format;
  if (checked.files.length > 0 || format !== 'text') console.out(printed(checked, format, console));
  if (checked.unread.length > 0) return 2;
  const all = checked.files.flatMap(({ findings }) => findings);
  const tooMany = checked.warnings > mostWarnings;
  if (tooMany) console.error(`${checked.warnings} warnings; --max-warnings allows ${mostWarnings}`);
  return countOf(all, 'error') > 0 || tooMany ? 1 : 0;
};

const printed = (checked: Checked, format: Format, { paint, version }: Console): string => {
  switch (format) {
    case 'text':
      return findingsText(checked.files, paint);
    case 'json':
      return findingsJson(checked);
    case 'sarif':
      return sarifText(checked, version);
    case 'github':
      return githubText(checked);
    case 'junit':
      return junitText(checked);
  }
};

const checkFiles = async (
  words: Words,
  host: Host,
  console: Console,
): Promise<Checked & { readonly warnings: number }> => {
  const files: CheckedFile[] = [];
  const unread: { file: string; reason: string }[] = [];
  let warnings = 0;
  const found = await host.find(words.files);
  for (const [i, each] of found.entries()) {
    if ('problem' in each) {
      unread.push({ file: each.word, reason: each.problem });
      continue;
    }
    const { file } = each;
    if (found.length > 1) console.progress?.(`${i + 1} of ${found.length}: ${file}`);
    try {
      if (words.has('fix')) sayMended(file, await host.mend(file), console);
      const { findings } = await host.analyse(file);
      warnings += countOf(findings, 'warning');
      files.push({
        file,
        findings: words.has('quiet') ? findings.filter(({ severity }) => severity === 'error') : findings,
      });
    } catch (error) {
      if (!(error instanceof CannotRead)) throw error;
      unread.push({ file, reason: error.message });
    }
  }
  if (found.length > 1) console.progress?.('');
  return { files, unread, warnings };
};

const sayMended = (file: string, count: number, console: Console): void => {
  if (count > 0) console.error(`${file}: ${count === 1 ? 'one place' : `${count} places`} put right`);
};
