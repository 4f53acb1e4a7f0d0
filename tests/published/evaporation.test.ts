/** The band of evaporation and what it takes in a week; the laws by themselves are held to `cases/evaporation.tsv`. */
import { describe, expect, test } from 'vitest';
import { reportOf } from '../../src/analysis/report/report.js';
import {
  evaporationBand,
  meyer,
  MM_A_DAY,
  overPool,
  rohwer,
  STILL,
  vapourPressure,
} from '../../src/analysis/water/week/evaporation.js';
import { analyseText } from '../support/analyse-text.js';

const within = (value: number, wanted: number, off: number): void =>
  expect(Math.abs(value - wanted), `${value} for ${wanted}`).toBeLessThanOrEqual(off);

describe('the band that is told', () => {
  test('lies between those laws: at 20 degrees and half damp, still air', () => {
    const saturated = vapourPressure(20);
    const over = { saturated, air: saturated / 2, windKmH: 0, windAt: 2 };
    const [least, most] = evaporationBand({ celsius: 20, humidity: 0.5, windMmS: 0 });
    const pool = overPool(over.saturated / 25.4, over.air / 25.4, 0, 1050) * MM_A_DAY;
    const all = [meyer(over), rohwer(over), pool, STILL * pool];
    expect([least, most]).toEqual([Math.min(...all), Math.max(...all)]);
    // Published laws differ by a third and more.
    expect(most / least).toBeGreaterThan(1.2);
  });

  test('takes from the tank, night and day, what lies open there and in the tub', () => {
    const text = (evaporates: string): string => `units mm
sheet skin = stainless 18 ga  radius 1.2
strip floor of skin from (0, 400, 200) heading front across right 300 {
    panel back to z 100 falling 90 deg
    panel shelf 300 falling 10.5 deg
    panel front to z 200 rising 80 deg
}
side cheekL of skin closes floor.left  up to 200
side cheekR of skin closes floor.right up to 200
outlet drain in floor.shelf at (150, 400 - 265 * cos(10.5 deg), 100 - 265 * sin(10.5 deg)) diameter 40 { lip 15 }
tank catch 40 L working 24 L under drain from (0, 0, -300) to (300, 400, -20)
inflow 15 L/min on floor.shelf at (150, 400 - 60 * cos(10.5 deg), 100 - 60 * sin(10.5 deg))
week { run 6 hours for 5 days  ${evaporates} }`;
    const volumes = (evaporates: string): readonly number[] => {
      const { week } = reportOf(analyseText(text(evaporates), { rules: [] }).stages);
      return week!.lines.find(({ name }) => name === 'catch')!.level_mm!;
    };
    const { week } = reportOf(analyseText(text('evaporates at 20 celsius humidity 50 %'), { rules: [] }).stages);
    const row = week!.evaporation!;
    // The tank's top is 300 by 400; at rest hardly more lies open.
    expect(row.at_rest_m2).toBeGreaterThanOrEqual(0.12);
    expect(row.at_rest_m2).toBeLessThan(0.14);
    expect(row.at_work_m2).toBeGreaterThan(row.at_rest_m2);
    const levels = volumes('evaporates at 20 celsius humidity 50 %');
    const lost = ((levels[0] - levels[levels.length - 1]) * 300 * 400) / 1e6;
    within(lost, (5 * (row.least_L_day + row.most_L_day)) / 2, 0.01);
    expect(week!.not_counted).not.toContain('evaporation');
  });
});
