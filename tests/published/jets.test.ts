/**
 * Water that leaves an open edge, against printed values. "Found": seen in the source named or its reproduction (Python textbook
 * companions of the FOSSEE project for the textbooks); "derived": a formula worked elsewhere; "from memory": recalled.
 */
import { describe, expect, test } from 'vitest';
import { jetOf, throwOf } from '../../src/analysis/water/outlet/jet.js';
import { reportOf, type Report } from '../../src/analysis/report/report.js';
import { analyseText } from '../support/analyse-text.js';

const within = (value: number, wanted: number, share: number): void =>
  expect(Math.abs(value / wanted - 1), `${value} for ${wanted}`).toBeLessThanOrEqual(share);

const level = (perWidth: number): ReturnType<typeof jetOf> =>
  jetOf({ perWidth, inclination: 0, viscosityCst: 1, n: 0.01 });

describe('depth at an open edge', () => {
  // The critical depth of each, at which the brink stands at 0.715 (Rouse 1936, from memory) or 2/3 (momentum, derived).
  test.each([
    ['Subramanya, 1000 Solved Problems in Fluid Mechanics, Ex. 12.25: 6 m3/s over 2 m (found)', 6 / 2, 0.972],
    ['Subramanya, Ex. 12.28: 6 m3/s over 3 m (found)', 6 / 3, 0.742],
    ['Subramanya, Ex. 12.29: 12.352 m3/s over 3 m (found)', 12.352 / 3, 1.2],
    ['Brasch, Whyman, Problems in Fluid Flow, Ex. 5.11: 1.49 m2/s (found)', 1.49, 0.6097],
  ])('%s', (_, perMetre, critical) => {
    const { depth, depthBand } = level(perMetre * 1e6);
    within(depth / 715, critical, 0.001);
    within(depthBand[0] / 1000, (critical * 2) / 3, 0.001);
  });

  test('10 mm at the brink over 100 mm are 0.5181 L/s (from memory)', () => {
    within(level(5181).depth, 10, 0.0005);
  });

  // y 2 F2 / (1 + 2 F2) of the even depth y, derived; F from it and the flow.
  test.each([
    [0.05, 2],
    [0.3, 3],
  ])('a steep face of sine %d draws its even depth down by momentum', (sine) => {
    const perWidth = 10_000;
    const jet = jetOf({ perWidth, inclination: Math.asin(sine), viscosityCst: 1, n: 0.01 });
    const even = 1000 * ((0.01 * perWidth * 1e-6) / Math.sqrt(sine)) ** 0.6;
    const froude2 = (perWidth / even) ** 2 / (9806.65 * Math.sqrt(1 - sine ** 2) * even);
    expect(froude2).toBeGreaterThan(1);
    within(jet.depth, (even * 2 * froude2) / (1 + 2 * froude2), 1e-9);
    within(jet.speed * jet.depth, perWidth, 1e-9);
  });
});

describe('where a jet comes down (derived: free fall)', () => {
  test.each([
    [500, 0, 600, 174.9],
    [1000, 0, 300, 247.3],
    [1500, 0, 900, 642.5],
    [1000, 10, 300, 226.7],
    [1500, 20, 500, 382.3],
  ])('%d mm/s, %d deg down, %d mm of fall: %d mm', (speed, down, fall, thrown) => {
    within(throwOf({ speed, down: (down * Math.PI) / 180 }, fall), thrown, 0.0005);
  });
});

describe('a spout by its text', () => {
  const chute = (rate: number): Report => {
    const { stages } = analyseText(
      `units mm
sheet skin = stainless thickness 1.2 radius 1.2
point P = (0, 0, 500)  point Q = (100, 0, 500)
panel bed of skin = P Q (100, 400, 520) (0, 400, 520)
panel left of skin = (0, 0, 500) (0, 400, 520) (0, 400, 600) (0, 0, 600)
panel right of skin = (100, 0, 500) (100, 400, 520) (100, 400, 600) (100, 0, 600)
panel back of skin = (0, 400, 520) (100, 400, 520) (100, 400, 600) (0, 400, 600)
seam bed left { weld tig }  seam bed right { weld tig }  seam bed back { weld tig }
inflow ${rate} L/min on back
outlet mouth spout over bed[P Q]
tank catch 60 L working 20 L under mouth from (-100, -400, 0) to (200, 50, 200)`,
      { rules: [] },
    );
    return reportOf(stages);
  };

  // 0.5 L/s over 0.1 m at n 0.012 on a sine of 0.04994: y = (0.012 x 0.005 / 0.2235)^0.6 m (derived, Manning on a wide channel).
  test('runs down at its even depth, leaves faster than its waves, and comes down in the tank', () => {
    const { outlets, flows } = chute(30).water;
    const { jet, inflow_L_min } = outlets[0];
    const sine = 20 / Math.hypot(400, 20);
    const even = 1000 * ((0.012 * 0.005) / Math.sqrt(sine)) ** 0.6;
    within(inflow_L_min, 30, 1e-9);
    within(
      flows[0].ends.reduce((sum, { share_percent }) => sum + share_percent, 0),
      100,
      1e-9,
    );
    within(jet?.depth_most_mm ?? NaN, even, 0.001);
    within(jet?.width_mm ?? NaN, 100, 1e-6);
    expect(jet?.into).toBe('catch');
    within(jet?.falls_mm ?? NaN, 300, 1e-6);
    const speed = jet?.speed_mm_s ?? NaN;
    const time = (Math.sqrt((speed * sine) ** 2 + 2 * 9806.65 * 300) - speed * sine) / 9806.65;
    within(jet?.throw_mm ?? NaN, speed * Math.sqrt(1 - sine ** 2) * time, 0.001);
  });
});
