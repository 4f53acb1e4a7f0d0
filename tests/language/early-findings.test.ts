import { URI } from 'langium';
import type { Connection, PublishDiagnosticsParams } from 'vscode-languageserver';
import type { Diagnostic } from 'vscode-languageserver-types';
import { describe, expect, test } from 'vitest';
import { movedDiagnostics } from '../../src/language/diagnostics/moved-diagnostics.js';
import { createTubServices } from '../../src/language/tub-module.js';
import { MemoryFiles } from '../support/memory-files.js';

/** A name that nothing uses is faded, and no finding. */
const codesOf = (diagnostics: readonly Diagnostic[]): readonly unknown[] =>
  diagnostics.flatMap(({ code }) => code ?? []);

const diagnosticAt = (text: string, word: string): Diagnostic => {
  const offset = text.indexOf(word);
  const line = text.slice(0, offset).split('\n').length - 1;
  const character = offset - (text.lastIndexOf('\n', offset) + 1);
  return { message: word, range: { start: { line, character }, end: { line, character: character + word.length } } };
};

const wordAt = (text: string, { range }: Diagnostic): string =>
  text.split('\n')[range.start.line].slice(range.start.character, range.end.character);

describe('findings of an earlier text', () => {
  const before = 'first line\nsecond line\nthird line and more\n';
  const late = ['first', 'second', 'third', 'more'].map((word) => diagnosticAt(before, word));

  test.each([
    [
      'a line put in before them',
      'first line\nnew\nsecond line\nthird line and more\n',
      ['first', 'second', 'third', 'more'],
    ],
    [
      'a line put in at the top',
      'new\nfirst line\nsecond line\nthird line and more\n',
      ['first', 'second', 'third', 'more'],
    ],
    ['a line taken out', 'first line\nthird line and more\n', ['first', 'third', 'more']],
    [
      'words put in on their line',
      'first line\nsecond line\nthird short line and more\n',
      ['first', 'second', 'third', 'more'],
    ],
    ['the same text', before, ['first', 'second', 'third', 'more']],
    ['another text', '???', []],
  ])('stand where their words do after %s', (_, after, words) => {
    expect(movedDiagnostics({ text: before, late }, after).map((diagnostic) => wordAt(after, diagnostic))).toEqual(
      words,
    );
  });
});

test('of a large tub, what is found first is shown first', async () => {
  const shown: PublishDiagnosticsParams[] = [];
  const connection = {
    sendDiagnostics: async (params: PublishDiagnosticsParams) => void shown.push(params),
  } as unknown as Connection;
  const files = new MemoryFiles();
  const { shared } = createTubServices({ connection, fileSystemProvider: () => files });
  const uri = URI.parse('file:///bench/long.tub');
  shared.workspace.DocumentBuilder.updateBuildOptions = { validation: true };
  const strips = Array.from(
    { length: 40 },
    (_, i) =>
      `strip s${i} of skin from (${i * 200}, 700, 500) heading front across right 150 {\n    panel a 60 falling 88 deg\n    panel b 120 falling 4 deg\n    panel c 70 falling 40 deg\n    panel d 120 falling 5 deg\n    panel e 60 rising 80 deg\n}\n`,
  );
  const check = async (text: string): Promise<readonly unknown[]> => {
    files.set(uri, text);
    await shared.workspace.DocumentBuilder.update([uri], []);
    return codesOf(shared.workspace.LangiumDocuments.getDocument(uri)?.diagnostics ?? []);
  };
  const text = `units mm\nsheet skin = stainless thickness 1.2 radius 1.2\n${strips.join('')}`;
  const before = await check(text);
  expect(shown).toEqual([]);
  const after = await check(`let slip = 1 mm + 1 deg\n${text}`);
  expect(shown).toHaveLength(1);
  const early = codesOf(shown[0].diagnostics);
  expect(early).toContain('unit/mixed');
  // Those of the checks that are not done yet are still there, a line further down.
  expect([...early].sort()).toEqual([...before, 'unit/mixed'].sort());
  expect([...after].sort()).toEqual([...early].sort());
});
