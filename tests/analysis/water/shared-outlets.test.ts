import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Tub } from '../../../src/analysis/model/tub.js';
import { buildShape } from '../../../src/analysis/shape/build-shape.js';
import { shareOfTank } from '../../../src/analysis/water/outlet/tank-share.js';
import { tankBalance } from '../../../src/analysis/water/outlet/tank.js';
import { waterOf, type Water } from '../../../src/analysis/water/water.js';
import { OVER_A_SILL, pan, stripBasin } from '../../support/random/arbitrary-tub.js';
import { withOutlet } from '../../support/tub-of.js';
import { casesOf } from '../../support/cases.js';

const waterIn = (tub: Tub): Water => waterOf(tub, buildShape(tub));

const withInflow = (tub: Tub, panel: number, litresPerMinute: number): Tub => ({
  ...tub,
  inflows: [
    { name: 'tap', at: 3000, panel, point: undefined, rateMm3S: (litresPerMinute * 1e6) / 60, solids: undefined },
  ],
});

/** EN 12056-3:2000, level outlets without strainer, L/min under a head in mm (from memory). */
const levelOutlet = (diameter: number, head: number): number =>
  head <= 0 ? 0 : 60 * Math.min((diameter * head ** 1.5) / 7500, (diameter ** 2 * Math.sqrt(head)) / 15000);

/** The level at which outlets take a flow together, by halving: independent of the code under test. */
const levelFor = (outlets: readonly { readonly diameter: number; readonly lip: number }[], litres: number): number => {
  let [low, high] = [0, 1e5];
  for (let i = 0; i < 200; i++) {
    const middle = (low + high) / 2;
    const taken = outlets.reduce((sum, { diameter, lip }) => sum + levelOutlet(diameter, middle - lip), 0);
    if (taken < litres) low = middle;
    else high = middle;
  }
  return high;
};

const perMinute = (mm3S: number): number => (mm3S * 60) / 1e6;

describe('two outlets in one level pan', () => {
  const both = (first: number, second: number, raised = 0): Tub =>
    withOutlet(withOutlet(pan({ wide: 140, deep: 80, rim: 300 }).tub, 0, [20, 40, 0], first), 0, [90, 40, 0], second, {
      raised,
    });

  it('of 12 and 60 mm share 20 L/min under one level', () => {
    const water = waterIn(withInflow(both(12, 60), 0, 20));
    const [small, large] = water.outlets();
    const level = levelFor(
      [
        { diameter: 12, lip: 0 },
        { diameter: 60, lip: 0 },
      ],
      20,
    );
    expect(small.waterLevel).toBeCloseTo(level, 6);
    expect(large.waterLevel).toBeCloseTo(level, 6);
    expect(perMinute(small.rateMm3S)).toBeCloseTo(levelOutlet(12, level), 6);
    expect(perMinute(large.rateMm3S)).toBeCloseTo(levelOutlet(60, level), 6);
    const [{ ends }] = water.flows();
    expect(ends.map(({ share }) => share).reduce((sum, share) => sum + share, 0)).toBeCloseTo(1, 12);
    expect(ends[0]).toMatchObject({ kind: 'outlet', outlet: 1 });
    expect(water.holdUp().overOutlets).toBeCloseTo(level * 140 * 80, 0);
  });

  it('any two, one perhaps raised, stand under the level that halving finds', () => {
    const size = fc.integer({ min: 8, max: 38 });
    fc.assert(
      fc.property(size, size, fc.integer({ min: 0, max: 30 }), fc.integer({ min: 1, max: 60 }), (d1, d2, raised, q) => {
        const states = waterIn(withInflow(both(d1, d2, raised), 0, q)).outlets();
        const lips = [
          { diameter: d1, lip: 0 },
          { diameter: d2, lip: raised },
        ];
        const level = levelFor(lips, q);
        fc.pre(level < 300);
        states.forEach(({ rateMm3S, waterLevel }, i) => {
          expect(perMinute(rateMm3S)).toBeCloseTo(levelOutlet(lips[i].diameter, level - lips[i].lip), 5);
          if (rateMm3S > 0) expect(waterLevel).toBeCloseTo(level, 5);
        });
      }),
      { seed: 22, numRuns: casesOf(12) },
    );
  });

  it('that are equal count the water over them once', () => {
    const water = waterIn(withInflow(both(30, 30), 0, 20));
    const [{ head }] = water.outlets();
    expect(water.holdUp().overOutlets).toBeCloseTo(head * 140 * 80, 3);
    expect(water.holdUp().drainBack).toBeCloseTo(head * 140 * 80, 3);
  });
});

