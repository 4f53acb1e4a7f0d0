import fc from 'fast-check';
import { expect, test } from 'vitest';
import { Crowd, type Rect } from '../../src/extension/webview/flat/crowd.js';

const rect = fc
  .tuple(fc.integer({ min: -300, max: 300 }), fc.integer({ min: -300, max: 300 }), fc.nat(140), fc.nat(30))
  .map(([x, y, w, h]): Rect => [x, y, x + w + 1, y + h + 1]);

test('labels that are shown never lie over one another, and one that is left out would', () => {
  fc.assert(
    fc.property(fc.array(rect, { maxLength: 40 }), (all) => {
      const crowd = new Crowd(60);
      const shown: Rect[] = [];
      for (const each of all) {
        const covers = shown.some((b) => each[0] < b[2] && b[0] < each[2] && each[1] < b[3] && b[1] < each[3]);
        expect(crowd.take(each, false)).toBe(!covers);
        if (!covers) shown.push(each);
      }
    }),
    { seed: 71, numRuns: 200 },
  );
});
