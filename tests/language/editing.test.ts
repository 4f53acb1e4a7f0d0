import { execFileSync } from 'node:child_process';
import { URI, type LangiumDocument } from 'langium';
import type { CompletionItem, Hover, MarkupContent } from 'vscode-languageserver';
import { describe, expect, test } from 'vitest';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { openTexts } from '../../src/language/workspace/open-texts.js';
import { testServices } from '../support/analyse-text.js';

const TEXT = `units mm
tub "Bench tray"
let rim = 100
let fall = 3 deg
sheet skin = stainless 18 ga  radius 1.2
/** where the water goes first */
strip floor of skin from (0, 300, rim) heading front across right 200 {
    panel back   60  falling 90 deg
    panel base  300  falling fall
    panel front  to z rim  rising 85 deg
}
side cheek of skin closes floor.left up to rim
point A = (0, 300, rim)  point B = (200, 300, rim)
point C = B + (0, 40, 5)  point D = A + (0, 40, 5)
panel apron of skin = A B C D
bend apron back
flange drip on apron[C D] turned down 90 deg by 5/8 in
seam cheek floor { weld tig }
`;

const uri = URI.parse('file:///bench/tray.tub');
const lsp = testServices().tub.lsp;
const open = (text = TEXT): LangiumDocument => openTexts(testServices(), [[uri, text]]);

/** Where the `count`-th `word` of the text starts, one letter in. */
const positionOf = (
  document: LangiumDocument,
  word: string,
  count = 1,
): { readonly textDocument: { readonly uri: string }; readonly position: { line: number; character: number } } => {
  const pattern = new RegExp(`(?<![A-Za-z0-9_])${word.replace(/[/$.*()[\]]/g, '\\$&')}(?![A-Za-z0-9_])`, 'g');
  const found = [...document.textDocument.getText().matchAll(pattern)][count - 1];
  return {
    textDocument: { uri: uri.toString() },
    position: document.textDocument.positionAt(found.index + (word.length > 1 ? 1 : 0)),
  };
};

describe('hover', () => {
  const hoverOn = async (word: string, count?: number): Promise<string> => {
    const document = open();
    const hover: Hover | undefined = await lsp.HoverProvider?.getHoverContent(
      document,
      positionOf(document, word, count),
    );
    return hover ? (hover.contents as MarkupContent).value : '';
  };

  test('of a bend shows its arithmetic', async () => {
    const text = await hoverOn('bend');
    expect(text).toContain('**Bend** `apron floor.back`');
    // DIN 6935 at R/T = 1.2 / 1.27: k / 2 = (0.65 + 0.5 lg 0.945) / 2 = 0.319.
    expect(text).toMatch(/K 0\.319 from DIN 6935/);
    expect(text).toMatch(/allowance [\d.]+ mm, setback [\d.]+ mm, deduction [\d.-]+ mm/);
  });

  test('of a leg shows its slope and the bend at its start', async () => {
    const text = await hoverOn('base');
    expect(text).toContain('**Panel** `floor.base`');
    expect(text).toContain('slopes 3 deg, 52.4 mm per metre');
    expect(text).toContain(
      '**Bend** `floor.back floor.base`: down, seen dry side up; 87 deg from flat: a gauge zeroed on `floor.base` reads that on `floor.back`, and 93 deg lie between their faces',
    );
  });

  test('of a reference shows what it refers to', async () => {
    expect(await hoverOn('rim', 2)).toContain('`let rim` = 100 mm (3.937 in)');
    expect(await hoverOn('fall', 2)).toContain('3 deg (5.24 % slope)');
    expect(await hoverOn('skin', 2)).toContain('**Sheet** `skin`: stainless, 1.27 mm (18 ga');
    expect(await hoverOn('C', 2)).toContain('**Point** `C` at (200, 340, 105) mm');
  });

  test('of a statement shows the note written above it', async () => {
    const text = await hoverOn('floor');
    expect(text).toContain('**Strip** `floor`: 3 legs, 200 mm wide');
    expect(text).toContain('where the water goes first');
  });

  test('of a number shows it in the other unit, of a word its meaning', async () => {
    expect(await hoverOn('5/8')).toBe('15.875 mm');
    expect(await hoverOn('heading')).toContain('Which way the legs run');
    expect(await hoverOn('seam')).toContain('**Seam** `cheek floor`');
  });
});

