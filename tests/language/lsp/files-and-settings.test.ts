/** What an editor tells a server of files, folders and settings while texts are open. */
import { afterEach, describe, expect, test } from 'vitest';
import type { WorkspaceEdit } from 'vscode-languageserver';
import { connectInProcess, type ClientOptions, type LspClient } from '../../support/lsp-client.js';

const MAIN = `units mm
use "parts/shop.tub"
sheet skin = steel 18 ga radius 1.6
let here = there / 2
existing block from "block.stl"
`;

let client: LspClient;
afterEach(() => client.close());

const started = async (options: ClientOptions): Promise<LspClient> => {
  client = await connectInProcess(options);
  return client;
};

/** Once the findings of a text are as wished. */
const codesUntil = async (uri: string, isSo: (codes: readonly unknown[]) => boolean): Promise<readonly unknown[]> => {
  for (let i = 0; i < 100; i++) {
    const codes = client.listed(uri).map(({ code }) => code);
    if (isSo(codes)) return codes;
    await new Promise((resolve) => setTimeout(resolve, 20));
  }
  return client.listed(uri).map(({ code }) => code);
};

describe('a file that gets another name', () => {
  const renamed = async (moves: Readonly<Record<string, string>>): Promise<string[][]> => {
    const { folder } = await ready();
    const files = Object.entries(moves).map(([from, to]) => ({ oldUri: `${folder}/${from}`, newUri: `${folder}/${to}` }));
    const edit = await client.request<WorkspaceEdit | null>('workspace/willRenameFiles', { files });
    return Object.entries(edit?.changes ?? {}).map(([uri, edits]) => [uri.slice(folder.length + 1), ...edits.map(({ newText }) => newText)]);
  }; // prettier-ignore
  const ready = async (): Promise<{ readonly folder: string }> => {
    await started({ files: { 'parts/shop.tub': 'units mm\nlet there = 5\n' } });
    const uri = await client.open('main.tub', MAIN);
    return { folder: uri.slice(0, -'/main.tub'.length) };
  };

  test('is called so by the texts that use it', async () => {
    expect(await renamed({ 'parts/shop.tub': 'parts/my shop.tub' })).toEqual([['main.tub', '"parts/my shop.tub"']]);
  });

  test('in a folder that moves, too, also a thing', async () => {
    expect(await renamed({ parts: 'old/parts', 'block.stl': 'old/block.stl' })).toEqual([
      ['main.tub', '"old/parts/shop.tub"', '"old/block.stl"'],
    ]);
  });

  test('and itself goes on naming its own', async () => {
    expect(await renamed({ 'main.tub': 'tubs/main.tub' })).toEqual([
      ['main.tub', '"../parts/shop.tub"', '"../block.stl"'],
    ]);
    expect(await renamed({ 'main.tub': 'other.tub' })).toEqual([]);
  });
});

test('a folder that is added later may be used, and one that goes may not', async () => {
  const other = 'memory:/other';
  await started({ files: { [`${other}/shop.tub`]: 'units mm\nlet there = 5\n' } });
  const uri = await client.open('main.tub', 'units mm\nuse "../other/shop.tub"\nlet here = there / 2\n');
  const folder = { uri: other, name: 'other' };
  expect(await codesUntil(uri, (codes) => codes.includes('use/outside-workspace'))).toContain('use/outside-workspace');
  await client.notify('workspace/didChangeWorkspaceFolders', { event: { added: [folder], removed: [] } });
  expect(await codesUntil(uri, (codes) => codes.length === 0)).toEqual([]);
  await client.notify('workspace/didChangeWorkspaceFolders', { event: { added: [], removed: [folder] } });
  expect(await codesUntil(uri, (codes) => codes.length > 0)).toContain('use/outside-workspace');
});

test('findings are shown at the severity that the settings give their code, at once when that changes', async () => {
  await started({ settings: {} });
  const uri = await client.open('tray.tub', 'units mm\nsheet skin = steel 18 ga radius 1.6\npanel p of skin = A B (90, 90, 0)\npoint A = (0, 0, 0) point B = (90, 0, 0)\nflange f on p[A B] turned up 90 deg by 20\n'); // prettier-ignore
  const severityOf = (code: string): number | undefined =>
    client.listed(uri).find((each) => each.code === code)?.severity;
  expect(severityOf('make/default-shop')).toBe(3);
  const change = (severity: object): Promise<void> =>
    client.notify('workspace/didChangeConfiguration', { settings: { tubwright: { findings: { severity } } } });
  await change({ 'make/default-shop': 'error' });
  await codesUntil(uri, () => severityOf('make/default-shop') === 1);
  expect(severityOf('make/default-shop')).toBe(1);
  await change({ 'make/default-shop': 'off', 'text/syntax': 'off' });
  expect(await codesUntil(uri, (codes) => !codes.includes('make/default-shop'))).not.toContain('make/default-shop');
  await client.edit(uri, 'panel p', 'panl p');
  expect(await codesUntil(uri, (codes) => codes.includes('text/syntax'))).toContain('text/syntax');
});
