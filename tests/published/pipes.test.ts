/** Pipes and pumps beyond the published cases of `cases/pipes.tsv`: against an explicit law, a grid and what each undoes. */
import { describe, expect, test } from 'vitest';
import {
  fullFlow,
  mostPartFull,
  partFullDepth,
  partFullFlow,
  pipeLoss,
  type Pipe,
} from '../../src/analysis/water/pipe/pipe-flow.js';
import { askedHead, curveHead, operatingPoint } from '../../src/analysis/water/pump/operating-point.js';

const within = (value: number, wanted: number, share: number): void =>
  expect(Math.abs(value / wanted - 1), `${value} for ${wanted}`).toBeLessThanOrEqual(share);
const bare = (bore: number, length: number, roughness: number, fittings = 0): Pipe => ({
  bore,
  length,
  roughness,
  fittings,
});

describe('head lost in a pipe', () => {
  test('a head drives through a full pipe what takes it up', () => {
    for (const head of [5, 50, 500]) {
      const pipe = bare(25, 1500, 0.0015, 1.5);
      within(pipeLoss(pipe, fullFlow(pipe, head, 1), 1), head, 1e-8);
    }
    expect(fullFlow(bare(25, 1500, 0.0015), 0, 1)).toBe(0);
  });
});

describe('a pipe with air in it', () => {
  test('carries the most at 0.938 of its bore, 1.076 times what it does full (Chow 1959, from memory)', () => {
    const pipe = { bore: 40, fall: 0.02 };
    within(mostPartFull(pipe) / partFullFlow(pipe, 40), 1.076, 0.001);
    expect(mostPartFull(pipe)).toBeGreaterThan(partFullFlow(pipe, 0.92 * 40));
    expect(mostPartFull(pipe)).toBeGreaterThan(partFullFlow(pipe, 0.96 * 40));
  });

  test('the depth told carries the flow, and above the most there is none', () => {
    const pipe = { bore: 32, fall: 0.05 };
    for (const share of [0.1, 0.5, 0.95]) {
      const rate = share * mostPartFull(pipe);
      within(partFullFlow(pipe, partFullDepth(pipe, rate) ?? NaN), rate, 1e-6);
    }
    expect(partFullDepth(pipe, 1.01 * mostPartFull(pipe))).toBeUndefined();
  });
});

describe('a pump and its hose', () => {
  const LITRE_A_MINUTE = 1e6 / 60;
  const curve = [
    [0, 3200],
    [10, 2600],
    [20, 1400],
    [26, 0],
  ].map(([rate, head]) => ({ rateMm3S: rate * LITRE_A_MINUTE, head }));
  const pump = { curve, hose: { bore: 12, length: 1800, bends: 3 } };

  // An independent search on a grid of the printed curve, friction by the explicit form of Swamee and Jain (within 1 % of Colebrook).
  test('works where the printed curve meets what the hose asks for', () => {
    for (const lift of [100, 800, 2000]) {
      const asked = (litres: number): number => {
        const speed = (litres * LITRE_A_MINUTE) / ((Math.PI / 4) * 144);
        const reynolds = (speed * 12) / 1.004;
        const f = reynolds < 2300 ? 64 / reynolds : 0.25 / Math.log10(0.01 / 12 / 3.7 + 5.74 / reynolds ** 0.9) ** 2;
        return lift + ((f * 1800) / 12 + 0.9 + 1) * (speed ** 2 / 19_613.3);
      };
      let met = 0.1;
      while (met < 26 && curveHead(curve, met * LITRE_A_MINUTE) > asked(met)) met += 0.001;
      const found = operatingPoint(pump, { lift, viscosityCst: 1.004 });
      within((found?.rateMm3S ?? NaN) / LITRE_A_MINUTE, met, 0.006);
      within(askedHead(pump, found?.rateMm3S ?? NaN, { lift, viscosityCst: 1.004 }), found?.head ?? NaN, 1e-9);
    }
  });

  test('does not lift what is higher than its curve begins, and is told beyond its end', () => {
    expect(operatingPoint(pump, { lift: 3200, viscosityCst: 1 })).toBeUndefined();
    expect(operatingPoint({ ...pump, curve: curve.slice(0, 2) }, { lift: 0, viscosityCst: 1 })?.isBeyond).toBe(true);
  });
});
