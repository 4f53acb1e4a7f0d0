/** Water that leaves an open edge by its text, beyond the published cases of `cases/outlets.tsv`. */
import { describe, expect, test } from 'vitest';
import { reportOf, type Report } from '../../src/analysis/report/report.js';
import { analyseText } from '../support/analyse-text.js';

const within = (value: number, wanted: number, share: number): void =>
  expect(Math.abs(value / wanted - 1), `${value} for ${wanted}`).toBeLessThanOrEqual(share);

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
