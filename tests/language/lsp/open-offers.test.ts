import { Cancellation, DocumentState } from 'langium';
import { expect, test } from 'vitest';
import type { CodeAction } from 'vscode-languageserver-types';
import { toDiagnostics } from '../../../src/language/diagnostics/findings-to-lsp.js';
import { TubCodeActions } from '../../../src/language/lsp/code-actions.js';
import { analyseText, testServices } from '../../support/analyse-text.js';
import { BASIN, SHOP } from '../../support/tubs/basin-text.js';

/** A clock that stands still until it is told otherwise. */
const clock = (): { now: () => number; advance: (ms: number) => void } => {
  let time = 0;
  return { now: () => time, advance: (ms) => (time += ms) };
};

test('what takes long is listed without its number, which is worked out when it is chosen', async () => {
  const { shared, tub } = testServices();
  const time = clock();
  // Each look at the clock takes longer than a list may.
  const actions = new TubCodeActions(tub, () => {
    time.advance(200);
    return time.now();
  });
  await shared.lsp.LanguageServer.initialize({
    processId: null,
    rootUri: null,
    workspaceFolders: null,
    capabilities: { textDocument: { codeAction: { resolveSupport: { properties: ['edit'] } } } },
  });
  const text = `${BASIN.replace('let fall   = 3 deg', 'let fall   = 2 deg')}inflow 25 L/min on shelf\npath shelf chute sump drain at least 2 deg\n`;
  const { document } = analyseText(text, { files: { 'shop.tub': SHOP } });
  document.state = DocumentState.Validated;
  const { LangiumDocuments } = shared.workspace;
  const [diagnostic] = toDiagnostics(LangiumDocuments, tub.analysis.Analyses.of(document)).filter(
    ({ code }) => code === 'drain/too-flat',
  );
  const list = (): Promise<CodeAction[]> =>
    actions.getCodeActions(document, {
      textDocument: { uri: document.uri.toString() },
      range: diagnostic.range,
      context: { diagnostics: [diagnostic], only: ['quickfix'] },
    });
  const open = (await list()).find(({ title }) => title === 'Look for a number that puts this right');
  expect(open).toMatchObject({ kind: 'quickfix' });
  expect(open?.edit).toBeUndefined();

  const { edit } = await actions.resolve(open!, Cancellation.CancellationToken.None);
  expect(edit?.changes?.[document.uri.toString()]).toEqual([expect.objectContaining({ newText: '2.5' })]);
  // Now that it is known, it is listed with its number, and nothing is open any more.
  expect((await list()).map(({ title }) => title)).toContain('Set `fall` to 2.5 deg: computed to pass');
});
