import fc from 'fast-check';
import { expect, test } from 'vitest';
import { gather } from '../../src/extension/webview/flat/gather.js';

type Point = readonly [number, number];

/** Every pair compared: who is reached in steps of at most so far. */
const reached = (points: readonly Point[], step: number): string[] => {
  const open = new Set(points.keys());
  const groups: string[] = [];
  for (const first of open) {
    const group = [first];
    open.delete(first);
    for (const i of group)
      for (const j of open)
        if (Math.hypot(points[i][0] - points[j][0], points[i][1] - points[j][1]) <= step) {
          open.delete(j);
          group.push(j);
        }
    groups.push(group.sort((a, b) => a - b).join());
  }
  return groups.sort();
};

const point = fc.tuple(fc.integer({ min: -90, max: 90 }), fc.integer({ min: -9, max: 9 }));

test('from every distance each hole is told once, together with those in a chain of shorter steps', () => {
  fc.assert(
    fc.property(fc.array(point, { minLength: 1, maxLength: 25 }), fc.integer({ min: 0, max: 22 }), (points, steps) => {
      const step = Array.from({ length: steps }, () => 1.3).reduce((product, factor) => product * factor, 2);
      const shown = gather(points).filter(({ from, to }) => from <= step && step < to);
      const expected = reached(points, step);
      expect(shown.map((each) => [...each.points].sort((a, b) => a - b).join()).sort()).toEqual(expected);
      for (const each of shown) expect(each.points).toContain(each.middle);
    }),
    { seed: 11, numRuns: 200 },
  );
});

test('a row of equal holes is one from afar, with its middle, and single holes from near', () => {
  const row = Array.from({ length: 21 }, (_, i): Point => [20 * i, 5]);
  const all = gather(row);
  expect(all.filter(({ points }) => points.length === 1)).toHaveLength(21);
  expect(all.filter(({ points }) => points.length > 1)).toEqual([
    { points: row.map((_, i) => i), middle: 10, from: expect.closeTo(21.2, 1), to: Infinity },
  ]);
});
