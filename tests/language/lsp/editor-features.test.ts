import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { LinkedEditingRanges, SemanticTokensOptions } from 'vscode-languageserver';
import type {
  CodeLens,
  DocumentLink,
  FoldingRange,
  Hover,
  InlayHint,
  MarkupContent,
  SelectionRange,
  SymbolInformation,
} from 'vscode-languageserver-types';
import { SymbolKind } from 'vscode-languageserver-types';
import { BASIN, SHOP } from '../../support/tubs/basin-text.js';
import { connectInProcess, type LspClient } from '../../support/lsp-client.js';

let client: LspClient;
let uri: string;

beforeAll(async () => {
  client = await connectInProcess({ files: { 'shop.tub': SHOP } });
  uri = await client.open('basin.tub', BASIN);
});
afterAll(() => client.close());

const document = (): { textDocument: { uri: string } } => ({ textDocument: { uri } });
const lines = BASIN.split('\n');
const lineOf = (fragment: string): number => lines.findIndex((line) => line.includes(fragment));
const everything = { start: { line: 0, character: 0 }, end: { line: 999, character: 0 } };

describe('linked editing', () => {
  const linked = async (fragment: string): Promise<readonly string[]> => {
    const answer = await client.request<LinkedEditingRanges | null>('textDocument/linkedEditingRange', {
      ...document(),
      position: client.position(uri, fragment),
    });
    return (answer?.ranges ?? []).map(({ start, end }) => lines[start.line].slice(start.character, end.character));
  };

  test('a name is linked to all places where its text uses it', async () => {
    expect(await linked('inside = 460')).toEqual(['inside', 'inside', 'inside', 'inside']);
    expect(await linked('floor of skin')).toEqual(['floor', 'floor', 'floor', 'floor', 'floor']);
  });

  test('a word of the language, a number and a name that stands once are linked to nothing', async () => {
    expect(await linked('heading front')).toEqual([]);
    expect(await linked('460')).toEqual([]);
    expect(await linked('half')).toEqual([]);
  });
});

describe('inlay hints', () => {
  const labels = async (): Promise<string[]> => {
    const hints = await client.request<InlayHint[]>('textDocument/inlayHint', { ...document(), range: everything });
    return hints.map(({ label, position }) => `${position.line} ${String(label)}`);
  };

  test('a `let` computed from others shows what it comes to, one that is a plain number does not', async () => {
    const lets = (await labels()).filter((label) => label.includes('='));
    expect(lets).toEqual([`${lineOf('let half')} = 230 mm`]);
  });

  test('each leg shows the bend before it, by angle and allowance', async () => {
    const hints = await labels();
    // 90 - 3 deg; theta (R + K T) with DIN 6935: worked by the bend tests.
    expect(hints).toContainEqual(
      expect.stringMatching(`^${lineOf('panel shelf')} bend 87\\.0°, allowance 2\\.\\d+ mm$`),
    );
    expect(hints).toContainEqual(
      expect.stringMatching(`^${lineOf('panel chute')} bend 35\\.0°, allowance 0\\.\\d+ mm$`),
    );
  });

  test('a leg up to a plane shows its length', async () => {
    // From the end of the sump up to z 250 at 80 deg: (60 + 310 sin 3 + 120 sin 38 + 110 sin 3) / sin 80.
    const rise =
      60 + 310 * Math.sin(Math.PI / 60) + 120 * Math.sin((38 * Math.PI) / 180) + 110 * Math.sin(Math.PI / 60);
    const length = (rise / Math.sin((80 * Math.PI) / 180)).toFixed(1);
    expect(await labels()).toContain(`${lineOf('panel front')} ${length} mm long`);
  });

  test('a gauge shows its thickness and a panel by points its slope', async () => {
    const hints = await labels();
    expect(hints).toContain(`${lineOf('sheet')} 1.27 mm thick`);
    // 8 mm over 90 mm.
    expect(hints).toContain(`${lineOf('panel apron')} slopes ${((Math.atan2(8, 90) * 180) / Math.PI).toFixed(2)}°`);
  });

  test('only the lines asked for are answered', async () => {
    const hints = await client.request<InlayHint[]>('textDocument/inlayHint', {
      ...document(),
      range: { start: { line: lineOf('let rim'), character: 0 }, end: { line: lineOf('let half'), character: 20 } },
    });
    expect(hints.map(({ position }) => position.line)).toEqual([lineOf('let half')]);
  });

  test('settings turn them off', async () => {
    await client.notify('workspace/didChangeConfiguration', {
      settings: { tubwright: { hints: { bends: false, slopes: false, values: false } } },
    });
    expect(await labels()).toEqual([]);
    await client.notify('workspace/didChangeConfiguration', { settings: { tubwright: { hints: {} } } });
  });
});

