import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import {
  KEYS_AT,
  NEST_PIN,
  NEST_WORK,
  NESTED,
  PLACE_OF,
  SCENE,
  type NestPieceItem,
  type NestSheetItem,
  type NestStateItem,
  type Place,
  type SceneItem,
  type ScenePatch,
  type ValueEdits,
} from '../../../src/language/protocol.js';
import { BASIN, SHOP } from '../../support/tubs/basin-text.js';
import { connectInProcess, type LspClient } from '../../support/lsp-client.js';

let client: LspClient;
const waiting = new Set<() => void>();

beforeAll(async () => {
  client = await connectInProcess({ files: { 'shop.tub': SHOP } });
  client.onNotification(NESTED, () => {
    for (const look of [...waiting]) look();
  });
});
afterAll(() => client.close());

/** The whole scene of the nest, asked for whenever it has come on, once its state is one of these. */
const nestOf = async (uri: string, ...states: readonly NestStateItem['state'][]): Promise<[string, SceneItem][]> => {
  for (;;) {
    const next = new Promise<void>((resolve) => {
      const look = (): void => {
        waiting.delete(look);
        resolve();
      };
      waiting.add(look);
    });
    const patch = await client.request<ScenePatch>(SCENE, { uri, preview: 'nest', view: 'nest', have: 0 });
    const items = Object.entries(patch.set);
    const state = items.map(([, item]) => item).find((item) => item.kind === 'nest-state');
    if (state && states.includes(state.state)) return items;
    await next;
  }
};
const pieces = (items: readonly [string, SceneItem][]): [string, NestPieceItem][] =>
  items.filter(
    (entry): entry is [string, NestPieceItem] => entry[1].kind === 'nest-piece' && entry[1].layout === 'now',
  );
const sheets = (items: readonly [string, SceneItem][]): NestSheetItem[] =>
  items.flatMap(([, item]) => (item.kind === 'nest-sheet' && item.layout === 'now' ? [item] : []));

describe('the nest in the preview', () => {
  test('comes on while others are answered, has every piece on its sheet, and tells what is used and left', async () => {
    const uri = await client.open('nest.tub', BASIN);
    const early = await client.request<ScenePatch>(SCENE, { uri, preview: 'nest', view: 'nest', have: 0 });
    expect(Object.values(early.set).map(({ kind }) => kind)).toEqual(['note']);
    const items = await nestOf(uri, 'done');
    const names = pieces(items).map(([, { name }]) => name);
    expect(names).toEqual(expect.arrayContaining(['floor', 'leftCheek', 'rightCheek']));
    for (const [, { sheet, outline }] of pieces(items)) {
      const of = items.find(([key]) => key === sheet)?.[1] as NestSheetItem;
      for (const [x, y] of outline) {
        expect(Math.min(x, y)).toBeGreaterThan(0);
        expect([x < of.size[0], y < of.size[1]]).toEqual([true, true]);
      }
    }
    expect(sheets(items)[0].title).toMatch(/^Sheet 1: blank 2440 × 1220 mm, \d+ pieces, [\d.]+ % used$/);
    expect(sheets(items)[0].told.facts.join(', ')).toMatch(
      /blank 2440 × 1220 mm.*pieces, [\d.]+ % used, to state it as stock: `stock stainless thickness 1\.27 mm 1220 mm by \d+ mm count 1 grain along \d+ mm`, left whole/,
    );
  });

  test('pieces are found from the text, and the text from pieces', async () => {
    const uri = await client.open('both.tub', BASIN);
    const items = await nestOf(uri, 'done');
    const [key] = pieces(items).find(([, { name }]) => name === 'leftCheek')!;
    const place = await client.request<Place>(PLACE_OF, { uri, preview: 'nest', view: 'nest', key });
    expect(place.range.start.line).toBe(BASIN.split('\n').findIndex((line) => line.includes('side leftCheek')));
    const position = client.position(uri, 'side leftCheek');
    expect(await client.request(KEYS_AT, { uri, preview: 'nest', view: 'nest', position })).toContain(key);
  });

  test('an edit that changes nothing that is cut moves no piece; one that does is laid anew, the earlier nest on show until then', async () => {
    const uri = await client.open('edited.tub', BASIN);
    const before = pieces(await nestOf(uri, 'done'));
    await client.edit(uri, 'units mm', '// a note\nunits mm');
    expect(pieces(await nestOf(uri, 'done'))).toEqual(before);
    await client.edit(uri, 'radius 2', 'radius 3');
    expect(pieces(await nestOf(uri, 'earlier'))).toEqual(before);
    const after = pieces(await nestOf(uri, 'done'));
    expect(after.map(([key]) => key).sort()).toEqual(before.map(([key]) => key).sort());
    expect(after).not.toEqual(before);
  });

  test('pieces are pinned where they lie, one or all, stay there over an edit, and are let go again', async () => {
    const uri = await client.open('pinned.tub', BASIN);
    const before = pieces(await nestOf(uri, 'done'));
    const pin = async (act: 'pin' | 'unpin', keys: readonly string[]): Promise<string> =>
      client.apply(uri, [...(await client.request<ValueEdits>(NEST_PIN, { uri, act, keys })).edits]);
    const [key, cheek] = before.find(([, { name }]) => name === 'leftCheek')!;
    expect(await pin('pin', [key])).toMatch(
      /\npin leftCheek on 1220 by 2440 sheet 1 at \([\d.]+, [\d.]+\) turned [\d.]+ deg\n$/,
    );
    expect((await client.diagnostics(uri)).map(({ code }) => code)).not.toContain('make/pin-not-kept');
    const one = pieces(await nestOf(uri, 'done'));
    expect(one.filter(([, { isPinned }]) => isPinned).map(([, { name }]) => name)).toEqual(['leftCheek']);

    const all = await pin('pin', []);
    expect(all.match(/^pin \w+ on/gm)?.sort()).toEqual(['pin floor on', 'pin leftCheek on', 'pin rightCheek on']);
    const known = new Map(pieces(await nestOf(uri, 'done')));
    expect(known.get(key)!.outline.map(([x]) => x)).toEqual(cheek.outline.map(([x]) => expect.closeTo(x, 1)));
    await client.edit(uri, 'rim    = 250', 'rim    = 245');
    for (const [each, item] of pieces(await nestOf(uri, 'done')))
      if (item.isPinned)
        expect(Math.min(...item.outline.map(([x]) => x))).toBeCloseTo(
          Math.min(...known.get(each)!.outline.map(([x]) => x)),
          1,
        );
    expect(await pin('unpin', [])).not.toMatch(/^pin /m);
  });

  test('stopped, it keeps the best so far; it goes on when told to, and is never worse after that', async () => {
    const uri = await client.open('stopped.tub', BASIN);
    const done = sheets(await nestOf(uri, 'done'));
    await client.notify(NEST_WORK, { uri, act: 'go on' });
    await nestOf(uri, 'moving');
    await client.notify(NEST_WORK, { uri, act: 'stop' });
    const stopped = sheets(await nestOf(uri, 'stopped'));
    expect(stopped.length).toBeLessThanOrEqual(done.length);
    expect(stopped[0].usedLength).toBeLessThanOrEqual(done[0].usedLength);
  });
});
