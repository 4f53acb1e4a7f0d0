import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { leadFrom, nearestPassing } from '../../../src/language/lsp/fixes/nearest-passing.js';

/** The whole search, and how often it asked. */
const solve = (
  shortfall: (value: number) => number,
  start: number,
  reach: number,
): { readonly value: number | undefined; readonly asked: number } => {
  let asked = 0;
  const counted = (value: number): number => {
    asked++;
    return shortfall(value);
  };
  const run = (function* () {
    const from = { value: start, reach, step: 0 };
    const lead = yield* leadFrom(counted, shortfall(start), from);
    return lead && (yield* nearestPassing(counted, lead, from));
  })();
  for (;;) {
    const step = run.next();
    if (step.done) return { value: step.value, asked };
  }
};

describe('the nearest value that passes', () => {
  test('of a straight line is found in a few evaluations, within 2 % of the way', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1, max: 100, noNaN: true }),
        fc.double({ min: 0.01, max: 2, noNaN: true }),
        fc.double({ min: 0.1, max: 10, noNaN: true }),
        (start, more, slope) => {
          const needed = start * (1 + more);
          const { value, asked } = solve((x) => Math.max(0, slope * (needed - x)), start, start * 3);
          expect(value).toBeGreaterThanOrEqual(needed - 1e-9);
          expect(value! - needed).toBeLessThanOrEqual(0.0205 * (needed - start) + 1e-9);
          expect(asked).toBeLessThanOrEqual(6);
        },
      ),
      { seed: 3, numRuns: 300 },
    );
  });

  test('passes whatever the curve, and is reached downwards as well as upwards', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 2, max: 50, noNaN: true }),
        fc.constantFrom(1, -1),
        fc.double({ min: 0.4, max: 3, noNaN: true }),
        (start, way, power) => {
          const needed = way > 0 ? start * 1.7 : start * 0.5;
          const shortfall = (x: number): number => Math.max(0, way * (needed - x)) ** power;
          const { value } = solve(shortfall, start, start * 3);
          expect(shortfall(value!)).toBe(0);
        },
      ),
      { seed: 4, numRuns: 300 },
    );
  });

  test('is none where nothing within reach passes, nor where the number makes no difference', () => {
    expect(solve((x) => Math.max(0, 1000 - x), 10, 30).value).toBeUndefined();
    expect(solve(() => 5, 10, 30).value).toBeUndefined();
  });

  test('is looked for only where the tub still stands', () => {
    // From 20 on nothing can be judged; it passes from 18 on.
    const { value } = solve((x) => (x >= 20 ? NaN : Math.max(0, 18 - x) ** 0.3), 10, 30);
    expect(value).toBeGreaterThanOrEqual(18);
    expect(value).toBeLessThan(20);
    expect(solve((x) => (x >= 15 ? NaN : Math.max(0, 18 - x)), 10, 30).value).toBeUndefined();
  });

  test('keeps its sign', () => {
    // It passes below zero only: a fall that would have to turn round is no fix.
    expect(solve((x) => Math.max(0, x + 1), 3, 9).value).toBeUndefined();
  });
});
