/** What helps while a line is written: completion where it belongs, what a function takes, names that are taken or not used. */
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { CompletionList, SignatureHelp, TextEdit, WorkspaceEdit } from 'vscode-languageserver-types';
import { trayText } from '../../support/tubs/tray-text.js';
import { connectInProcess, type LspClient } from '../../support/lsp-client.js';

let client: LspClient;
let count = 0;

beforeAll(async () => {
  client = await connectInProcess({ files: { 'shop.tub': 'shop "s" { }\n', 'parts.tub': 'units mm\n' } });
});
afterAll(() => client.close());

interface Place {
  readonly textDocument: { readonly uri: string };
  readonly position: { readonly line: number; readonly character: number };
}

/** Opens a text with the cursor at `|`. */
const at = async (marked: string): Promise<Place> => {
  const before = marked.slice(0, marked.indexOf('|')).split('\n');
  const uri = await client.open(`typed${count++}.tub`, marked.replace('|', ''));
  return {
    textDocument: { uri },
    position: { line: before.length - 1, character: before[before.length - 1].length },
  };
};

const offered = async (marked: string): Promise<readonly string[]> => {
  const list = await client.request<CompletionList | null>('textDocument/completion', await at(marked));
  return (list?.items ?? []).map(({ label }) => label);
};

const TRAY = trayText({});

const STRIP = `units mm
let inside = 460
let fall = 3 deg
sheet skin = stainless 18 ga radius 1.6
point A = (0, 0, 0)
strip floor of skin from (0, 640, 250) heading front across right inside {
    panel back 60 falling 90 deg
    panel shelf 310 falling 4 deg
}
`;

describe('completion', () => {
  test.each(['// holds water.|', '/* a [|', '/* a\n b.| */', 'tub "tray.|', 'let a = 1 // half|'])(
    'offers nothing in %j: Enter ends the line',
    async (line) => {
      expect(await offered(`${TRAY}${line}`)).toEqual([]);
    },
  );

  test('goes on behind a comment and a text in quotes', async () => {
    expect(await offered(`units mm\ntub "a.b" /* c. */\n|`)).toContain('sheet');
  });

  test('offers the files that `use` can name, and nothing in other texts in quotes', async () => {
    expect(await offered('units mm\nuse "|')).toEqual(['parts.tub', 'shop.tub']);
    expect(await offered('units mm\ntub "|')).toEqual([]);
  });

  test('offers codes of checks behind `accept`, those that are found in the text first', async () => {
    const list = await client.request<CompletionList>('textDocument/completion', await at(`${TRAY}accept drain/|`));
    const sorted = [...list.items].sort((a, b) => (a.sortText! < b.sortText! ? -1 : 1));
    expect(sorted[0].detail).toBe('found in this text');
    expect(sorted.map(({ label }) => label)).toContain('seal/open-corner');
    expect((sorted[0].textEdit as TextEdit).range.start.character).toBe('accept '.length);
    expect(sorted.every(({ label }) => label.includes('/'))).toBe(true);
  });

  test.each([
    [STRIP.replace('4 deg\n', '4 deg\n    |\n'), ['panel … of a strip', 'panel … up to a level']],
    [STRIP.replace('inside {\n', 'inside {\n    |\n'), ['panel … of a strip', 'panel … up to a level']],
    [`${STRIP}|`, ['panel … by points', 'panel … upright across a leg']],
    [STRIP.replace('strip', '|\nstrip'), ['panel … by points', 'panel … upright across a leg']],
  ])('offers the forms that may begin there', async (text, forms) => {
    expect((await offered(text)).filter((label) => label.startsWith('panel …'))).toEqual(forms);
  });

  test('offers no form of a statement where its word goes on with another', async () => {
    expect(await offered(STRIP.replace('310 ', '310 |'))).not.toContain('level … of the stand');
    const found = await offered('units mm\nshop "s" { | }\n');
    expect(found).toEqual(expect.arrayContaining(['marks', 'rates … of time and cost']));
    expect(found).not.toContain('marks … on one side of the sheet');
  });

  test.each([
    ['point P = mid(|)', ['A', 'D']],
    ['point P = mid(|', ['A', 'D']],
    ['point P = mid(A, |)', ['A', 'D']],
    ['point P = toward(A, A, |)', ['A', 'D', 'fall', 'inside']],
    ['let l = max(1, (2 + 3), inside, |', ['A', 'D', 'fall', 'inside', 'l']],
    ['point P = center(|)', ['back', 'floor', 'shelf']],
    ['outlet o in shelf at center(|', ['back', 'floor', 'shelf']],
    ['outlet o in shelf at center(floor.|)', ['back', 'shelf']],
    ['rim shelf[|', ['A', 'D']],
  ])('offers what fits in `%s`', async (line, names) => {
    const found = await offered(`${STRIP}let D = (1, 2, 3)\n${line}\n`);
    const own = ['A', 'D', 'P', 'back', 'fall', 'floor', 'inside', 'l', 'shelf', 'skin'];
    const expected = line.startsWith('rim')
      ? ['A']
      : line.startsWith('point P = mid') || line.includes('toward')
        ? [...names, 'P'].sort()
        : names;
    expect(found.filter((label) => own.includes(label)).sort()).toEqual(expected);
  });

  test.each([
    ['310 |falling', ['cm', 'ft', 'in', 'm', 'mm']],
    ['310 |', ['cm', 'ft', 'in', 'm', 'mm']],
    ['falling 4 |', ['deg', 'rad']],
    ['310 + 4 |', ['cm', 'ft', 'in', 'm', 'mm']],
  ])('offers units of what %j asks for', async (place, expected) => {
    const line = place.endsWith('|') ? `${place}\n` : place;
    const text = STRIP.replace(
      /310 falling 4 deg/,
      place.startsWith('falling') ? `310 ${line}` : place === '310 |falling' ? '310 |falling 4 deg' : line,
    );
    const items = (await client.request<CompletionList>('textDocument/completion', await at(text))).items;
    expect(
      items
        .filter(({ detail }) => detail === 'unit')
        .map(({ label }) => label)
        .sort(),
    ).toEqual(expected);
  });

  test('offers known liquids', async () => {
    expect(await offered('units mm\nliquid |')).toEqual(expect.arrayContaining(['water', 'oil']));
  });
});