test('names are coloured by what they stand for, also where they are words of the language', async () => {
  const { tokenTypes } = (client.capabilities.semanticTokensProvider as SemanticTokensOptions).legend;
  const { data } = await client.request<{ data: number[] }>('textDocument/semanticTokens/full', document());
  const found = new Map<string, string>();
  let [line, character] = [0, 0];
  for (let i = 0; i < data.length; i += 5) {
    character = data[i] === 0 ? character + data[i + 1] : data[i + 1];
    line += data[i];
    found.set(`${line} ${lines[line].slice(character, character + data[i + 2])}`, tokenTypes[data[i + 3]]);
  }
  expect(found.get(`${lineOf('panel back')} back`)).toBe('panel');
  expect(found.get(`${lineOf('bend apron')} back`)).toBe('panel');
  expect(found.get(`${lineOf('strip')} floor`)).toBe('strip');
  expect(found.get(`${lineOf('side leftCheek')} left`)).toBe('property');
  expect(found.get(`${lineOf('point A')} A`)).toBe('point');
  expect(found.get(`${lineOf('panel shelf')} fall`)).toBe('value');
  expect(found.get(`${lineOf('strip')} skin`)).toBe('sheet');
  expect(found.get(`${lineOf('outlet')} drain`)).toBe('outlet');
  expect(found.get(`${lineOf('let fall')} deg`)).toBe('unit');
});

test('code lenses on the `tub` line open the preview, export, and say what there is', async () => {
  const lenses = await client.request<CodeLens[]>('textDocument/codeLens', document());
  expect(lenses.map(({ range, command }) => [range.start.line, command?.title, command?.command])).toEqual([
    [lineOf('tub '), 'Preview', 'tubwright.openPreview'],
    [lineOf('tub '), 'Export flat patterns', 'tubwright.exportFlats'],
    [lineOf('tub '), expect.stringMatching(/^3 parts, 5 bends, 0\.\d+ m² wet$/), 'tubwright.openPreview'],
  ]);
});

test('the path of a `use` is a link to the file', async () => {
  const links = await client.request<DocumentLink[]>('textDocument/documentLink', document());
  expect(links).toMatchObject([{ target: 'memory:/tubs/shop.tub', range: { start: { line: 2, character: 4 } } }]);
});

test('blocks fold, and so do runs of `let` and of `point`', async () => {
  const folds = await client.request<FoldingRange[]>('textDocument/foldingRange', document());
  const ranges = folds.map(({ startLine, endLine }) => [startLine, endLine]);
  expect(ranges).toContainEqual([lineOf('strip'), lineOf('panel front')]);
  expect(ranges).toContainEqual([lineOf('let inside'), lineOf('let half')]);
  expect(ranges).toContainEqual([lineOf('point A'), lineOf('point C')]);
});

test('a selection widens from the word to the leg, the strip and the whole text', async () => {
  const [widest] = await client.request<SelectionRange[]>('textDocument/selectionRange', {
    ...document(),
    positions: [client.position(uri, '310')],
  });
  const texts: string[] = [];
  for (let at: SelectionRange | undefined = widest; at; at = at.parent) {
    const { start, end } = at.range;
    texts.push(
      start.line === end.line
        ? lines[start.line].slice(start.character, end.character)
        : `lines ${start.line}-${end.line}`,
    );
  }
  expect(texts).toEqual([
    '310',
    'panel shelf  310   falling fall',
    `lines ${lineOf('strip')}-${lineOf('panel front') + 1}`,
    `lines 0-${lines.length - 1}`,
  ]);
});

test('a name of any open text is found in the workspace', async () => {
  const symbols = await client.request<SymbolInformation[]>('workspace/symbol', { query: 'cheek' });
  const found = symbols.filter(({ kind }) => kind !== SymbolKind.Operator);
  expect(found.map(({ name, kind }) => [name, kind]).sort()).toEqual([
    ['leftCheek', SymbolKind.Interface],
    ['rightCheek', SymbolKind.Interface],
  ]);
});

test('so is a leg, with its strip', async () => {
  const [chute] = await client.request<SymbolInformation[]>('workspace/symbol', { query: 'floor.chute' });
  expect([chute.name, chute.containerName, chute.kind]).toEqual(['chute', 'floor', SymbolKind.Method]);
});

test('a number is told in its other unit, where there is one that makes sense', async () => {
  const told = async (number: string): Promise<string | undefined> => {
    const text = `tub "t"\nunits mm\nlet a = ${number}\n`;
    const other = await client.open('number.tub', text);
    const position = client.position(other, number);
    const hover = await client.request<Hover | null>('textDocument/hover', { textDocument: { uri: other }, position });
    await client.hide(other);
    return (hover?.contents as MarkupContent | undefined)?.value;
  };
  expect(await told('2 in')).toBe('50.8 mm');
  expect(await told('2 deg')).toBe('3.49 % slope');
  expect(await told('90 deg')).toBeUndefined();
  expect(await told('1e400 mm')).toBeUndefined();
});
