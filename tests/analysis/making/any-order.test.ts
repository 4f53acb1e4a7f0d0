import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { FlatPattern } from '../../../src/analysis/fold/flat-pattern.js';
import type { Shop } from '../../../src/analysis/model/tub.js';
import { DEFAULT_SHOP } from '../../../src/analysis/making/default-shop.js';
import { findAnyOrder, type AnyOrder } from '../../../src/analysis/making/plan/any-order.js';
import { planInOneGo } from '../../../src/analysis/making/plan/plan-part.js';
import { arbitraryCurl, arbitraryStrip, pressBrake, shopWith } from '../../support/arbitrary-bendable.js';

const look = (flat: FlatPattern, shop: Shop): AnyOrder => {
  const looking = findAnyOrder(flat, shop, 'stainless');
  for (;;) {
    const step = looking.next();
    if (step.done) return step.value;
  }
};

const shops = [DEFAULT_SHOP, shopWith({ pressBrakes: [pressBrake({ depth: 40 })] })];

describe('whether there is any bending order', () => {
  it('agrees with the bend plan wherever both come to an end, whatever part of that name was seen before', () => {
    const seen = { possible: 0, impossible: 0 };
    fc.assert(
      fc.property(
        fc.array(fc.oneof(arbitraryStrip(2, 5), arbitraryCurl(2, 5)), { minLength: 3, maxLength: 5 }),
        (flats) => {
          for (const shop of shops) {
            for (const flat of flats.map((each) => ({ ...each, name: 'part' }))) {
              const { isImpossible, blocked } = look(flat, shop);
              const plan = planInOneGo(flat, shop, { material: 'stainless', budget: 150, ifBlocked: 'reason' });
              expect(isImpossible).toBe(plan.outcome === 'impossible');
              expect(blocked).toEqual(plan.blocked);
              seen[isImpossible ? 'impossible' : 'possible']++;
            }
          }
        },
      ),
      { numRuns: 40, seed: 1811 },
    );
    expect(seen.possible).toBeGreaterThan(20);
    expect(seen.impossible).toBeGreaterThan(20);
  });
});
