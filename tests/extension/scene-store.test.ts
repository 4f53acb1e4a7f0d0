import { describe, expect, test } from 'vitest';
import { layOutRows } from '../../src/extension/webview/flat/shelves.js';
import { SceneStore } from '../../src/extension/webview/store.js';
import type { ScenePatch } from '../../src/language/protocol.js';

const patch = (rest: Partial<ScenePatch>): ScenePatch => ({
  view: 'flat',
  variants: [],
  within_deg: 0,
  variant: undefined,
  name: 'Tub',
  units: 'mm',
  version: 1,
  serial: 1,
  whole: false,
  slip: undefined,
  set: {},
  remove: [],
  ...rest,
});
const note = (text: string): ScenePatch['set'][string] => ({ kind: 'note', text });

describe('the scene in the preview', () => {
  test('is what the patches make of it', () => {
    const store = new SceneStore();
    store.apply(patch({ whole: true, set: { a: note('1'), b: note('2') } }));
    const changes = store.apply(patch({ serial: 2, version: 2, set: { b: note('3') }, remove: ['a'] }));
    expect([...(changes?.items ?? [])]).toEqual([['b', note('3')]]);
    expect([...(changes?.changed ?? [])]).toEqual(['b']);
    expect([...(changes?.removed ?? [])]).toEqual(['a']);
    expect([store.serialOf('flat'), store.versionOf('flat')]).toEqual([2, 2]);
  });

  test('a patch that came too late changes nothing', () => {
    const store = new SceneStore();
    store.apply(patch({ serial: 5, set: { a: note('new') } }));
    expect(store.apply(patch({ serial: 4, set: { a: note('old') } }))).toBeUndefined();
    expect(store.itemsOf('flat').get('a')).toEqual(note('new'));
  });

  test('a whole scene takes away what it does not hold', () => {
    const store = new SceneStore();
    store.apply(patch({ set: { a: note('1') } }));
    expect([...(store.apply(patch({ serial: 1, whole: true, set: { b: note('2') } }))?.removed ?? [])]).toEqual(['a']);
  });

  test('each view has its own', () => {
    const store = new SceneStore();
    store.apply(patch({ set: { a: note('1') } }));
    expect(store.serialOf('water')).toBe(0);
    expect(store.itemsOf('water').size).toBe(0);
  });
});

describe('flats side by side', () => {
  const boxes = [
    { key: 'a', width: 300, height: 200 },
    { key: 'b', width: 250, height: 100 },
    { key: 'c', width: 80, height: 300 },
    { key: 'd', width: 20, height: 20 },
  ];

  test('never lie over one another, and keep their distance', () => {
    const spots = layOutRows(boxes, 1.4, 15);
    const placed = boxes.map(({ key, width, height }) => ({ ...spots.get(key)!, width, height }));
    for (const [i, a] of placed.entries()) {
      for (const b of placed.slice(i + 1)) {
        const apart = Math.max(
          a.x - (b.x + b.width),
          b.x - (a.x + a.width),
          a.y - (b.y + b.height),
          b.y - (a.y + a.height),
        );
        expect(apart).toBeGreaterThanOrEqual(15 - 1e-9);
      }
    }
  });

  test('stay where they are when a later one changes', () => {
    const before = layOutRows(boxes, 1.4, 15);
    const after = layOutRows([...boxes.slice(0, 3), { key: 'd', width: 25, height: 22 }], 1.4, 15);
    expect(after.get('a')).toEqual(before.get('a'));
    expect(after.get('b')).toEqual(before.get('b'));
  });
});
