import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { ROUND_OFF } from '../../../src/analysis/geometry/tolerance.js';
import { buildShape } from '../../../src/analysis/shape/build-shape.js';
import { routeFlow } from '../../../src/analysis/water/flow/route.js';
import { waterOf } from '../../../src/analysis/water/water.js';
import { arbitraryChambers } from '../../support/arbitrary-chambers.js';
import { casesOf } from '../../support/cases.js';
import { rasterFlood } from './raster-flood.js';

/** As in the raster test of tubs without dividers: how far a cell's height may be off. */
const CELL = 1;

describe('dividers part the water', () => {
  test('levels and volumes of random chambers agree with a flooded raster within its own error', () => {
    let pooled = 0;
    fc.assert(
      fc.property(arbitraryChambers, ({ tub, rim, posts }) => {
        const { pools } = waterOf(tub, buildShape(tub)).open();
        const raster = rasterFlood(tub, rim, CELL, posts);
        const off = 1.5 * raster.steepest * CELL + ROUND_OFF;
        const volume = pools.reduce((sum, pool) => sum + pool.volume, 0);
        const area = pools.reduce((sum, pool) => sum + pool.area, 0);
        pooled += pools.filter(({ depth }) => depth > 10).length;
        expect(Math.abs(volume - raster.volume)).toBeLessThanOrEqual(off * Math.max(area, raster.area) + 1);
        for (const { level, deepest, depth } of pools) {
          if (depth < 2 * off) continue;
          const near = raster.levelsNear(deepest[0], deepest[1]).map((found) => Math.abs(found - level));
          expect(Math.min(...near)).toBeLessThanOrEqual(off);
        }
      }),
      { numRuns: casesOf(40), seed: 20261130 },
    );
    expect(pooled).toBeGreaterThan(20);
  });

  test('every drop of an inflow comes to an end', () => {
    fc.assert(
      fc.property(arbitraryChambers, fc.nat(), ({ tub }, pick) => {
        const { net } = waterOf(tub, buildShape(tub)).open();
        const { ends } = routeFlow(net, { kind: 'face', face: pick % tub.panels.length, rate: 1 });
        expect(ends.reduce((sum, { flux }) => sum + flux, 0)).toBeCloseTo(1, 9);
        expect(ends.filter(({ kind }) => kind === 'unresolved').reduce((sum, { flux }) => sum + flux, 0)).toBeLessThan(
          1e-9,
        );
      }),
      { numRuns: casesOf(40), seed: 20261130 },
    );
  });
});
