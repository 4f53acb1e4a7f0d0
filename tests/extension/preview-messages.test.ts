import fc from 'fast-check';
import { expect, test } from 'vitest';
import { isFromPreview, isToPreview, keptState } from '../../src/extension/preview-messages.js';
import type { FromPreview, ScenePatch, ToPreview } from '../../src/language/protocol.js';

const patch: ScenePatch = {
  view: 'water',
  variants: ['wide'],
  within_deg: 0.5,
  variant: undefined,
  name: 'Wash tub',
  units: 'mm',
  version: 3,
  serial: 2,
  whole: true,
  slip: undefined,
  set: { a: { kind: 'note', text: 'here' } },
  remove: ['b'],
};

const FROM: readonly FromPreview[] = [
  { type: 'want', view: 'flat', have: 0, variant: undefined, leaning: undefined },
  { type: 'want', view: 'water', have: 3, variant: undefined, leaning: { side: 'front', low_deg: 0.4 } },
  { type: 'painted', view: 'folded', serial: 4, version: 2 },
  { type: 'take', key: 'choice 1' },
  { type: 'nest', act: 'go on' },
  { type: 'pin', act: 'unpin', keys: ['piece floor 1'] },
  { type: 'reveal', view: 'bends', key: 'bend', focus: 'text' },
  { type: 'picture', format: 'png', name: 'flat', base64: 'aGVsbG8=' },
];
const TO: readonly ToPreview[] = [
  { type: 'scene', file: 'a.tub', patch },
  { type: 'select', keys: [] },
  { type: 'show', view: 'nest' },
  { type: 'savePicture', format: 'svg' },
  { type: 'moved', uri: 'file:///a.tub' },
  { type: 'gone', reason: 'closed' },
];

test('messages as they are sent are taken', () => {
  expect(FROM.filter((message) => !isFromPreview(message))).toEqual([]);
  expect(TO.filter((message) => !isToPreview(message))).toEqual([]);
});

test.each([...FROM, ...TO])('$type is left alone when any part of it is of another kind', (message) => {
  const takes = (changed: unknown): boolean => isFromPreview(changed) || isToPreview(changed);
  for (const key of Object.keys(message)) {
    for (const wrong of [null, 7.5, { a: 1 }, [{}], 'x'.repeat(20_000)]) {
      const isBase64 = key === 'base64' && typeof wrong === 'string';
      if (!isBase64)
        expect(takes({ ...message, [key]: wrong }), `${key} ${JSON.stringify(wrong)?.slice(0, 20)}`).toBe(false);
    }
  }
});

test('whatever else comes is left alone, without a fault', () => {
  fc.assert(
    fc.property(fc.anything(), (message) => {
      expect(isFromPreview(message) || isToPreview(message)).toBe(false);
      expect(keptState(message)).toBeUndefined();
    }),
    { numRuns: 300 },
  );
});

test('a picture has a name that leads nowhere else', () => {
  const picture = { type: 'picture', format: 'png', base64: '' };
  expect(['../up', 'a/b', 'a\\b', ''].filter((name) => isFromPreview({ ...picture, name }))).toEqual([]);
});

test('a window takes back the text that it showed, and a view that there is', () => {
  expect(keptState({ uri: 'file:///a.tub', view: 'water' })).toEqual({ uri: 'file:///a.tub', view: 'water' });
  expect(keptState({ uri: 'file:///a.tub', view: 'toString' })).toEqual({ uri: 'file:///a.tub', view: 'flat' });
  expect([keptState({ view: 'water' }), keptState({ uri: 7 }), keptState(undefined)]).toEqual([
    undefined,
    undefined,
    undefined,
  ]);
});