describe('completion', () => {
  const offered = async (text: string): Promise<readonly CompletionItem[]> => {
    const cursor = text.indexOf('|');
    const document = open(text.replace('|', ''));
    const list = await lsp.CompletionProvider?.getCompletion(document, {
      textDocument: { uri: uri.toString() },
      position: document.textDocument.positionAt(cursor),
    });
    return list?.items ?? [];
  };
  const labels = async (text: string): Promise<readonly string[]> => (await offered(text)).map(({ label }) => label);

  test('offers every statement where one may start, with its form', async () => {
    const items = await offered(`${TEXT}|`);
    const found = items.map(({ label }) => label);
    for (const word of ['panel', 'strip', 'seam', 'outlet', 'accept', 'shop']) expect(found).toContain(word);
    expect(items.find(({ label }) => label === 'strip … with legs')?.insertTextFormat).toBe(2);
    expect(found).not.toContain('panel … of a strip');
  });

  test('offers sheets behind `of`, points as corners, parts in a bend', async () => {
    expect(await labels(`${TEXT}panel lid of |`)).toEqual(['skin']);
    const corners = await labels(`${TEXT}panel lid of skin = A |`);
    for (const point of ['B', 'C', 'D']) expect(corners).toContain(point);
    expect(corners).not.toContain('fall');
    const parts = await labels(`${TEXT}bend |`);
    for (const part of ['apron', 'floor', 'cheek', 'drip', 'base']) expect(parts).toContain(part);
    expect(parts).not.toContain('fall');
  });

  test('offers legs and edges behind a dot, units behind a number, values in an expression', async () => {
    const behind = await labels(`${TEXT}bend apron floor.|`);
    for (const word of ['back', 'base', 'front', 'left', 'start']) expect(behind).toContain(word);
    const unit = await labels(`${TEXT}let w = 5 |`);
    for (const word of ['mm', 'in', 'deg', 'L/min', '%']) expect(unit).toContain(word);
    const value = await labels(`${TEXT}let w = |`);
    for (const word of ['fall', 'rim', 'A', 'sin', 'center']) expect(value).toContain(word);
  });

  test('offers legs inside a strip', async () => {
    expect(await labels('strip floor of skin from (0, 0, 0) heading front across right 200 {\n    |\n}')).toContain(
      'panel … of a strip',
    );
  });

  test('of any cut-off text never fails', async () => {
    for (let end = 0; end < TEXT.length; end += 7) await labels(`${TEXT.slice(0, end)}|`);
  });
});

describe('names', () => {
  test('lead to where they are stated', async () => {
    const document = open();
    const [link] = (await lsp.DefinitionProvider?.getDefinition(document, positionOf(document, 'rim', 3))) ?? [];
    expect(link.targetSelectionRange.start).toEqual({ line: 2, character: 4 });
    const [leg] = (await lsp.DefinitionProvider?.getDefinition(document, positionOf(document, 'back', 2))) ?? [];
    expect(leg.targetSelectionRange.start.line).toBe(7);
  });

  test('are found wherever they are used', async () => {
    const document = open();
    const found = await lsp.ReferencesProvider?.findReferences(document, {
      ...positionOf(document, 'rim'),
      context: { includeDeclaration: true },
    });
    expect(found).toHaveLength(6);
  });

  test('are renamed everywhere at once', async () => {
    const document = open();
    const edit = await lsp.RenameProvider?.rename(document, { ...positionOf(document, 'floor'), newName: 'bottom' });
    const text = TextDocument.applyEdits(document.textDocument, edit?.changes?.[uri.toString()] ?? []);
    expect(text).toBe(TEXT.replaceAll('floor', 'bottom'));
  });

  test('are not renamed to what could not be read', async () => {
    const document = open();
    const rename = async (newName: string): Promise<unknown> =>
      lsp.RenameProvider?.rename(document, { ...positionOf(document, 'floor'), newName });
    await expect(rename('panel')).rejects.toThrow('word of the language');
    await expect(rename('a b')).rejects.toThrow('is not a name');
  });
});

test('the outline names every part, legs under their strip', async () => {
  const symbols =
    (await lsp.DocumentSymbolProvider?.getSymbols(open(), { textDocument: { uri: uri.toString() } })) ?? [];
  expect(symbols.map(({ name }) => name)).toEqual([
    'Bench tray',
    'rim',
    'fall',
    'skin',
    'floor',
    'cheek',
    'A',
    'B',
    'C',
    'D',
    'apron',
    'bend apron back',
    'drip',
    'seam cheek floor',
  ]);
  expect(symbols[4].children?.map(({ name }) => name)).toEqual(['back', 'base', 'front']);
  expect(symbols[4].detail).toBe('strip');
});

test('the colouring of the editor knows every word of the language', () => {
  expect(() => execFileSync(process.execPath, ['scripts/generate.mjs', '--check'], { stdio: 'pipe' })).not.toThrow();
});
