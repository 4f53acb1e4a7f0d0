import { describe, expect, test } from 'vitest';
import type { OutletIndex, Tub } from '../../../src/analysis/model/tub.js';
import { reportOf } from '../../../src/analysis/report/report.js';
import { createStages, type Stages } from '../../../src/analysis/stages/stages.js';
import { fillingSpeed, strainerFilling } from '../../../src/analysis/water/outlet/strainer-filling.js';
import { balanceWith } from '../../../src/analysis/water/outlet/tank-share.js';
import { analyseText } from '../../support/analyse-text.js';
import { casesOf } from '../../support/cases.js';

const stagesOf = (week: string, rate = '0.01'): Stages => {
  const { tub, findings } = analyseText(
    `units mm
sheet skin = stainless 18 ga  radius 1.2
strip floor of skin from (0, 400, 200) heading front across right 300 {
    panel back to z 100 falling 90 deg
    panel shelf 300 falling 10.5 deg
    panel front to z 200 rising 80 deg
}
side cheekL of skin closes floor.left  up to 200
side cheekR of skin closes floor.right up to 200
outlet drain in floor.shelf at (150, 400 - 265 * cos(10.5 deg), 100 - 265 * sin(10.5 deg)) diameter 40 { lip 15  strainer mesh 20 wire 0.4 size 100 by 50 }
outlet brim notch in floor.back from (100, 400, 160) to (200, 400, 200) { overflow }
tank catch 33 L working 24 L under drain from (0, 0, -300) to (300, 400, -20)
inflow 15 L/min on floor.shelf at (150, 400 - 60 * cos(10.5 deg), 100 - 60 * sin(10.5 deg)) carrying chips ${rate} L/h
week { ${week} }`,
    { rules: [] },
  );
  expect(findings).toEqual([]);
  return createStages(tub);
};

/** The same week in steps of its own to these hours, by the state of the outlets at each; without service. */
const stepped = (
  stages: Stages,
  hours: readonly number[],
): { readonly overflowsAt: number; readonly emptyAt: number } => {
  const { tub } = stages;
  const water = stages.water();
  const week = tub.week!;
  const [filling] = strainerFilling(tub, water);
  const usual = water.outlets()[0].rateMm3S;
  let [share, lost, overflowsAt, emptyAt, left] = [0, 0, Infinity, Infinity, NaN];
  hours.forEach((hour, i) => {
    const step = (hours[i + 1] ?? hour) - hour;
    const blocked = new Map<OutletIndex, number>([[0, share]]);
    const { outlets, holdUp } = water.workingWith(blocked);
    left = balanceWith(tub, water, tub.tanks[0], holdUp).leftWhileRunning - lost;
    if (outlets[1].rateMm3S > 0) overflowsAt = Math.min(overflowsAt, hour);
    if (left <= 0) emptyAt = Math.min(emptyAt, hour);
    const seconds = step * 3600;
    share = Math.min(1, share + fillingSpeed(filling) * seconds * (outlets[0].rateMm3S / usual));
    const nights = Math.floor((hour + step) / week.hoursPerDay) - Math.floor(hour / week.hoursPerDay);
    lost +=
      (outlets[1].rateMm3S + (week.splashMm3S ?? 0)) * seconds +
      (week.evaporatesMm3S ?? 0) * (seconds + nights * (24 - week.hoursPerDay) * 3600);
  });
  return { overflowsAt, emptyAt };
};

describe('a week of work', () => {
  test('goes as in small steps of its own: when the overflow starts, when the tank is empty', () => {
    const stages = stagesOf('run 5 hours for 5 days  splash 0.3 L/h  evaporates 0.02 L/h');
    const course = stages.week();
    // Until the overflow starts all water takes one way, which steps of any length follow; from then on the strainer is full in half an
    // hour, so that steps of half a minute are off by one of them and as much of the mean rate. Its own error is half its step.
    const count = casesOf(100);
    const step = 0.8 / count;
    const hours = [0, 1, 2, 3, 4, ...Array.from({ length: count }, (_, i) => 4.2 + i * step)];
    const own = stepped(stages, hours);
    expect(own.overflowsAt).toBeGreaterThan(4.3);
    expect(Math.abs((course?.events.overflows?.hour ?? NaN) - own.overflowsAt)).toBeLessThan(2 * step);
    expect(Math.abs((course?.events.empties?.hour ?? NaN) - own.emptyAt)).toBeLessThan(2 * step);
    expect(course?.events.overRim).toBeUndefined();
  });

  test('what is lost without a strainer that fills is the rates times the hours, nights for evaporation as well', () => {
    const stages = stagesOf('run 6 hours for 3 days  splash 0.3 L/h  evaporates 0.1 L/h', '0.0001');
    const hours = stages.week()?.hours ?? [];
    const [first, last] = [hours[0].tanks[0].volume, hours[hours.length - 1].tanks[0].volume];
    expect((first - last) / 1e6).toBeCloseTo(0.3 * 18 + 0.1 * 3 * 24, 2);
  });

  test('cleaning begins again from a clean strainer, topping up from a full tank', () => {
    const stages = stagesOf('run 2 hours for 4 days  cleaned every 2 days  topped up every 1 day  splash 0.5 L/h');
    const hours = stages.week()?.hours ?? [];
    const share = (hour: number): number => hours.filter((each) => each.hour <= hour).at(-1)?.outlets[0].blocked ?? NaN;
    expect(share(4)).toBe(0);
    expect(share(3.9)).toBeGreaterThan(share(2));
    expect(hours.filter((each) => each.hour < 4 + 1e-9).at(-1)?.tanks[0].volume).toBeCloseTo(
      hours[0].tanks[0].volume,
      0,
    );
  });

  test('a margin says how often to clean; what has no rate is named', () => {
    const { week } = reportOf(stagesOf('run 5 hours for 5 days  margin 100'));
    expect(week?.margin_used_h).toBeGreaterThan(0);
    expect(week?.margin_used_h).toBeLessThan(week?.overflow_wets_h ?? 0);
    expect(week?.not_counted).toEqual(['what clings to solids that are taken out', 'splash', 'evaporation']);
    expect(week?.lines.map(({ name }) => name)).toEqual(['drain', 'drain, strainer', 'brim', 'catch']);
  });

  test('no week, no lines', () => {
    const { tub } = stagesOf('run 1 hours for 1 day');
    const without: Tub = { ...tub, week: undefined };
    expect(createStages(without).week()).toBeUndefined();
    expect(reportOf(createStages(without)).week).toBeNull();
  });
});