describe('what a function takes', () => {
  const helpAt = async (marked: string): Promise<SignatureHelp | null> =>
    client.request<SignatureHelp | null>('textDocument/signatureHelp', await at(marked));

  test.each([
    ['let a = sin(|', 'sin(angle)', 0],
    ['let a = atan2(3, |', 'atan2(height, run)', 1],
    ['let a = max(1, (2 + 3), min(4, 5), |', 'max(value, value, …)', 1],
    ['point p = toward((1, 2, 3), (4, 5, 6), |', 'toward(from, to, length)', 2],
  ])('%s', async (text, label, parameter) => {
    const help = await helpAt(`units mm\n${text}`);
    expect([help?.signatures[0].label, help?.activeParameter]).toEqual([label, parameter]);
  });

  test('names each by its place in the form', async () => {
    const [{ label, parameters = [] }] = (await helpAt('units mm\nlet a = round(|'))!.signatures;
    expect(parameters.map(({ label: place }) => label.slice(...(place as [number, number])))).toEqual([
      'value',
      'step',
    ]);
  });

  test('a statement shows its forms when asked', async () => {
    const help = await helpAt('units mm\ntank |');
    expect(help?.signatures[0].label).toBe('tank catch 60 L working 40 L under drain');
    expect(await helpAt('units mm // tank |')).toBeNull();
  });
});

describe('a new name', () => {
  const rename = async (marked: string, newName: string): Promise<WorkspaceEdit> =>
    client.request<WorkspaceEdit>('textDocument/rename', { ...(await at(marked)), newName });
  const TWO = 'units mm\nlet a|a = 1\nlet bb = 2\nlet sum = aa + bb\npoint cc = (aa, bb, sum)\n';

  test.each(['bb', 'sum', 'cc'])('that `%s` has already is refused: two would become one', async (name) => {
    await expect(rename(TWO, name)).rejects.toThrow(`called ${name} already`);
  });

  test.each(['mm', 'sin', 'M6', '__proto__', 'panel'])('`%s` is refused', async (name) => {
    await expect(rename(TWO, name)).rejects.toThrow(/choose another name/);
  });

  test('that a `let` may have is taken, and a name of another kind is no clash', async () => {
    expect(Object.values((await rename(TWO, 'rim')).changes!)[0]).toHaveLength(3);
    const sheet = 'units mm\nlet bb = 2\nsheet sk|in = steel 18 ga radius bb\n';
    expect(Object.values((await rename(sheet, 'bb')).changes!)[0]).toHaveLength(1);
  });

  test('that a file which uses this one has is refused', async () => {
    const uri = await client.open('lengths.tub', 'units mm\nlet wide = 5\n');
    await client.open('user.tub', 'units mm\nuse "lengths.tub"\nlet tall = wide + 1\n');
    const place = { textDocument: { uri }, position: { line: 1, character: 5 } };
    await expect(client.request('textDocument/rename', { ...place, newName: 'tall' })).rejects.toThrow(
      'called tall already',
    );
  });
});

test('values, points and sheets that nothing names are faded, but in a file of nothing else', async () => {
  const fadedIn = async (text: string): Promise<readonly string[]> => {
    const { textDocument } = await at(`${text}|`);
    const found = await client.diagnostics(textDocument.uri);
    return found.filter(({ tags = [] }) => tags.includes(1)).map(({ message, severity }) => `${severity} ${message}`);
  };
  const unused = 'let spare = 1\npoint lost = (0, 0, 0)\nsheet other = steel 18 ga radius 1\n';
  expect(await fadedIn(`${TRAY}${unused}`)).toEqual([
    '4 Nothing names `spare`',
    '4 Nothing names `lost`',
    '4 Nothing names `other`',
  ]);
  expect(await fadedIn(`units mm\n${unused}`)).toEqual([]);
  expect(await fadedIn(TRAY)).toEqual([]);
});

test('a bracket that closes a block lays out that block and nothing else', async () => {
  const text = 'units   mm\nshop "s" {\nbends within 1 deg\n      marks within 0.3\n}';
  const { textDocument, position } = await at(`${text}|\nlet   a = 1\n`);
  const edits = await client.request<readonly TextEdit[]>('textDocument/onTypeFormatting', {
    textDocument,
    position,
    ch: '}',
    options: { tabSize: 4, insertSpaces: true },
  });
  expect(edits.map(({ range, newText }) => [range.start.line, newText])).toEqual([
    [1, '\n    '],
    [2, '\n    '],
  ]);
});
