/** Hollows of any size against formulas in closed form: prismoids, slanting boxes, and cascades whose crests are round. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { buildShape } from '../../../src/analysis/shape/build-shape.js';
import { waterOf, type Water } from '../../../src/analysis/water/water.js';
import type { Tub } from '../../../src/analysis/model/tub.js';
import { casesOf } from '../../support/cases.js';
import { funnel, pan, stripBasin } from '../../support/random/arbitrary-tub.js';
import { withOutlet } from '../../support/tub-of.js';

const waterIn = (tub: Tub): Water => waterOf(tub, buildShape(tub));
const between = (min: number, max: number): fc.Arbitrary<number> => fc.double({ min, max, noNaN: true });
const near = (value: number, wanted: number, share = 1e-9): void =>
  expect(Math.abs(value - wanted), `${value} for ${wanted}`).toBeLessThanOrEqual(share * Math.abs(wanted));
const runs = { numRuns: casesOf(25), seed: 20261201 };

test('a funnel of any form holds h/6 (A1 + 4 Am + A2)', () => {
  const sizes = fc.tuple(between(60, 900), between(60, 900), between(0.1, 0.9), between(0.1, 0.9), between(10, 500));
  fc.assert(
    fc.property(sizes, between(0.1, 0.9), ([W, D, w, d, high], at) => {
      const [a, b] = [W * w, D * d];
      const { tub } = funnel({ top: [W, D], bottom: [a, b], at: [(W - a) * at, (D - b) * (1 - at)], rim: high });
      near(waterIn(tub).basins()[0].volume, (high / 6) * (W * D + (W + a) * (D + b) + a * b));
    }),
    runs,
  );
});

test('a pan with a slanting floor holds a wedge below its outlet, and its mean depth when that is plugged', () => {
  fc.assert(
    fc.property(between(80, 900), between(60, 900), between(0.01, 0.4), between(0.3, 0.7), (wide, deep, fall, at) => {
      const rim = wide * fall + 20;
      const { tub } = pan({ wide, deep, rim, alongX: fall });
      const water = waterIn(withOutlet(tub, 0, [wide * at, deep / 2, wide * at * fall], 8));
      const level = wide * at * fall - 4 * Math.sin(Math.atan(fall));
      const [pool] = water.pools();
      near(pool.level, level);
      near(pool.volume, (level ** 2 / fall / 2) * deep);
      near(water.basins()[0].volume, (rim - (wide * fall) / 2) * wide * deep);
    }),
    runs,
  );
});

/** Outer radius of the bends of a strip basin: its sheet's radius and thickness. */
const ROUND = 2.4;

test('the chambers of a cascade fill to the top of the round of the lower of their crests', () => {
  const leg = fc.tuple(between(20, 60), between(20, 60), between(25, 90));
  fc.assert(
    fc.property(fc.array(leg, { minLength: 2, maxLength: 5 }), between(40, 200), (legs, wide) => {
      const profile: [number, number][] = [
        [0, 120],
        [15, 0],
      ];
      for (const [up, down, top] of legs) {
        const [y] = profile[profile.length - 1];
        profile.push([y + up, top], [y + up + down, 0]);
      }
      profile.push([profile[profile.length - 1][0] + 15, 120]);
      const tops = legs.map(([up, down, top]) => {
        const [rise, fall] = [Math.atan(top / up), Math.atan(top / down)];
        return top - ROUND * (Math.cos((rise - fall) / 2) / Math.cos((rise + fall) / 2) - 1);
      });
      const sides = [120, ...tops, 120];
      const chambers = [...waterIn(stripBasin(profile, wide).tub).chambers()].sort((p, q) => p.lowest[1] - q.lowest[1]);
      expect(chambers.length).toBe(legs.length + 1);
      chambers.forEach((chamber, i) => {
        near(chamber.level, Math.min(sides[i], sides[i + 1]), 1e-9);
        near(chamber.spill.width, wide);
      });
    }),
    runs,
  );
});
