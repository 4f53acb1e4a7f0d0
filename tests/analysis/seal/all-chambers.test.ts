/** What the full tub holds and weighs counts every chamber, and a leak lowers the fill of no chamber but its own. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { reportFillTest } from '../../../src/analysis/report/fill-test.js';
import { reportTubMass } from '../../../src/analysis/report/mass.js';
import { reportWater } from '../../../src/analysis/report/water/water.js';
import { measureAspect } from '../../../src/analysis/aim/measure.js';
import { createStages, type Stages } from '../../../src/analysis/stages/stages.js';
import { analyseText } from '../../support/analyse-text.js';
import { BOX, boxVolume, FRONT_Y, outletAt, partedBox } from '../../support/tubs/parted-box.js';

const stagesOf = (text: string): Stages => createStages(analyseText(text).tub);

/** kg/m3, handbook value of water at 20 deg. */
const WATER = 998.2;

/** Filled this far below where it runs over. */
const BELOW = 3;

describe('a divider as high as the rim', () => {
  const stages = stagesOf(
    partedBox([{ name: 'd', at: 400, top: 260 }], outletAt('drain', 60, 40) + outletAt('other', 700, 40)),
  );
  // The section by hand, less the metal of the divider.
  const metal = BOX.wide * BOX.sheet * (260 - 26);
  const whole = boxVolume(FRONT_Y, BOX.backY, 260) - metal;

  test('the plugged tub holds both chambers, for the report and for a wish', () => {
    const { capacity_L, overflow } = reportWater(stages);
    expect(capacity_L! / (whole / 1e6)).toBeCloseTo(1, 4);
    expect(overflow?.volume_L).toBe(capacity_L);
    expect(measureAspect(stages, { kind: 'capacity' })! / whole).toBeCloseTo(1, 4);
  });

  test('all outlets are plugged, and the stand carries the water of both', () => {
    const row = reportFillTest(stages)!;
    const filled = whole - BOX.wide * (BOX.backY - FRONT_Y - BOX.sheet) * BELOW;
    expect(row.plug).toEqual(['drain', 'other']);
    expect(row.fill_L / (filled / 1e6)).toBeCloseTo(1, 4);
    const { full_kg, empty_kg } = reportTubMass(stages);
    expect((full_kg! - empty_kg) / (filled * WATER * 1e-9)).toBeCloseTo(1, 4);
    expect(row.waters.map(({ holds_to_mm }) => holds_to_mm)).toEqual([260, 260]);
  });

  test('the last line of what stands at which level is all that it holds', () => {
    const { level_volume, capacity_L } = reportWater(stages);
    expect(level_volume.at(-1)?.volume_L).toBeCloseTo(capacity_L!, 6);
  });
});

test('a rinse of two levels weighs what both basins hold', () => {
  const stages = stagesOf(readFileSync(join(import.meta.dirname, '../../../samples/two-level-rinse.tub'), 'utf8'));
  const { capacity_L, chambers } = reportWater(stages);
  expect(chambers).toHaveLength(2);
  expect(capacity_L).toBeCloseTo(chambers[0].volume_L + chambers[1].volume_L, 3);
  const fill = reportFillTest(stages)!;
  expect(fill.liquid_kg).toBeCloseTo(fill.chambers.reduce((sum, { fill_L }) => sum + fill_L, 0) * WATER * 1e-3, 2);
});

/** A hole for an M6 rivet nut that nothing seals, in the wall behind the divider: it leaks from its lowest place. */
const leakyAt = (z: number): Stages =>
  stagesOf(
    partedBox(
      [{ name: 'd', at: 400, top: 150 }],
      `${outletAt('drain', 60, 40)}hole nut in box.back at (200, 800, ${z}) rivetnut M6\n`,
    ),
  );

test('a leak lowers the fill of its own chamber and of no other', () => {
  const stages = leakyAt(110);
  const row = reportFillTest(stages)!;
  const leak = stages.watertight().lowest!.height;
  expect(leak).toBeGreaterThan(100);
  expect(leak).toBeLessThan(110);
  const [behind, before] = row.chambers;
  expect(behind.fill_to_mm).toBeCloseTo(leak - BELOW, 3);
  expect(before.fill_to_mm).toBe(150 - BELOW);
  // Together: before the divider up to where it would run on to the leak.
  expect(row.waters.map(({ holds_to_mm }) => holds_to_mm)).toEqual([150, expect.closeTo(leak, 3)]);
  expect(row.waters.map(({ chambers }) => chambers)).toEqual([['chamber 2'], ['chamber 1']]);
});

test('a leak above the divider lowers the one water over both', () => {
  const stages = leakyAt(210);
  const row = reportFillTest(stages)!;
  const leak = stages.watertight().lowest!.height;
  expect(row.waters).toEqual([]);
  expect(row.holds_to_mm).toBeCloseTo(leak, 3);
  expect(row.chambers.map(({ fill_to_mm }) => fill_to_mm)).toEqual([150 - BELOW, 150 - BELOW]);
});