describe('two hollows with a sill 30 mm high between them, an outlet in each, all water into the first', () => {
  const hollows = (litres: number): Water => {
    const { tub } = stripBasin(OVER_A_SILL, 80);
    // Welded at the sill, so that it is as sharp as drawn.
    const welded = { ...tub, bends: [] };
    return waterIn(withInflow(withOutlet(withOutlet(welded, 1, [40, 50, 0], 20), 4, [40, 150, 0], 20), 1, litres));
  };
  const most = levelOutlet(20, 30);

  it('stand apart while the first takes it', () => {
    const [first, second] = hollows(most * 0.9).outlets();
    expect(perMinute(first.rateMm3S)).toBeCloseTo(most * 0.9, 6);
    expect(second.rateMm3S).toBe(0);
  });

  /** L/min over the sill, 80 wide: 2/3 0.62 b sqrt(2 g) h^1.5, by Villemonte's factor where it is drowned (1947, from memory). */
  const overSill = (high: number, low: number): number => {
    const [h1, h2] = [high - 30, Math.max(0, low - 30)];
    return h1 <= 0
      ? 0
      : 6e-5 * ((2 / 3) * 0.62 * 80 * Math.sqrt(2 * 9806.65) * h1 ** 1.5) * (1 - (h2 / h1) ** 1.5) ** 0.385;
  };
  const halving = (low: number, high: number, isShort: (level: number) => boolean): number => {
    for (let i = 0; i < 100; i++) {
      const middle = (low + high) / 2;
      if (isShort(middle)) low = middle;
      else high = middle;
    }
    return high;
  };

  it.each([1.2, 1.5, 2.1, 2.4, 3])(
    'run over the sill at %s times that: both levels as nested halving finds them',
    (times) => {
      const litres = most * times;
      // The second takes what comes over: for each level of the first that of the second, then the first's by its balance.
      const secondAt = (high: number): number =>
        halving(0, high, (level) => levelOutlet(20, level) < overSill(high, level));
      const high = halving(0, 119, (level) => levelOutlet(20, level) + overSill(level, secondAt(level)) < litres);
      const [first, second] = hollows(litres).outlets();
      expect(first.waterLevel).toBeCloseTo(high, 6);
      expect(second.waterLevel).toBeCloseTo(secondAt(high), 6);
      expect(perMinute(first.rateMm3S) + perMinute(second.rateMm3S)).toBeCloseTo(litres, 8);
    },
  );
});

describe('raised outlets and tanks', () => {
  const piped = (raised: number, rim = 80): Tub =>
    withOutlet(pan({ wide: 140, deep: 80, rim }).tub, 0, [70, 40, 0], 30, { raised });
  const tank = (name: string): Tub['tanks'][number] => ({
    name,
    at: 0,
    capacityMm3: 50e6,
    workingMm3: 20e6,
    under: [0],
    box: undefined,
  });

  it('a standpipe holds back what is around it, and nothing of that comes back', () => {
    const water = waterIn(withInflow(piped(40), 0, 1e-6));
    const around = (140 * 80 - 15 ** 2 * 16 * Math.sin((2 * Math.PI) / 32)) * 40;
    expect(water.holdUp().pools).toBeCloseTo(around, 0);
    expect(water.holdUp().overOutlets).toBeLessThan(100);
    // Pools stay in the tub when the pump stops.
    const { needed } = tankBalance(tank('catch'), water.holdUp(), 1);
    expect(needed).toBe(20e6 + water.holdUp().drainBack);
  });

  it('a pipe higher than the rim shows the rim as the flood level, and takes nothing', () => {
    const [state] = waterIn(piped(90)).outlets();
    expect(state.floodLevel).toBe(80);
    expect(state.capacityMm3S).toBe(0);
  });

  it('two tanks under one outlet divide what comes back', () => {
    const tanks = [tank('left'), tank('right')];
    const tub = { ...withInflow(piped(0), 0, 10), tanks };
    const water = waterIn(tub);
    expect(tanks.map((each) => shareOfTank(tub, water, each))).toEqual([0.5, 0.5]);
  });
});
