import fc from 'fast-check';
import { expect, test } from 'vitest';
import { buildShape } from '../../../src/analysis/shape/build-shape.js';
import { waterOf } from '../../../src/analysis/water/water.js';
import { arbitraryDrainedTub, pan } from '../../support/random/arbitrary-tub.js';
import { rasterFlood } from './raster-flood.js';
import { casesOf } from '../../support/cases.js';

/**
 * A raster of 1 mm cells takes each height at the middle of its cell, so a pass or the rim of the outlet is found up to
 * about a cell's rise too high or too low (1.5 cells over the diagonal), and the volume is off by that over the area, plus
 * the half cells along the shore.
 */
const CELL = 1;

test('levels and volumes of the pools of random tubs agree with a flooded raster within its own error', () => {
  let pooled = 0;
  fc.assert(
    fc.property(arbitraryDrainedTub, ({ tub, rim }) => {
      const { pools } = waterOf(tub, buildShape(tub)).open();
      const raster = rasterFlood(tub, rim, CELL);
      const off = 1.5 * raster.steepest * CELL;
      const volume = pools.reduce((sum, pool) => sum + pool.volume, 0);
      const area = pools.reduce((sum, pool) => sum + pool.area, 0);
      pooled += pools.length;
      expect(Math.abs(volume - raster.volume)).toBeLessThanOrEqual(off * Math.max(area, raster.area) + 1);
      for (const { level, deepest, depth } of pools) {
        if (depth < 2 * off) continue;
        const near = raster.levelsNear(deepest[0], deepest[1]).map((found) => Math.abs(found - level));
        expect(Math.min(...near)).toBeLessThanOrEqual(off);
      }
    }),
    { numRuns: casesOf(60), seed: 20140117 },
  );
  expect(pooled).toBeGreaterThan(45);
});

test('the raster finds the volume of a tilted pan wedge itself, so it is fit to judge', () => {
  const { tub, rim } = pan({ wide: 100, deep: 60, rim: 20, at: 0, alongX: 0.1 });
  // Full to the rim: 20 mm deep at one side, 10 at the other: mean 15 over 6000 mm2.
  expect(rasterFlood(tub, rim, 1).volume).toBeCloseTo(15 * 6000, 0);
});
