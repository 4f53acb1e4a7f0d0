import { afterAll, beforeAll, expect, test, vi } from 'vitest';
import type { InlayHint } from 'vscode-languageserver-types';
import { connectInProcess, type LspClient } from '../../support/lsp-client.js';

const SHARED = 'let wide = 200 mm\n';
const TUB = `units mm
tub "Tray"
use "shared.tub"
let half = wide / 2
sheet skin = stainless thickness 1.2 radius 1.2
panel base of skin = (0, 0, 0) (half, 0, 0) (half, 100, 4) (0, 100, 0)
`;

let client: LspClient;
let uri: string;
let shared: string;

beforeAll(async () => {
  client = await connectInProcess({ files: { 'shared.tub': SHARED } });
  uri = await client.open('tray.tub', TUB);
  shared = await client.open('shared.tub', SHARED);
});
afterAll(() => client.close());

const hints = async (): Promise<string> => {
  const range = { start: { line: 0, character: 0 }, end: { line: 99, character: 0 } };
  const found = await client.request<InlayHint[]>('textDocument/inlayHint', { textDocument: { uri }, range });
  return found.map(({ label }) => String(label)).join(' ');
};

const untilRefreshed = (): Promise<void> =>
  vi.waitFor(() => expect(new Set(client.refreshed)).toEqual(new Set(['codeLens', 'inlayHint', 'semanticTokens'])));

test('the editor is told to ask anew when a file that the text uses changes', async () => {
  expect(await hints()).toContain('= 100 mm');
  client.refreshed.length = 0;
  await client.edit(shared, '200', '300');
  await untilRefreshed();
  expect(await hints()).toContain('= 150 mm');
});

test('the editor is told to ask anew when a setting changes', async () => {
  client.refreshed.length = 0;
  await client.notify('workspace/didChangeConfiguration', { settings: { tubwright: { hints: { values: false } } } });
  await untilRefreshed();
  expect(await hints()).not.toContain('=');
});

test('typing in a text that no other uses refreshes nothing: the editor asks by itself', async () => {
  client.refreshed.length = 0;
  await client.edit(uri, '100, 4', '100, 5');
  await client.diagnostics(uri);
  expect(client.refreshed).toEqual([]);
});
