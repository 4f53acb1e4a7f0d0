import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { FlatPattern } from '../../../src/analysis/fold/flat-pattern.js';
import type { Sheet, Shop } from '../../../src/analysis/model/tub.js';
import { checkBends } from '../../../src/analysis/making/bend-check.js';
import { DEFAULT_SHOP } from '../../../src/analysis/model/shop/default-shop.js';
import { decide, type Effort, type Verdict } from '../../../src/analysis/making/plan/verdict.js';
import { flangeOf, stepChecker } from '../../../src/analysis/making/plan/stroke/step-check.js';
import { planInOneGo } from '../../../src/analysis/making/plan/plan-part.js';
import { codesOf, analyseText } from '../../support/analyse-text.js';
import { arbitraryCurl, arbitraryStrip, pressBrake, shopWith } from '../../support/random/arbitrary-bendable.js';
import { lippedPan } from '../../support/tubs/pan-text.js';
import { casesOf } from '../../support/cases.js';

const verdictOf = (flat: FlatPattern, shop: Shop, effort: Effort): Verdict => {
  const deciding = decide(flat, shop, { material: 'stainless' }, effort);
  for (;;) {
    const step = deciding.next();
    if (step.done) return step.value;
  }
};

const sheetOf = (thickness: number): Sheet => ({
  name: 'skin',
  at: 0,
  material: 'stainless',
  thickness,
  gauge: undefined,
  radius: 1,
  kFactor: undefined,
  coupon: undefined,
  grain: 'any',
});

const shops = [DEFAULT_SHOP, shopWith({ pressBrakes: [pressBrake({ depth: 40 })] })];

describe('the flat metal beside a bend', () => {
  it('is as long for the checks as for the plan with nothing bent, over several short legs too', () => {
    fc.assert(
      fc.property(fc.oneof(arbitraryStrip(2, 6), arbitraryCurl(2, 6)), (flat) => {
        const checker = stepChecker(flat, DEFAULT_SHOP, { material: 'stainless' });
        for (const { index, legs } of checkBends(flat, sheetOf(flat.thickness), DEFAULT_SHOP)) {
          const operation = checker.operations.find(({ bends }) => bends.includes(index))!;
          legs.forEach(({ reaches }, side) => {
            const planned = flangeOf(operation, checker.side(operation.index, side as 0 | 1, 0n), flat.thickness);
            expect(reaches).toBeCloseTo(planned, 6);
          });
        }
      }),
      { numRuns: casesOf(20), seed: 5 },
    );
  });
});

describe('whether there is any bending order', () => {
  it('is told while typing as in the bend plan wherever both come to an end, whatever part of that name was seen before', () => {
    const seen = { possible: 0, impossible: 0, 'not decided': 0 };
    fc.assert(
      fc.property(
        fc.array(fc.oneof(arbitraryStrip(2, 5), arbitraryCurl(2, 5)), { minLength: 3, maxLength: 5 }),
        (flats) => {
          for (const shop of shops) {
            for (const flat of flats.map((each) => ({ ...each, name: 'part' }))) {
              const verdict = verdictOf(flat, shop, 'live');
              seen[verdict.kind]++;
              if (verdict.kind === 'not decided') continue;
              const plan = planInOneGo(flat, shop, { metal: { material: 'stainless' }, ifBlocked: 'nothing' });
              expect(verdict.kind).toBe(plan.outcome === 'planned' ? 'possible' : plan.outcome);
            }
          }
        },
      ),
      { numRuns: casesOf(4, 0.1), seed: 1811 },
    );
    expect(seen.possible).toBeGreaterThan(2);
    expect(seen.impossible).toBeGreaterThan(2);
  });

  it('is told in full as in the bend plan, with what is in the way', () => {
    fc.assert(
      fc.property(fc.oneof(arbitraryStrip(4, 6), arbitraryCurl(4, 6)), fc.constantFrom(...shops), (flat, shop) => {
        const verdict = verdictOf(flat, shop, 'full');
        const plan = planInOneGo(flat, shop, { metal: { material: 'stainless' }, ifBlocked: 'reason' });
        expect(verdict.kind).toBe(plan.outcome === 'planned' ? 'possible' : plan.outcome);
        expect(verdict.kind === 'impossible' ? verdict.blocked : undefined).toEqual(plan.blocked);
      }),
      { numRuns: casesOf(3, 0.1), seed: 7 },
    );
  });

  it('is open while typing for a part that needs a longer look, and decided in full', () => {
    const live = codesOf(analyseText(lippedPan));
    expect(live).toContain('make/order-not-decided');
    expect(live).not.toContain('make/no-bending-order');
    const full = analyseText(lippedPan, { effort: 'full' });
    expect(codesOf(full)).toContain('make/no-bending-order');
    expect(codesOf(full)).not.toContain('make/order-not-decided');
    const plan = planInOneGo(full.stages.flats()[0]!, DEFAULT_SHOP, {
      metal: { material: 'stainless' },
      ifBlocked: 'nothing',
    });
    expect(plan.outcome).toBe('impossible');
  });
});
