/** An editor that asks for findings gets what another one is sent, and is sent none. */
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { DocumentDiagnosticReport } from 'vscode-languageserver';
import type { Diagnostic } from 'vscode-languageserver-types';
import { connectInProcess, type LspClient } from '../../support/lsp-client.js';
import { BASIN, SHOP } from '../../support/tubs/basin-text.js';

const files = { 'shop.tub': SHOP };
const FAULTY = BASIN.replace('falling', 'fallin');

let asking: LspClient;
let sent: LspClient;
beforeAll(async () => {
  [asking, sent] = await Promise.all([connectInProcess({ files, asks: true }), connectInProcess({ files })]);
});
afterAll(() => Promise.all([asking.close(), sent.close()]));

const uriOf = (name: string): string => `memory:/tubs/${name}`;
const ask = (name: string, previousResultId?: string): Promise<DocumentDiagnosticReport> =>
  asking.request('textDocument/diagnostic', {
    textDocument: { uri: uriOf(name) },
    ...(previousResultId !== undefined && { previousResultId }),
  });
const itemsOf = (report: DocumentDiagnosticReport): readonly Diagnostic[] => {
  if (report.kind !== 'full') throw new Error('There is nothing new');
  return report.items;
};

/** Until the editor is told to ask again, once more than before. */
const askedAgain = async (before: number): Promise<void> => {
  while (asking.refreshed.filter((what) => what === 'diagnostic').length <= before)
    await new Promise((resolve) => setTimeout(resolve, 5));
};
const refreshes = (): number => asking.refreshed.filter((what) => what === 'diagnostic').length;

describe('an editor that asks', () => {
  test('is told so by the server, another one is not', () => {
    expect(asking.capabilities.diagnosticProvider).toMatchObject({ interFileDependencies: true });
    expect(sent.capabilities.diagnosticProvider).toBeUndefined();
  });

  test('is answered of a text that it has just opened, and sent nothing', async () => {
    await asking.show(uriOf('one.tub'), FAULTY);
    const items = itemsOf(await ask('one.tub'));
    await sent.open('one.tub', FAULTY);
    expect(items).toEqual(await sent.diagnostics(uriOf('one.tub')));
    expect(items.length).toBeGreaterThan(0);
    expect(asking.listed(uriOf('one.tub'))).toEqual([]);
  });

  test('is answered of the text as it stands after every edit, however fast they come', async () => {
    await asking.show(uriOf('two.tub'), BASIN);
    await sent.open('two.tub', BASIN);
    const edits = [
      ['falling', 'fallin'],
      ['fallin', 'falling'],
      ['heading', 'headin'],
    ] as const;
    for (const [from, to] of edits) {
      await asking.edit(uriOf('two.tub'), from, to);
      await sent.edit(uriOf('two.tub'), from, to);
      expect(itemsOf(await ask('two.tub'))).toEqual(await sent.diagnostics(uriOf('two.tub')));
    }
  });

  test('is told that nothing changed where nothing did', async () => {
    await asking.show(uriOf('three.tub'), FAULTY);
    const first = await ask('three.tub');
    expect(await ask('three.tub', first.resultId)).toEqual({ kind: 'unchanged', resultId: first.resultId });
    await asking.edit(uriOf('three.tub'), 'fallin', 'falling');
    const second = await ask('three.tub', first.resultId);
    expect(second.kind).toBe('full');
    expect(second.resultId).not.toBe(first.resultId);
  });

  test('is told to ask again when a file that the text uses changes', async () => {
    await asking.show(uriOf('four.tub'), BASIN);
    const before = itemsOf(await ask('four.tub'));
    const count = refreshes();
    await asking.show(uriOf('shop.tub'), 'shop "No tools" {');
    await askedAgain(count);
    const after = itemsOf(await ask('four.tub'));
    expect(after).not.toEqual(before);
  });

  test('is answered with nothing for a text that nobody knows', async () => {
    expect(itemsOf(await ask('none.tub'))).toEqual([]);
  });
});
