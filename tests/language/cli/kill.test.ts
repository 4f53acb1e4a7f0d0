/**
 * A process killed while it writes an export: at random moments from outside, and from within before single changes of
 * names. What a reader sees after the next run is all old or all new. KILL_CLI: the command line itself is killed instead
 * of the small program that writes by the same code.
 */
import { execFile, spawn, type ChildProcess } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { build } from 'esbuild';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { STAGING } from '../../../src/files/staging.js';
import { casesOf } from '../../support/cases.js';

const KILLS = casesOf(2, 0.7);
const MANY = KILLS > 4;
const CLI = process.env.KILL_CLI !== undefined;

/** As many parts as strips, so that the writing takes a while. */
const panText = (name: string, wall: number): string =>
  [
    `units mm\ntub "${name}"\nsheet skin = steel thickness 1 radius 1`,
    ...Array.from(
      { length: 12 },
      (_, i) =>
        `strip s${i} of skin from (0, ${i * 400}, 60) heading front across right 240 { panel a ${wall} falling 90 deg  panel b 250 falling 6 deg }`,
    ),
    '',
  ].join('\n');

/** Before the n-th change of a name the process is gone. */
const DIE = `const fs = require('node:fs');
let left = Number(process.env.DIE_AT);
for (const change of ['mkdirSync', 'linkSync', 'renameSync', 'unlinkSync', 'rmdirSync', 'fsyncSync']) {
  const real = fs[change];
  fs[change] = (...given) => {
    if (left-- === 0) process.kill(process.pid, 'SIGKILL');
    return real(...given);
  };
}
`;

const folder = mkdtempSync(join(tmpdir(), 'tubwright-kill-'));
const out = join(folder, 'out');
const root = join(import.meta.dirname, '../../..');

beforeAll(async () => {
  writeFileSync(join(folder, 'die.cjs'), DIE);
  if (CLI) {
    await promisify(execFile)(process.execPath, [join(root, 'scripts/build.mjs'), `--to=${folder}`, 'cli']);
    writeFileSync(join(folder, 'old.tub'), panText('pan', 60));
    writeFileSync(join(folder, 'new.tub'), panText('pan', 70));
    writeFileSync(join(folder, 'other.tub'), panText('other', 60));
  } else {
    await build({
      entryPoints: [join(root, 'tests/support/tubs/write-pan.ts')],
      outfile: join(folder, 'write-pan.cjs'),
      bundle: true,
      platform: 'node',
    });
  }
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

type Version = 'old' | 'new' | 'other';

const start = (version: Version, dieAt?: number): ChildProcess => {
  const hook = dieAt === undefined ? [] : ['--require', './die.cjs'];
  const words = CLI
    ? ['cli.cjs', 'export', `${version}.tub`, '--out', 'out', '--dxf', '--svg', '--csv', '--with-errors', '--clean']
    : ['write-pan.cjs', version === 'other' ? 'other' : 'pan', version, 'out'];
  const env = { PATH: process.env.PATH, DIE_AT: String(dieAt) };
  return spawn(process.execPath, [...hook, ...words], { cwd: folder, stdio: 'ignore', env });
};

const endOf = (child: ChildProcess): Promise<number | NodeJS.Signals | null> =>
  new Promise((resolve) => child.on('close', (code, signal) => resolve(code ?? signal)));

const run = async (version: Version): Promise<void> => expect(await endOf(start(version))).toBe(0);

/** From when the process begins to write: before that it only reads. */
const writing = async (child: ChildProcess): Promise<void> => {
  while (!existsSync(join(out, STAGING)) && child.exitCode === null) await new Promise(setImmediate);
};

/** Names and texts of the tub's own files. */
const contents = (): string =>
  JSON.stringify(
    readdirSync(out)
      .filter((name) => !name.startsWith('other-') && name !== STAGING)
      .sort()
      .map((name) => [name, readFileSync(join(out, name), 'latin1')]),
  );

const wholeSets = async (): Promise<Record<'old' | 'new', string>> => {
  const sets = { old: '', new: '' };
  for (const version of ['new', 'old'] as const) {
    await run(version);
    sets[version] = contents();
  }
  expect(sets.new).not.toBe(sets.old);
  return sets;
};

const LONG = { timeout: 3_600_000 };

describe('an export that is killed', () => {
  it('at random moments leaves all old or all new, at the latest after the next run', LONG, async () => {
    const sets = await wholeSets();
    const seen = { old: 0, new: 0, mixed: 0 };
    let seed = 7;
    for (let kill = 0; kill < KILLS; kill++) {
      const child = start(contents() === sets.old ? 'new' : 'old');
      const end = endOf(child);
      await writing(child);
      seed = (seed * 16807) % 2147483647;
      await new Promise((resolve) => setTimeout(resolve, (seed / 2147483647) * 50));
      child.kill('SIGKILL');
      await end;
      const now = contents();
      seen[now === sets.old ? 'old' : now === sets.new ? 'new' : 'mixed'] += 1;
      await run('other');
      expect([sets.old, sets.new].includes(contents()), `kill ${kill}`).toBe(true);
      expect(readdirSync(out)).not.toContain(STAGING);
    }
    if (MANY) console.log(`${KILLS} kills; as seen before the next run: ${JSON.stringify(seen)}`);
  });

  it('before a change of a name leaves all old or all new after the next run', LONG, async () => {
    const sets = await wholeSets();
    const step = MANY ? 1 : CLI ? 20 : 45;
    let tried = 0;
    for (let at = step - 1; ; at += step, tried++) {
      if ((await endOf(start(contents() === sets.old ? 'new' : 'old', at))) === 0) break;
      await run('other');
      expect([sets.old, sets.new].includes(contents()), `point ${at}`).toBe(true);
    }
    expect(tried).toBeGreaterThan(1);
    if (MANY) console.log(`${tried} points`);
  });

  it('by a signal that asks it to end changes nothing or all, and leaves nothing behind', async () => {
    const sets = await wholeSets();
    const child = start('new');
    const end = endOf(child);
    await writing(child);
    child.kill('SIGTERM');
    const code = await end;
    expect([0, 2]).toContain(code);
    expect(contents()).toBe(code === 0 ? sets.new : sets.old);
    expect(readdirSync(out)).not.toContain(STAGING);
  });
});
