import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { CodeAction, CodeLens, CompletionList, Hover } from 'vscode-languageserver-types';
import {
  CHOICE,
  PAGE,
  SCENE,
  WORK_OUT,
  type Page,
  type ScenePatch,
  type ValueEdits,
  type WorkOutResult,
} from '../../../src/language/protocol.js';
import { connectInProcess, type LspClient } from '../../support/lsp-client.js';
import { trayText } from '../../support/tubs/tray-text.js';

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

describe('working them out in the editor', () => {
  const TRAY = trayText({
    rim: '60 free 40 to 120 by 2',
    inside: '300 free 200 to 400 by 5',
    rest: 'aim { least let rim  least let inside  capacity at least 5 L }',
  });
  const lineOf = (text: string, word: string): number => text.split('\n').findIndex((line) => line.startsWith(word));

  test('is offered on the aim, on a free value and above the aim, and nowhere else', async () => {
    const uri = await client.open('offer.tub', TRAY);
    const titlesAt = async (line: number): Promise<string[]> => {
      const position = { line, character: 6 };
      const actions = await client.request<CodeAction[]>('textDocument/codeAction', {
        textDocument: { uri },
        range: { start: position, end: position },
        context: { diagnostics: [], only: ['refactor.rewrite'] },
      });
      return actions.map(({ title, command }) => `${title}: ${command!.command}`);
    };
    const offered = ['Work Out Free Values: tubwright.workOutFreeValues'];
    expect(await titlesAt(lineOf(TRAY, 'aim'))).toEqual(offered);
    expect(await titlesAt(lineOf(TRAY, 'let rim'))).toEqual(offered);
    expect(await titlesAt(lineOf(TRAY, 'let fall'))).toEqual([]);
    const lenses = await client.request<CodeLens[]>('textDocument/codeLens', { textDocument: { uri } });
    expect(lenses.filter(({ command }) => command?.title === 'Work Out Free Values')).toHaveLength(1);
  });

  test('finds values, tells them on a page and under the pointer, draws the choices, and writes the one that is taken', async () => {
    const uri = await client.open('work.tub', TRAY);
    await client.diagnostics(uri);
    const result = await client.request<WorkOutResult>(WORK_OUT, { uri, progress: 'p' });
    if (result.kind !== 'found') throw new Error(result.reason);
    expect(result.summary).toBe('All wishes are met with rim from 60 to 50 mm, inside from 300 to 395 mm');
    expect([result.isMet, result.hasChoices]).toEqual([true, true]);

    const page = await client.request<Page>(PAGE, { uri, page: 'free values' });
    expect(page.markdown).toContain('| `rim` | 60 mm | **50 mm** | 48 mm misses capacity at least 5 L |');
    const hover = await client.request<Hover>('textDocument/hover', {
      textDocument: { uri },
      position: { line: lineOf(TRAY, 'let rim'), character: 5 },
    });
    expect(JSON.stringify(hover.contents)).toContain('50 mm meets the wishes best');

    const scene = await client.request<ScenePatch>(SCENE, { uri, preview: 'a', view: 'choices', have: 0 });
    const choices = Object.entries(scene.set).flatMap(([key, item]) =>
      item.kind === 'choice' ? [{ key, ...item }] : [],
    );
    expect(choices.length).toBeGreaterThan(4);
    expect(choices.filter(({ isChosen }) => isChosen).map(({ across, up }) => [across, up])).toEqual([[50, 395]]);

    const last = choices[choices.length - 1];
    const taken = await client.request<ValueEdits>(CHOICE, { uri, key: last.key });
    const text = await client.apply(uri, [...taken.edits]);
    expect(text).toContain(`let rim = ${last.across} free 40`);
    expect(text).toContain(`let inside = ${last.up} free 200`);
    // Another start of the same search: what was found still holds.
    expect(await client.request<ValueEdits | null>(CHOICE, { uri, key: 'choice:0' })).not.toBeNull();
    await client.apply(uri, [
      { range: { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } }, newText: 'let a = 1\n' },
    ]);
    expect(await client.request<ValueEdits | null>(CHOICE, { uri, key: 'choice:0' })).toBeNull();
  });

  test('names the wishes in conflict, and writes nothing', async () => {
    const uri = await client.open('conflict.tub', TRAY.replace('at least 5 L', 'at least 5 L  capacity at most 4 L'));
    const result = await client.request<WorkOutResult>(WORK_OUT, { uri, progress: 'p' });
    expect(result).toMatchObject({ kind: 'found', isMet: false, hasChoices: false, edits: [] });
    expect(result.kind === 'found' && result.summary).toContain(
      'No values were found that meet these wishes together: capacity at least 5 L: 3.998 L is the nearest to 5 L',
    );
  });

  test('says what a text needs that leaves nothing to work out', async () => {
    const uri = await client.open('nothing.tub', trayText({}));
    const result = await client.request<WorkOutResult>(WORK_OUT, { uri, progress: 'p' });
    expect(result).toMatchObject({ kind: 'nothing' });
  });
});

describe('variants in the preview', () => {
  test('the one that is picked is drawn; without it the tub as it is written', async () => {
    const text = `${trayText({})}variant "wide" { let inside = 600 }\nvariant "high" { let rim = 90 }\n`;
    const uri = await client.open('variants.tub', text);
    const shown = async (have: number, variant?: string): Promise<ScenePatch> =>
      client.request<ScenePatch>(SCENE, { uri, preview: 'v', view: 'flat', have, ...(variant && { variant }) });
    const sizes = ({ set }: ScenePatch): string[] =>
      Object.values(set).flatMap((item) =>
        item.kind === 'flat-part' ? [`${item.name} ${Math.round(item.box[2] - item.box[0])}`] : [],
      );
    const first = await shown(0);
    expect([first.variants, first.variant]).toEqual([['wide', 'high'], undefined]);
    const wide = await shown(first.serial, 'wide');
    expect(wide.variant).toBe('wide');
    // Only what differs is sent: the floor is wider, the sides stay.
    expect(sizes(first).length).toBe(3);
    expect(sizes(wide).length).toBe(1);
    const gone = await shown(wide.serial, 'narrow');
    expect(gone.variant).toBeUndefined();
    expect(sizes(gone)).toEqual(sizes(first).filter((each) => each.startsWith('floor')));
  });
});
