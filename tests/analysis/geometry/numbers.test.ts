import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { disjointSets } from '../../../src/analysis/geometry/disjoint-sets.js';
import { leastThat } from '../../../src/analysis/geometry/numeric/least-that.js';
import { solveSparse } from '../../../src/analysis/geometry/numeric/sparse-solve.js';
import { zeroBetween } from '../../../src/analysis/geometry/numeric/zero-of.js';
import { minQueue } from '../../../src/analysis/geometry/priority-queue.js';
import { real } from './shapes.js';

describe('values found', () => {
  test('the least that passes is found from any start, and none where none does', () => {
    for (const start of [1e-3, 1, 700]) expect(leastThat(start, (x) => x * x >= 2)).toBeCloseTo(Math.SQRT2, 8);
    expect(leastThat(1, () => false)).toBe(Infinity);
  });

  test('a zero is found to the last digit', () => {
    fc.assert(
      fc.property(real(0.01, 100), (wanted) => {
        const excess = (x: number): number => wanted ** 3 - x ** 3;
        const found = zeroBetween(excess, [0, excess(0)], [200, excess(200)]);
        expect(excess(found)).toBeLessThanOrEqual(0);
        expect(Math.abs(found - wanted)).toBeLessThan(1e-12 * wanted);
      }),
      { seed: 31, numRuns: 30 },
    );
    // A step: the place where it is first not above.
    expect(zeroBetween((x) => (x < 3 ? 1 : 0), [0, 1], [10, 0])).toBe(3);
  });

  test('a sparse system is solved: the product with the matrix gives the right side back', () => {
    const entry = fc.record({ row: fc.nat(29), column: fc.nat(29), value: real(-1, 1) });
    fc.assert(
      fc.property(
        fc.array(entry, { maxLength: 90 }),
        fc.array(real(-9, 9), { minLength: 30, maxLength: 30 }),
        (entries, right) => {
          const rows = right.map((_, i) => new Map([[i, 100]]));
          for (const { row, column, value } of entries) if (row !== column) rows[row].set(column, value);
          const kept = rows.map((row) => [...row]);
          const x = solveSparse(rows, right);
          kept.forEach((row, i) =>
            expect(row.reduce((sum, [k, value]) => sum + value * x[k], 0)).toBeCloseTo(right[i], 9),
          );
        },
      ),
      { seed: 32, numRuns: 20 },
    );
  });
});

describe('orders and sets', () => {
  test('a queue gives back what a sort gives, equal keys by their number, also when filled and emptied in turns', () => {
    fc.assert(
      fc.property(fc.array(fc.tuple(fc.nat(50), fc.integer({ min: 0, max: 8 })), { maxLength: 80 }), (entries) => {
        const queue = minQueue();
        const waiting: (readonly [number, number])[] = [];
        entries.forEach(([value, key], i) => {
          queue.push(value, key);
          waiting.push([value, key]);
          if (i % 3 !== 2) return;
          waiting.sort((a, b) => a[1] - b[1] || a[0] - b[0]);
          expect(queue.pop()).toBe(waiting.shift()![0]);
          expect(queue.size()).toBe(waiting.length);
        });
        const rest = [...waiting].sort((a, b) => a[1] - b[1] || a[0] - b[0]).map(([value]) => value);
        expect(rest.map(() => queue.pop())).toEqual(rest);
        expect(queue.pop()).toBeUndefined();
      }),
      { seed: 33, numRuns: 40 },
    );
  });

  test('sets joined pair by pair are those that a walk along the pairs reaches, named by their least', () => {
    fc.assert(
      fc.property(fc.array(fc.tuple(fc.nat(19), fc.nat(19)), { maxLength: 25 }), (pairs) => {
        const sets = disjointSets(20);
        for (const [a, b] of pairs) sets.join(a, b);
        for (let i = 0; i < 20; i++) {
          const reached = new Set([i]);
          for (let grown = 0; grown !== reached.size;) {
            grown = reached.size;
            for (const [a, b] of pairs)
              if (reached.has(a) || reached.has(b)) {
                reached.add(a);
                reached.add(b);
              }
          }
          expect(sets.rootOf(i)).toBe(Math.min(...reached));
        }
      }),
      { seed: 34, numRuns: 30 },
    );
  });
});
