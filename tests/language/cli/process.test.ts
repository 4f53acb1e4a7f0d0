/** The command line as a whole process: exit codes, the two output streams, and bytes that hang on nothing outside. */
import { execFile, spawn } from 'node:child_process';
import { mkdir, mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';

const TRAY = `units mm
tub "Paint-roller tray"
use "shop.tub"
sheet skin = steel thickness 1  radius 1
strip floor of skin from (0, 300, 60) heading front across right 240 {
  panel back 60 falling 90 deg
  panel ramp 250 falling 6 deg
  panel front to z 60 rising 90 deg
}
`;
const SHOP = `shop "home shop" { bends within 0.5 deg }\n`;
const FAULTY = TRAY.replace('thickness 1 ', 'thickness 1 kg ');

let folder = '';
let cli = '';

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'tubwright-cli-'));
  cli = join(folder, 'cli.cjs');
  const script = join(import.meta.dirname, '../../../scripts/build.mjs');
  await promisify(execFile)(process.execPath, [script, `--to=${folder}`, 'cli', 'pdf-writer']);
  await mkdir(join(folder, 'tubs'));
  for (const [name, text] of Object.entries({ 'tray.tub': TRAY, 'shop.tub': SHOP, 'faulty.tub': FAULTY })) {
    await writeFile(join(folder, 'tubs', name), text);
  }
});
afterAll(() => rm(folder, { recursive: true, force: true }));

interface Ran {
  readonly code: number | null;
  readonly out: string;
  readonly error: string;
}

const tubwright = (words: readonly string[], environment: Readonly<Record<string, string>> = {}): Promise<Ran> =>
  new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [cli, ...words], {
      cwd: folder,
      env: { PATH: process.env.PATH, ...environment },
    });
    let [out, error] = ['', ''];
    child.stdout.on('data', (chunk: Buffer) => (out += chunk.toString()));
    child.stderr.on('data', (chunk: Buffer) => (error += chunk.toString()));
    child.on('error', reject);
    child.on('close', (code) => resolve({ code, out, error }));
  });

describe('the command line as a process', () => {
  it('checks a tub and the file it uses, and exits with 0', async () => {
    const { code, out, error } = await tubwright(['check', 'tubs/tray.tub', 'tubs/shop.tub', '--json']);
    expect([code, error]).toEqual([0, '']);
    expect((JSON.parse(out) as { files: { file: string }[] }).files.map(({ file }) => file)).toEqual([
      'tubs/tray.tub',
      'tubs/shop.tub',
    ]);
  });

  it('exits with 1 and the place of the error', async () => {
    const { code, out } = await tubwright(['check', 'tubs/faulty.tub']);
    expect(code).toBe(1);
    expect(out).toMatch(/^tubs\/faulty\.tub:4:30: error unit\/\S+: /m);
  });

  it.each([
    [['check', 'tubs/none.tub'], 'tubwright: There is no file tubs/none.tub\n'],
    [['check', 'tubs/tray.dxf'], 'tubwright: tubs/tray.dxf is no .tub file\n'],
    [
      ['report', 'tubs/shop.tub'],
      'tubwright: tubs/shop.tub describes no tub that could be worked out; tubwright check says why\n',
    ],
    [
      ['inspect'],
      'tubwright: There is no command inspect: it is check, report, solve, export, fmt, explain or completions; tubwright --help shows how\n',
    ],
  ])('%j exits with 2 and one sentence', async (words, sentence) => {
    expect(await tubwright(words)).toEqual({ code: 2, out: '', error: sentence });
  });

  it('reads a text from standard input as one of the current folder', async () => {
    const child = spawn(process.execPath, [cli, 'check', '-', '--json'], { cwd: join(folder, 'tubs') });
    child.stdin.end(FAULTY);
    let out = '';
    for await (const chunk of child.stdout) out += String(chunk);
    const { files } = JSON.parse(out) as { files: { file: string; findings: { code: string }[] }[] };
    expect(files.map(({ file }) => file)).toEqual(['-']);
    expect(files[0].findings.map(({ code }) => code)).not.toContain('use/missing-file');
  });

  it('paints no colour into a pipe unless it is asked to', async () => {
    expect((await tubwright(['check', 'tubs/faulty.tub'])).out).not.toContain('\u001b');
    expect((await tubwright(['check', 'tubs/faulty.tub'], { FORCE_COLOR: '1' })).out).toContain(
      '\u001b[31;1merror\u001b[0m',
    );
    expect((await tubwright(['check', 'tubs/faulty.tub'], { FORCE_COLOR: '1', NO_COLOR: '1' })).out).not.toContain(
      '\u001b',
    );
  });

  it('writes the same bytes in another locale and time zone, and the same report', async () => {
    const contents = async (name: string): Promise<Record<string, string>> =>
      Object.fromEntries(
        await Promise.all(
          (await readdir(join(folder, name))).map(async (file) => [
            file,
            await readFile(join(folder, name, file), 'latin1'),
          ]),
        ),
      );
    const here = { LC_ALL: 'C', TZ: 'UTC' };
    const there = { LC_ALL: 'de_DE.UTF-8', LANG: 'de_DE.UTF-8', TZ: 'Pacific/Auckland' };
    expect((await tubwright(['export', 'tubs/tray.tub', '--out', 'one'], here)).error).toBe('');
    expect((await tubwright(['export', 'tubs/tray.tub', '--out', 'two'], there)).error).toBe('');
    expect(Object.keys(await contents('one')).length).toBeGreaterThanOrEqual(4);
    expect(await contents('two')).toEqual(await contents('one'));
    const report = ['report', 'tubs/tray.tub', '--json'];
    expect(await tubwright(report, there)).toEqual(await tubwright(report, here));
  });
});
