/** Files of the disk whose path stays inside a folder while a link leads out of it. */
import { mkdir, mkdtemp, rm, symlink, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { limits } from '../../src/analysis/model/limits.js';
import { analyseFile } from '../../src/language/cli/disk/analyse-file.js';

let folder: string;

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'tubwright-links-'));
  await mkdir(join(folder, 'home', 'inner'), { recursive: true });
  await mkdir(join(folder, 'elsewhere'));
  await writeFile(join(folder, 'elsewhere', 'secret.tub'), 'let told = 7 mm\n');
  await writeFile(join(folder, 'home', 'inner', 'shared.tub'), 'let told = 5 mm\n');
  await symlink(join(folder, 'elsewhere'), join(folder, 'home', 'way'));
  await symlink(join(folder, 'elsewhere', 'secret.tub'), join(folder, 'home', 'here.tub'));
  await symlink(join(folder, 'home', 'inner', 'shared.tub'), join(folder, 'home', 'short.tub'));
  await symlink(join(folder, 'home'), join(folder, 'linked-home'));
});
afterAll(() => rm(folder, { recursive: true }));

const codesOf = async (used: string, home = 'home'): Promise<readonly string[]> => {
  const main = join(folder, home, `main-${used.replace(/\W/g, '-')}`);
  await writeFile(`${main}.tub`, `use "${used}"\nlet half = told / 2\n`);
  return (await analyseFile(`${main}.tub`)).findings.map(({ code }) => code).sort();
};

test.each(['way/secret.tub', 'here.tub'])(
  '`use` of %s, which lies elsewhere, takes nothing in and is told',
  async (used) => {
    expect(await codesOf(used)).toEqual(['text/unknown-name', 'use/outside-workspace']);
  },
);

test('a link that stays inside is followed, also in a folder that is a link itself', async () => {
  expect(await codesOf('short.tub')).toEqual([]);
  expect(await codesOf('inner/shared.tub', 'linked-home')).toEqual([]);
});

test('of a file larger than a text may be no more is read, and that is told', async () => {
  const path = join(folder, 'home', 'large.tub');
  await writeFile(path, '/'.repeat(5 * limits.text.atMost));
  const { findings } = await analyseFile(path);
  expect(findings.map(({ code, message }) => [code, message])).toEqual([
    ['text/syntax', expect.stringMatching(/needs at most 4000000, the limit of a text$/)],
  ]);
});
