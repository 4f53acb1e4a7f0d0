import { execFileSync } from 'node:child_process';
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import type * as vscode from 'vscode';
import { editorWriter } from '../../src/extension/commands/editor-writer.js';
import { exportMark, isOwnExport } from '../../src/files/own-mark.js';
import { STAGING } from '../../src/files/staging.js';
import { writeSet } from '../../src/files/write-set.js';
import { Uri, workspace } from '../support/vscode-files.js';

vi.mock('vscode', () => import('../support/vscode-files.js'));

let folder = '';
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'tubwright-editor-'));
});
afterEach(() => {
  vi.restoreAllMocks();
  rmSync(folder, { recursive: true });
});

const write = (version: string, parts: readonly string[] = ['floor', 'wall']) =>
  writeSet(
    editorWriter(new Uri(folder) as unknown as vscode.Uri),
    {
      tub: 'tray',
      files: parts.map((part) => ({
        name: `tray-${part}`,
        bytes: new TextEncoder().encode(`${exportMark('tray')} ${part} ${version}`),
      })),
      earlier: /^tray-.+$/u,
    },
    { stale: 'remove', isOwn: (bytes, tub) => isOwnExport(bytes, tub, []) },
  );

const contents = (): Record<string, string> =>
  Object.fromEntries(
    readdirSync(folder, { withFileTypes: true }).map((entry) => [
      entry.name,
      entry.isFile() ? (readFileSync(join(folder, entry.name), 'utf8').split('; ')[1] ?? 'other') : 'no file',
    ]),
  );

it('writes, replaces, adds and removes', async () => {
  await write('one');
  const { files } = await write('two', ['floor', 'lid']);
  expect(files.map(({ name, outcome }) => `${name} ${outcome}`)).toEqual([
    'tray-floor replaced',
    'tray-lid new',
    'tray-wall removed',
  ]);
  expect(contents()).toEqual({ 'tray-floor': 'floor two', 'tray-lid': 'lid two' });
});

it.each([
  [
    'a folder with something in it',
    (path: string) => (mkdirSync(path), writeFileSync(join(path, 'letter'), 'dear')),
    'is a folder',
  ],
  ['an empty folder', (path: string) => mkdirSync(path), 'is a folder'],
  ['a link to a folder', (path: string) => symlinkSync('.', path), 'is a link'],
  ['a link to nothing', (path: string) => symlinkSync('nowhere', path), 'is a link'],
  ['a pipe', (path: string) => execFileSync('mkfifo', [path]), 'is no plain file'],
  ['a file of someone else', (path: string) => writeFileSync(path, 'dear'), 'is not an earlier export'],
])('leaves %s alone, and then writes nothing', async (_, put, words) => {
  put(join(folder, 'tray-wall'));
  await expect(write('one')).rejects.toThrow(words);
  expect(Object.keys(contents())).toEqual(['tray-wall']);
  const letter = join(folder, 'tray-wall', 'letter');
  if (existsSync(letter)) expect(readFileSync(letter, 'utf8')).toBe('dear');
});

it('a folder that comes into the place while the files are written is not deleted, and all is undone', async () => {
  await write('one');
  const { rename } = workspace.fs;
  vi.spyOn(workspace.fs, 'rename').mockImplementation(async (from, to, options) => {
    if (to.path.endsWith('tray-lid')) {
      mkdirSync(to.path);
      writeFileSync(join(to.path, 'letter'), 'dear');
    }
    await rename(from, to, options);
  });
  await expect(write('two', ['floor', 'wall', 'lid'])).rejects.toThrow('nothing is changed');
  expect(contents()).toEqual({ 'tray-floor': 'floor one', 'tray-wall': 'wall one', 'tray-lid': 'no file' });
  expect(readFileSync(join(folder, 'tray-lid', 'letter'), 'utf8')).toBe('dear');
  expect(readdirSync(folder)).not.toContain(STAGING);
});
