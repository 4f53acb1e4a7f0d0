/**
 * Where a pump works, against a search of its own: the friction factor by Newton's rule on the law of Colebrook, the point by the
 * golden section of the distance between both curves. Shares nothing with the product but the numbers that it takes from its sources.
 */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { operatingPoint } from '../../../src/analysis/water/pump/operating-point.js';
import { casesOf } from '../../support/cases.js';

const GRAVITY = 9806.65;
/** mm of rubber; a bend, and the exit. */
const [ROUGH, BEND, EXIT] = [0.01, 0.3, 1];

/** x = 1/sqrt f: x + 2 log10(k + 2.51 x / Re) = 0. */
const turbulent = (reynolds: number, share: number): number => {
  let x = 5;
  for (let i = 0; i < 60; i++) {
    const inner = share / 3.7 + (2.51 * x) / reynolds;
    x -= (x + 2 * Math.log10(inner)) / (1 + (2 * 2.51) / (reynolds * inner * Math.LN10));
  }
  return x ** -2;
};
/** Straight between where a flow is laminar for certain and where it is turbulent. */
const factorOf = (reynolds: number, share: number): number => {
  if (reynolds < 2300) return 64 / reynolds;
  if (reynolds > 4000) return turbulent(reynolds, share);
  const to = turbulent(4000, share);
  return 64 / 2300 + ((to - 64 / 2300) * (reynolds - 2300)) / 1700;
};

interface Drawn {
  readonly steps: readonly (readonly [number, number])[];
  readonly bore: number;
  readonly length: number;
  readonly bends: number;
  readonly lift: number;
  readonly viscosityCst: number;
}

const share = (min: number, max: number): fc.Arbitrary<number> => fc.double({ min, max, noNaN: true });
const drawn: fc.Arbitrary<Drawn> = fc.record({
  // mm3/s more and mm less from point to point.
  steps: fc.array(fc.tuple(share(2e4, 3e5), share(50, 1500)), { minLength: 1, maxLength: 6 }),
  bore: share(6, 50),
  length: share(200, 30_000),
  bends: fc.nat(8),
  lift: share(-300, 3000),
  viscosityCst: share(0.5, 30),
});

test('a pump works where a golden section finds its curve and its hose to meet', () => {
  let [met, beyond] = [0, 0];
  fc.assert(
    fc.property(drawn, ({ steps, bore, length, bends, lift, viscosityCst }) => {
      const whole = steps.reduce((sum, [, fall]) => sum + fall, 0);
      let [rateMm3S, head] = [0, whole];
      const curve = [{ rateMm3S, head }];
      for (const [more, less] of steps) curve.push({ rateMm3S: (rateMm3S += more), head: (head -= less) });
      const asked = (rate: number): number => {
        if (rate <= 0) return lift;
        const speed = (4 * rate) / (Math.PI * bore ** 2);
        const f = factorOf((speed * bore) / viscosityCst, ROUGH / bore);
        return lift + ((f * length) / bore + bends * BEND + EXIT) * (speed ** 2 / (2 * GRAVITY));
      };
      const given = (rate: number): number => {
        const i = Math.max(
          1,
          curve.findIndex((point) => point.rateMm3S >= rate),
        );
        const [p, q] = [curve[i - 1], curve[i]];
        return p.head + ((q.head - p.head) * (rate - p.rateMm3S)) / (q.rateMm3S - p.rateMm3S);
      };
      const found = operatingPoint({ curve, hose: { bore, length, bends } }, { lift, viscosityCst });
      if (lift >= whole) {
        expect(found).toBeUndefined();
        return;
      }
      const last = curve[curve.length - 1].rateMm3S;
      if (given(last) >= asked(last)) {
        beyond++;
        expect(found).toEqual({ rateMm3S: last, head: expect.closeTo(0, 9), isBeyond: true });
        return;
      }
      const apart = (rate: number): number => Math.abs(given(rate) - asked(rate));
      let [from, to] = [0, last];
      for (let i = 0; i < 90; i++) {
        const [p, q] = [to - 0.6180339887498949 * (to - from), from + 0.6180339887498949 * (to - from)];
        if (apart(p) < apart(q)) to = q;
        else from = p;
      }
      met++;
      const rate = found?.rateMm3S ?? NaN;
      expect(Math.abs(rate - (from + to) / 2)).toBeLessThanOrEqual(1e-7 * last);
      expect(Math.abs((found?.head ?? NaN) - asked(rate))).toBeLessThanOrEqual(1e-6 * whole);
    }),
    { numRuns: casesOf(40), seed: 31 },
  );
  expect(met).toBeGreaterThan(20);
  expect(beyond).toBeGreaterThan(0);
});
