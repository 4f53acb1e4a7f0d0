import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { CodeAction, CompletionList, Hover } from 'vscode-languageserver-types';
import { connectInProcess, type LspClient } from '../../support/lsp-client.js';

let client: LspClient;

beforeAll(async () => {
  client = await connectInProcess({ files: {} });
});
afterAll(() => client.close());

describe('free values in the editor', () => {
  test('a limit without unit gets that of the value', async () => {
    const uri = await client.open('unit.tub', 'let fall = 4 deg free 1 deg to 8\n');
    const [diagnostic] = await client.diagnostics(uri);
    expect(diagnostic.code).toBe('unit/missing');
    const actions = await client.request<CodeAction[]>('textDocument/codeAction', {
      textDocument: { uri },
      range: diagnostic.range,
      context: { diagnostics: [diagnostic] },
    });
    expect(actions[0]).toMatchObject({ title: 'Write it in deg', isPreferred: true });
    expect(await client.apply(uri, actions[0].edit!.changes![uri])).toBe('let fall = 4 deg free 1 deg to 8 deg\n');
    expect(await client.diagnostics(uri)).toEqual([]);
  });

  test('a free value tells its limits, in the unit in which it is written', async () => {
    const uri = await client.open('hover.tub', 'units mm\nlet rim = 10 in free 5 in to 300 by 1/2 in\n');
    const hover = await client.request<Hover>('textDocument/hover', {
      textDocument: { uri },
      position: { line: 1, character: 5 },
    });
    expect(JSON.stringify(hover.contents)).toContain('free from 5 in to 11.811 in, in steps of 0.5 in');
  });

  test('behind `least let` only free values are offered', async () => {
    const text = 'units mm\nlet rim = 250 free 120 to 300\nlet wide = 400\npoint A = (0, 0, 0)\naim { least let  }\n';
    const uri = await client.open('completion.tub', text);
    const { items } = await client.request<CompletionList>('textDocument/completion', {
      textDocument: { uri },
      position: { line: 4, character: 16 },
    });
    const names = items.filter(({ sortText }) => sortText?.startsWith('0')).map(({ label }) => label);
    expect(names).toEqual(['rim']);
  });
});
