/** The packages beside the extension: the example of the library's page in Node and in a browser's world, and the command line by itself. */
import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { createContext, runInContext } from 'node:vm';
import { build } from 'esbuild';
import type * as Library from '../../src/language/hosts/library.js';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';

const root = path.resolve(import.meta.dirname, '../..');
const folder = mkdtempSync(path.join(tmpdir(), 'packages-'));
const example = /```js\n([^]*?)```/.exec(
  readFileSync(path.join(root, 'src/language/manual/pages/library.md'), 'utf8'),
)![1];
const node = (...args: string[]): string => execFileSync(process.execPath, args, { cwd: folder, encoding: 'utf8' });
const manifestOf = (name: string): Record<string, unknown> =>
  JSON.parse(readFileSync(path.join(folder, name, 'package.json'), 'utf8')) as Record<string, unknown>;

beforeAll(() => {
  execFileSync(process.execPath, ['scripts/packages.mjs', folder], { cwd: root });
  mkdirSync(path.join(folder, 'node_modules'));
  symlinkSync(path.join(folder, 'core'), path.join(folder, 'node_modules/tubwright-core'), 'dir');
  writeFileSync(path.join(folder, 'example.mjs'), example);
}, 60_000);
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('the core as a library', () => {
  test('its example is short, and tells findings, sizes and files', () => {
    expect(example.trim().split('\n').length).toBeLessThanOrEqual(30);
    const told = node('example.mjs');
    // By hand: 75 + 60 less the deduction of a bend of 92 deg at R 1.6.
    expect(told).toMatch(/^shelf 135\.\d+ x 300 mm$/m);
    expect(told).toMatch(/^Drip-shelf-shelf\.dxf \d+$/m);
    expect(told).toMatch(/: (info|warning) [a-z]+\/[a-z-]+: /);
  });

  test('tells the same where there is nothing of Node', async () => {
    const { outputFiles } = await build({
      entryPoints: [path.join(folder, 'example.mjs')],
      bundle: true,
      write: false,
      platform: 'browser',
      format: 'esm',
    });
    const lines: string[] = [];
    const world = createContext({
      console: { log: (...words: unknown[]) => lines.push(words.join(' ')) },
      TextEncoder,
      TextDecoder,
      URL,
      setTimeout,
      clearTimeout,
    });
    // A module's body, of which a script that may wait is made.
    await runInContext(`(async () => {${outputFiles[0].text}\n})()`, world);
    expect(`${lines.join('\n')}\n`).toBe(node('example.mjs'));
  });

  test('needs no other package, and its types name what it has', async () => {
    const { dependencies, exports } = manifestOf('core') as { dependencies?: object; exports: Record<string, object> };
    expect(dependencies).toBeUndefined();
    expect(
      Object.values(exports['.']).every((file: string) =>
        readdirSync(path.join(folder, 'core')).includes(path.basename(file)),
      ),
    ).toBe(true);
    const types = readFileSync(path.join(folder, 'core/index.d.ts'), 'utf8');
    const declared = [...types.matchAll(/^export declare const (\w+)/gm)].map(([, name]) => name);
    const has = (await import(path.join(folder, 'core/index.js'))) as object;
    expect(declared.sort()).toEqual(Object.keys(has).sort());
    const report = types.slice(types.indexOf('export type Report'));
    for (const key of ['parts', 'bends', 'seams', 'water', 'making']) expect(report).toContain(`readonly ${key}:`);
  });

  test('refuses files of a tub with errors, of none, and a variant that is not there', async () => {
    const { readTub } = (await import(path.join(folder, 'core/index.js'))) as typeof Library;
    await expect(readTub('units mm').make(['dxf'])).rejects.toThrow('describes no tub');
    expect(readTub('units mm').report()).toBeUndefined();
    const bent = 'units mm\nsheet s = steel thickness 1 radius 1\npanel a of s = (0,0,0) (9,0,0) (9,9,0) (0,9,7)\n';
    await expect(readTub(bent).make(['dxf'])).rejects.toThrow(/^The tub has \d+ errors?$/);
    expect(() => readTub(bent, { variant: 'wide' })).toThrow('no variant "wide"');
  });
});

describe('the command line as a package', () => {
  test('is a few files without other packages, and works away from here', () => {
    const { dependencies, bin } = manifestOf('cli') as { dependencies?: object; bin: Record<string, string> };
    expect(dependencies).toBeUndefined();
    expect(readdirSync(path.join(folder, 'cli'), { recursive: true }).length).toBeLessThanOrEqual(30);
    writeFileSync(path.join(folder, 'shelf.tub'), /`\n([^]*?)use /.exec(example)![1]);
    const cli = path.join(folder, 'cli', bin.tubwright);
    expect(node(cli, 'check', 'shelf.tub')).toContain('shelf.tub:');
    expect(node(cli, 'explain', 'drain/pool')).toContain('drain/pool');
    node(cli, 'export', 'shelf.tub', '--pdf', '--out', 'out');
    expect(readFileSync(path.join(folder, 'out/Drip-shelf-traveller.pdf')).subarray(0, 5).toString()).toBe('%PDF-');
  });
});
