import { execFile } from 'node:child_process';
import { lstat, mkdir, mkdtemp, readdir, readFile, rm, stat, symlink, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { exporters } from '../../../src/analysis/export/registry.js';
import { DEFAULT_OPTIONS, exportFormats, isFile, type ExportFormat } from '../../../src/analysis/export/exporter.js';
import { DEFAULT_SHOP } from '../../../src/analysis/model/shop/default-shop.js';
import { fileMark } from '../../../src/files/own-mark.js';
import { createStages } from '../../../src/analysis/stages/stages.js';
import {
  CannotRead,
  type AnalysedFile,
  type AnalyseFile,
  type PlacedFinding,
} from '../../../src/language/cli/analysed.js';
import { diskHost } from '../../../src/language/cli/disk/disk-host.js';
import { choosePaint, colorPaint, plainPaint, type Paint } from '../../../src/language/cli/paint.js';
import { run, type ExitCode } from '../../../src/language/cli/run.js';
import { cornerTray } from '../../support/tubs/corner-tray.js';
import { tubOf } from '../../support/tub-of.js';

const tray = createStages(cornerTray);

/** A flange of 1 mm: shorter than its own bend, so that the part cannot be laid flat. */
const stub = createStages(
  tubOf({
    name: 'Stub',
    panels: {
      floor: [
        [0, 0, 0],
        [100, 0, 0],
        [100, 100, 0],
        [0, 100, 0],
      ],
      lip: [
        [0, 100, 0],
        [100, 100, 0],
        [100, 100, 1],
        [0, 100, 1],
      ],
    },
    bends: [['floor', 'lip']],
  }),
);

/** The tray in a shop whose only sheet is smaller than it. */
const trayIn = (size: readonly [number, number]) =>
  createStages({
    ...tray.tub,
    shop: { ...DEFAULT_SHOP, stock: [{ at: 0, material: 'stainless', thickness: 1.2, size, count: undefined }] },
  });

const range = { start: { line: 11, character: 4 }, end: { line: 11, character: 8 } };
const tooShort: PlacedFinding = {
  code: 'bend/flange-too-short',
  severity: 'error',
  message: 'Flange `rear` is 6.2 mm; a 12 mm die opening needs at least 8.5 mm',
  range,
  values: { flange_mm: 6.2, needs_mm: 8.5 },
  measure: { has: 6.2, needs: 8.5, better: 'more' },
  related: [
    {
      message: 'The die stands here',
      file: 'shop.tub',
      range: { start: { line: 0, character: 0 }, end: { line: 0, character: 3 } },
    },
  ],
};
const dull: PlacedFinding = {
  ...tooShort,
  code: 'drain/dull',
  severity: 'info',
  message: 'A fact',
  measure: undefined,
  related: [],
};

const files: Readonly<Record<string, AnalysedFile>> = {
  'good.tub': { stages: tray, findings: [], solving: [] },
  'bad.tub': { stages: tray, findings: [tooShort, dull], solving: [] },
  'info.tub': { stages: tray, findings: [dull], solving: [] },
  'stub.tub': { stages: stub, findings: [], solving: [] },
  'large.tub': { stages: trayIn([500, 500]), findings: [], solving: [] },
  'small.tub': { stages: trayIn([100, 100]), findings: [tooShort], solving: [] },
  'shop.tub': { stages: undefined, findings: [], solving: [] },
};

interface Ran {
  readonly code: ExitCode;
  readonly out: string;
  readonly error: string;
}

const analyse: AnalyseFile = async (path) => {
  const file = files[path];
  if (!file) throw new CannotRead(`There is no file ${path}`);
  return file;
};

const tubwright = async (line: string, paint: Paint = plainPaint): Promise<Ran> => {
  const out: string[] = [];
  const error: string[] = [];
  const code = await run(
    line.split(' ').filter((word) => word !== ''),
    { ...diskHost, analyse },
    {
      out: (text) => out.push(text),
      write: (text) => out.push(text),
      error: (text) => error.push(text),
      paint,
      version: '1.2.3',
      exporters,
    },
  );
  return { code, out: out.join('\n'), error: error.join('\n') };
};

describe('tubwright check', () => {
  it('prints file, line, column, severity, code, message, has and needs, and the related places', async () => {
    expect(await tubwright('check bad.tub')).toEqual({
      code: 1,
      error: '',
      out: [
        'bad.tub:12:5: error bend/flange-too-short: Flange `rear` is 6.2 mm; a 12 mm die opening needs at least 8.5 mm',
        '    has 6.2 mm, needs at least 8.5 mm',
        '    shop.tub:1:1: The die stands here',
        'bad.tub:12:5: info drain/dull: A fact',
        'bad.tub: 1 error, 1 info',
      ].join('\n'),
    });
  });

  it('exits 0 without errors, also where there are other findings', async () => {
    expect(await tubwright('check good.tub')).toEqual({ code: 0, out: 'good.tub: nothing to report', error: '' });
    expect((await tubwright('check info.tub good.tub')).code).toBe(0);
  });

  it.each(['-h', '--help'])('tells of one command with %s after its name', async (help) => {
    const { code, out } = await tubwright(`check ${help}`);
    expect([code, out.split('\n')[1]]).toEqual([0, expect.stringContaining('tubwright check PATH...')]);
    expect(out).toContain('--max-warnings');
  });

  it('colours by severity only where asked to, and says the severity in words all the same', async () => {
    const { out } = await tubwright('check bad.tub', colorPaint);
    expect(out).toContain('\u001b[31;1merror\u001b[0m bend/flange-too-short');
    expect((await tubwright('check bad.tub')).out).not.toContain('\u001b');
    expect((await tubwright('check bad.tub --color always')).out).toContain('\u001b');
    expect((await tubwright('check bad.tub --color never', colorPaint)).out).not.toContain('\u001b');
    expect(choosePaint({ isTTY: true }, { TERM: 'dumb' })).toBe(plainPaint);
  });

  it('prints the published JSON, lines and characters from 0', async () => {
    const { out, code } = await tubwright('check good.tub bad.tub --json');
    expect(code).toBe(1);
    expect(JSON.parse(out)).toEqual({
      version: 1,
      files: [
        { file: 'good.tub', findings: [] },
        {
          file: 'bad.tub',
          findings: [
            {
              code: tooShort.code,
              severity: 'error',
              message: tooShort.message,
              range,
              values: { flange_mm: 6.2, needs_mm: 8.5 },
              measure: { better: 'more', has_mm: 6.2, needs_mm: 8.5 },
              related: tooShort.related,
            },
            {
              code: 'drain/dull',
              severity: 'info',
              message: 'A fact',
              range,
              values: { flange_mm: 6.2, needs_mm: 8.5 },
              related: [],
            },
          ],
        },
      ],
      unread: [],
    });
  });
});

describe('tubwright report', () => {
  it('prints parts and bends with their allowances as tables', async () => {
    const { out, code } = await tubwright('report good.tub');
    expect(code).toBe(0);
    expect(out).toMatch(/^floor wall +90\.00 .*2\.498/m);
  });

  it('prints the published JSON with every section present', async () => {
    const value = JSON.parse((await tubwright('report good.tub --json')).out) as Record<string, unknown>;
    expect(Object.keys(value)).toEqual(
      expect.arrayContaining(['version', 'tub', 'parts', 'bends', 'seams', 'water', 'making']),
    );
  });

  it('reports what it can of a tub with errors and says so', async () => {
    const { out, error } = await tubwright('report bad.tub');
    expect(out).toContain('floor wall');
    expect(error).toBe('bad.tub has 1 error: the report covers what could be worked out; tubwright check lists them');
  });

  it('says so when a file has no tub', async () => {
    expect(await tubwright('report shop.tub')).toEqual({
      code: 2,
      out: '',
      error: 'shop.tub describes no tub that could be worked out; tubwright check says why',
    });
  });
});

const COMMANDS = 'check, report, solve, export, fmt, explain or completions';

describe('wrong use', () => {
  it.each([
    ['', `Say what to do: ${COMMANDS}; tubwright --help shows how`],
    ['inspect good.tub', `There is no command inspect: it is ${COMMANDS}; tubwright --help shows how`],
    ['check', 'Name at least one file or folder to check; tubwright check -h shows how'],
    ['check --jsn good.tub', "Unknown option '--jsn'; tubwright check -h shows how"],
    ['report good.tub bad.tub', 'Name one file to report on; tubwright report -h shows how'],
    ['export good.tub', 'Say where the files go: --out DIR; tubwright export -h shows how'],
    ['check missing.tub', 'There is no file missing.tub'],
  ])('tubwright %s: one plain sentence and exit 2', async (line, sentence) => {
    const ran = await tubwright(line);
    expect(ran.code).toBe(2);
    expect(ran.out).toBe('');
    expect(ran.error).toBe(sentence);
    expect(ran.error).not.toContain('\n');
  });

  it('shows the commands on --help and the version on --version', async () => {
    expect((await tubwright('--help')).out).toContain('tubwright export FILE --out DIR');
    expect((await tubwright('check --help')).code).toBe(0);
    expect(await tubwright('--version')).toEqual({ code: 0, out: '1.2.3', error: '' });
  });
});

describe('tubwright export', () => {
  let directory = '';
  beforeEach(async () => {
    directory = await mkdtemp(join(tmpdir(), 'tubwright-'));
  });
  afterEach(() => rm(directory, { recursive: true, force: true }));

  const contents = async (): Promise<Record<string, string>> =>
    Object.fromEntries(
      await Promise.all(
        (await readdir(directory)).sort().map(async (name) => [name, await readFile(join(directory, name), 'latin1')]),
      ),
    );

  it('writes the formats that are named', async () => {
    const { code, out } = await tubwright(`export good.tub --out ${directory} --svg --dxf`);
    expect(code).toBe(0);
    expect(out).toBe('Corner-tray-floor.dxf new\nCorner-tray-floor.svg new');
    expect(Object.keys(await contents())).toEqual(['Corner-tray-floor.dxf', 'Corner-tray-floor.svg']);
  });

  it('writes every format there is when none is named, into a folder that it makes', async () => {
    directory = join(directory, 'new', 'deep');
    expect((await tubwright(`export good.tub --out ${directory}`)).code).toBe(0);
    const expected: string[] = [];
    for (const { load } of exporters)
      for await (const made of (await load())(tray, DEFAULT_OPTIONS)) if (isFile(made)) expected.push(made.name);
    expect(Object.keys(await contents()).sort()).toEqual(expected.sort());
    expect(expected).toEqual(
      expect.arrayContaining(['Corner-tray-floor.dxf', 'Corner-tray-floor.svg', 'Corner-tray-bends.csv']),
    );
  });

  it('changes no byte and leaves nothing behind when run again', async () => {
    await tubwright(`export good.tub --out ${directory}`);
    const first = await contents();
    const { out } = await tubwright(`export good.tub --out ${directory}`);
    expect(await contents()).toEqual(first);
    expect(out.split('\n').every((line) => line.endsWith('unchanged'))).toBe(true);
  });

  it('refuses with errors, and exports all the same when told to', async () => {
    expect(await tubwright(`export bad.tub --out ${directory}`)).toEqual({
      code: 1,
      out: '',
      error: 'bad.tub has 1 error: nothing is exported; tubwright check lists them, --with-errors exports all the same',
    });
    expect(await readdir(directory)).toEqual([]);
    expect((await tubwright(`export bad.tub --out ${directory} --dxf --with-errors`)).code).toBe(0);
    expect(await readdir(directory)).toEqual(['Corner-tray-floor.dxf']);
  });

  it('names the parts that could not be laid flat', async () => {
    const { code, out, error } = await tubwright(`export stub.tub --out ${directory} --dxf --csv`);
    expect(code).toBe(0);
    expect(error).toBe('Part floor has no flat pattern, so it is not among the flat patterns');
    expect(out).toBe('Stub-parts.csv new\nStub-bends.csv new\nStub-seams.csv new\nStub-hardware.csv new');
  });

  it('replaces its own earlier export, whatever the format', async () => {
    await tubwright(`export good.tub --out ${directory}`);
    for (const name of await readdir(directory)) {
      const more = name.endsWith('.csv') ? 'Corner tray,one row more\r\n' : ' ';
      await writeFile(join(directory, name), Buffer.concat([await readFile(join(directory, name)), Buffer.from(more)]));
    }
    const { code, out } = await tubwright(`export good.tub --out ${directory}`);
    expect(code).toBe(0);
    expect(out.split('\n').every((line) => line.endsWith('replaced'))).toBe(true);
  });

  it('never replaces a file that is not its own, and then writes nothing at all', async () => {
    await writeFile(join(directory, 'Corner-tray-floor.svg'), 'drawn by hand');
    const { code, error } = await tubwright(`export good.tub --out ${directory} --dxf --svg`);
    expect(code).toBe(2);
    expect(error).toBe(
      `${join(directory, 'Corner-tray-floor.svg')} is not an earlier export of Corner tray and is left alone: nothing is written`,
    );
    expect(await contents()).toEqual({ 'Corner-tray-floor.svg': 'drawn by hand' });
  });

  it.each([
    ['a folder', (path: string) => mkdir(path), 'is a folder where a file is to go'],
    ['a link to a file', (path: string) => symlink('own.txt', path), 'is a link to something else and is left alone'],
    ['a link to nothing', (path: string) => symlink('nowhere', path), 'is a link to something else and is left alone'],
    ['a pipe', (path: string) => promisify(execFile)('mkfifo', [path]), 'is no plain file and is left alone'],
  ])('leaves %s alone, and then writes nothing at all', async (_, put, words) => {
    await writeFile(join(directory, 'own.txt'), 'drawn by hand');
    const path = join(directory, 'Corner-tray-floor.svg');
    await put(path);
    const before = await lstat(path);
    const { code, error } = await tubwright(`export good.tub --out ${directory} --dxf --svg`);
    expect([code, error]).toEqual([2, `${path} ${words}: nothing is written`]);
    expect((await lstat(path)).ino).toBe(before.ino);
    expect(await readdir(directory)).toEqual(['Corner-tray-floor.svg', 'own.txt']);
    expect(await readFile(join(directory, 'own.txt'), 'utf8')).toBe('drawn by hand');
  });

  it('names pieces that lie on no sheet, and the drawings of sheets that are out of date', async () => {
    await tubwright(`export large.tub --out ${directory} --nest`);
    expect(await readdir(directory)).toEqual(['Corner-tray-sheet-1.dxf']);
    const refused = await tubwright(`export small.tub --out ${directory} --nest`);
    expect([refused.code, refused.error]).toEqual([
      1,
      expect.stringMatching(/^small.tub has 1 error: nothing is exported/),
    ]);
    const { out, error } = await tubwright(`export small.tub --out ${directory} --nest --with-errors`);
    expect(out).toBe('Corner-tray-sheet-1.dxf no longer made');
    const [named, stale, ...rest] = error.split('\n');
    expect(named).toMatch(
      /^Part floor \(200\.0 by 1\d\d\.\d mm\) lies on no sheet: larger than every blank that fits the cutter$/,
    );
    expect(stale).toBe('One file of an earlier export is no longer made and may be out of date; --clean removes it');
    expect(rest).toEqual([]);
  });

  it('names what an earlier export of the same formats wrote and this one does not, and removes it when told to', async () => {
    await tubwright(`export good.tub --out ${directory} --dxf --svg`);
    const drawing = await readFile(join(directory, 'Corner-tray-floor.dxf'), 'utf8');
    for (const name of ['Corner-tray-wall.dxf', 'Corner-tray-wall.svg', 'Corner-tray-sheet-1.dxf', 'letter.dxf']) {
      const mark = fileMark(name.replace(/\..*/, ''));
      await writeFile(join(directory, name), drawing.replace(fileMark('Corner-tray-floor'), mark));
    }
    // A copy that was made by hand.
    await writeFile(join(directory, 'Corner-tray-mine.dxf'), drawing);
    await writeFile(join(directory, 'Corner-tray-lid.dxf'), 'drawn by hand');
    const named = await tubwright(`export good.tub --out ${directory} --dxf`);
    expect([named.code, named.error]).toEqual([
      0,
      'One file of an earlier export is no longer made and may be out of date; --clean removes it',
    ]);
    expect(named.out).toBe('Corner-tray-floor.dxf unchanged\nCorner-tray-wall.dxf no longer made');
    expect((await readdir(directory)).length).toBe(8);
    const cleaned = await tubwright(`export good.tub --out ${directory} --dxf --clean`);
    expect([cleaned.code, cleaned.error]).toEqual([0, '']);
    expect(cleaned.out).toBe('Corner-tray-floor.dxf unchanged\nCorner-tray-wall.dxf removed');
    expect(await readdir(directory)).toEqual([
      'Corner-tray-floor.dxf',
      'Corner-tray-floor.svg',
      'Corner-tray-lid.dxf',
      'Corner-tray-mine.dxf',
      'Corner-tray-sheet-1.dxf',
      'Corner-tray-wall.svg',
      'letter.dxf',
    ]);
  });

  it('takes away the folders that it made when it then cannot write', async () => {
    await writeFile(join(directory, 'own.txt'), '');
    const inside = join(directory, 'new', 'deep');
    const { code } = await tubwright(`export good.tub --out ${inside}${'x'.repeat(300)} --dxf`);
    expect(code).toBe(2);
    expect(await readdir(directory)).toEqual(['own.txt']);
  });

  it('says in one sentence when it cannot write', async () => {
    await writeFile(join(directory, 'file'), '');
    const { code, error } = await tubwright(`export good.tub --out ${join(directory, 'file')} --dxf`);
    expect(code).toBe(2);
    expect(error).toBe(
      `Cannot write into ${join(directory, 'file')}: a file of that name is in the way; nothing is changed`,
    );
    expect((await stat(join(directory, 'file'))).isFile()).toBe(true);
  });

  it('knows every format of the command line or says that it cannot export it', async () => {
    for (const format of exportFormats) {
      const { code, error } = await tubwright(`export good.tub --out ${directory} --${format}`);
      const known = exporters.some((exporter) => exporter.format === format);
      const nothing: Partial<Record<ExportFormat, RegExp>> = {
        nest: /no sheet to cut$/,
        template: /no template to print$/,
      };
      expect(code).toBe(known ? 0 : 2);
      expect(error).toMatch(known ? (nothing[format] ?? /^$/) : `This version cannot export --${format}`);
    }
  });
});
