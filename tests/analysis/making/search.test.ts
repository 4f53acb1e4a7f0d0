import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { FlatPattern } from '../../../src/analysis/fold/flat-pattern.js';
import { DEFAULT_SHOP } from '../../../src/analysis/model/shop/default-shop.js';
import { costOf, handlingBetween, poseOf, type Pose } from '../../../src/analysis/making/plan/pose.js';
import { searchOrder, type SearchResult } from '../../../src/analysis/making/plan/search.js';
import { stepChecker, type StepChecker } from '../../../src/analysis/making/plan/stroke/step-check.js';
import {
  arbitraryBox,
  arbitraryCurl,
  arbitraryStrip,
  foldingBrake,
  pressBrake,
  shopWith,
} from '../../support/random/arbitrary-bendable.js';
import { boxFlat, stripFlat } from '../../support/random/bendable-flat.js';
import { casesOf } from '../../support/cases.js';

const search = (checker: StepChecker, budget = 1e6): SearchResult => {
  const run = searchOrder(checker, budget);
  for (;;) {
    const step = run.next();
    if (step.done) return step.value;
  }
};

/** Fewest handlings over every order and every way to lay the part, tried one by one from the flat sheet on; undefined: none. */
const exhaustive = (checker: StepChecker): number | undefined => {
  let best: number | undefined;
  const clear = new Map<string, boolean>();
  const isClear = (operation: number, bent: bigint, back: 0 | 1): boolean => {
    const key = `${operation} ${bent} ${back}`;
    const known = clear.get(key) ?? checker.check({ operation, bent, back }).ok;
    clear.set(key, known);
    return known;
  };
  const tryFrom = (bent: bigint, pose: Pose | undefined, cost: number): void => {
    let complete = true;
    for (const operation of checker.operations) {
      const bit = 1n << BigInt(operation.index);
      if (bent & bit) continue;
      complete = false;
      for (const back of [0, 1] as const) {
        if (!isClear(operation.index, bent, back)) continue;
        const next = poseOf(operation, back);
        tryFrom(bent | bit, next, cost + (pose ? costOf(handlingBetween(pose, next)) : 0));
      }
    }
    if (complete && (best === undefined || cost < best)) best = cost;
  };
  tryFrom(0n, undefined, 0);
  return best;
};

const shops = [
  DEFAULT_SHOP,
  shopWith({ pressBrakes: [pressBrake({ depth: 160 })] }),
  shopWith({ foldingBrakes: [foldingBrake({ depth: 120 })] }),
  shopWith({
    pressBrakes: [pressBrake({ name: 'a', dies: [8] }), pressBrake({ name: 'b', dies: [10], depth: 200, bed: 300 })],
    foldingBrakes: [foldingBrake()],
  }),
];

describe('search for a bending order', () => {
  it('finds the fewest flips and turns, or that there is no order, as trying every order does, up to 6 bends', () => {
    const seen = { found: 0, none: 0, handled: 0 };
    const parts = fc.sample(
      fc.record({
        flat: fc.oneof(arbitraryStrip(1, 6), arbitraryCurl(2, 5), arbitraryBox),
        shop: fc.nat({ max: shops.length - 1 }),
      }),
      { numRuns: casesOf(40), seed: 41 },
    );
    for (const { flat, shop } of parts) {
      const checker = stepChecker(flat, shops[shop], { material: 'steel' });
      if (checker.operations.length > 6) continue;
      const result = search(checker);
      const truth = exhaustive(checker);
      if (truth === undefined) {
        seen.none++;
        expect(result.kind).toBe('none');
        continue;
      }
      seen.found++;
      if (truth > 1) seen.handled++;
      expect(result).toMatchObject({ kind: 'found', proven: true, cost: truth });
    }
    expect(seen.found).toBeGreaterThan(12);
    expect(seen.none).toBeGreaterThan(7);
    expect(seen.handled).toBeGreaterThan(3);
  });

  it('returns steps that each clear the tools when made in their order', () => {
    for (const flat of fc.sample(fc.oneof(arbitraryStrip(3, 8), arbitraryBox), { numRuns: casesOf(10), seed: 5 })) {
      const checker = stepChecker(flat, DEFAULT_SHOP, { material: 'stainless' });
      const result = search(checker);
      if (result.kind !== 'found') continue;
      const fresh = stepChecker(flat, DEFAULT_SHOP, { material: 'stainless' });
      let bent = 0n;
      for (const { operation, back } of result.steps) {
        expect(fresh.check({ operation, bent, back }).ok).toBe(true);
        bent |= 1n << BigInt(operation);
      }
      expect(bent).toBe((1n << BigInt(checker.operations.length)) - 1n);
    }
  });

  it('plans twelve bends within the default budget and says when twenty are not proven best', () => {
    const zigzag = (legs: number): FlatPattern =>
      stripFlat(
        300,
        Array.from({ length: legs }, (_, i) => ({ flat: 50, bend: [40, -40, 30, -30][i % 4] })),
      );
    const twelve = stepChecker(zigzag(13), DEFAULT_SHOP, { material: 'steel' });
    expect(search(twelve, 5000)).toMatchObject({ kind: 'found', proven: true });
    expect(twelve.work()).toBeLessThan(5000);
    const twenty = stepChecker(zigzag(21), DEFAULT_SHOP, { material: 'steel' });
    const result = search(twenty, 1000);
    expect(result).toMatchObject({ kind: 'found', proven: false });
    // One more side may be held against tools after the budget is reached, not many.
    expect(twenty.work()).toBeLessThan(1000 + 200);
  });

  it('counts work by the metal that is held against tools, not by how often', () => {
    const workOf = (legs: number): number => {
      const flat = stripFlat(
        100,
        Array.from({ length: legs }, (_, i) => ({ flat: 20, bend: [30, -30][i % 2] })),
      );
      const checker = stepChecker(flat, DEFAULT_SHOP, { material: 'steel' });
      const middle = checker.operations[legs >> 1];
      checker.check({ operation: middle.index, bent: (1n << BigInt(legs - 1)) - 1n, back: 0 });
      return checker.work();
    };
    expect(workOf(100)).toBeGreaterThan(5 * workOf(10));
  });

  it('says that it does not know when the budget ends before any order is found', () => {
    const checker = stepChecker(
      boxFlat(
        300,
        200,
        [60, 60, 60, 60].map((height) => ({ height, bend: 90, inset: 2 })),
      ),
      DEFAULT_SHOP,
      { material: 'steel' },
    );
    expect(search(checker, 3)).toEqual({ kind: 'unknown' });
  });

  it('gives the same answer every time', () => {
    const flat = stripFlat(
      250,
      [60, 35, 80, 50, 70].map((leg, i) => ({ flat: leg, bend: [90, -60, 45, 90][i] })),
    );
    const once = JSON.stringify(search(stepChecker(flat, DEFAULT_SHOP, { material: 'steel' })), (_, v: unknown) =>
      typeof v === 'bigint' ? String(v) : v,
    );
    const again = JSON.stringify(search(stepChecker(flat, DEFAULT_SHOP, { material: 'steel' })), (_, v: unknown) =>
      typeof v === 'bigint' ? String(v) : v,
    );
    expect(again).toBe(once);
  });
});
