import { exportFormats, type ExportFile, type ExportFormat } from '../../../analysis/export/exporter.js';
import { LIST_HEADS } from '../../../analysis/export/lists/csv.js';
import type { Stages } from '../../../analysis/stages/stages.js';
import type { IsOwn } from '../../../files/change.js';
import { isOwnExport } from '../../../files/own-mark.js';
import type { PlannedFile, SetFile } from '../../../files/plan-set.js';
import { writeSet, type WrittenSet } from '../../../files/write-set.js';
import { makeExport, type Export, type ExportWish } from '../../requests/make-export.js';
import { onlyFile, WrongUse, type CommandLine, type Words } from '../command.js';
import type { Console } from '../console.js';
import { diskWriter, untilStopped } from '../disk/disk-writer.js';
import { countOf } from '../print/findings-text.js';
import { errorsIn, tubIn } from './tub-in.js';

export const exportCommand: CommandLine = {
  name: 'export',
  form: 'FILE --out DIR [--variant NAME] [--FORMAT ...] [--letter] [--inch] [--with-errors] [--clean]',
  help: [
    'files to cut, bend and check by; all formats when none is named',
    exportFormats.map((format) => `--${format}`).join(' '),
    '--letter, --inch  what is printed is A4 and metric unless they say so',
    '--variant         exports that variant under its own name',
    '--with-errors     also a tub with errors',
    '--clean           removes files of earlier exports of the tub that are no longer made',
  ],
  switches: {
    out: { type: 'string' },
    variant: { type: 'string' },
    'with-errors': { type: 'boolean' },
    clean: { type: 'boolean' },
    letter: { type: 'boolean' },
    inch: { type: 'boolean' },
    ...Object.fromEntries(exportFormats.map((format) => [format, { type: 'boolean' as const }])),
  },
  takes: 'files',
  run: async (words, host, console) => {
    const file = onlyFile(words, 'export');
    const directory = words.valueOf('out');
    if (directory === undefined || directory === '') throw new WrongUse('Say where the files go: --out DIR');
    const { stages, findings } = await tubIn(file, words.valueOf('variant'), host);
    const errors = countOf(findings, 'error');
    if (errors > 0 && !words.has('with-errors')) {
      console.error(
        `${errorsIn(file, errors)}: nothing is exported; tubwright check lists them, --with-errors exports all the same`,
      );
      return 1;
    }
    const wish = wishOf(words);
    const missing = namedIn(words).find((format) => !console.exporters.some((exporter) => exporter.format === format));
    if (missing !== undefined) {
      console.error(`This version cannot export --${missing}`);
      return 2;
    }
    const { files, earlier, left } = await makeFiles(stages, wish, console);
    const set = { tub: stages.tub.name, files: files.map(withBytes), earlier };
    const written = await untilStopped((signal) =>
      writeSet(diskWriter(directory), set, { stale: words.has('clean') ? 'remove' : 'name', isOwn, signal }),
    );
    sayWritten(written, left, console);
    return 0;
  },
};

const namedIn = (words: Words): readonly ExportFormat[] => exportFormats.filter((format) => words.has(format));

const wishOf = (words: Words): ExportWish => {
  const named = namedIn(words);
  return {
    formats: named.length > 0 ? named : 'all',
    options: { paper: words.has('letter') ? 'Letter' : 'A4', units: words.has('inch') ? 'inch' : 'metric' },
  };
};

const makeFiles = async (stages: Stages, wish: ExportWish, { exporters, progress }: Console): Promise<Export> => {
  const making = makeExport(stages, wish, exporters);
  let step = await making.next();
  for (; !step.done; step = await making.next()) {
    const { made, done, total } = step.value;
    progress?.(`${done + 1} of ${total}: ${'doing' in made ? made.doing : made.name}`);
  }
  progress?.('');
  return step.value;
};

const withBytes = ({ name, content }: ExportFile): SetFile => ({
  name,
  bytes: typeof content === 'string' ? Buffer.from(content, 'utf8') : content,
});

const isOwn: IsOwn = (bytes, tubName, fileName) => isOwnExport(bytes, tubName, LIST_HEADS, fileName);

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
