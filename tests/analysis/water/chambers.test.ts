import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { ROUND_OFF } from '../../../src/analysis/geometry/tolerance.js';
import { buildShape } from '../../../src/analysis/shape/build-shape.js';
import { routeFlow } from '../../../src/analysis/water/flow/route.js';
import { waterOf, type Water } from '../../../src/analysis/water/water.js';
import { arbitraryChambers, chambersOf } from '../../support/arbitrary-chambers.js';
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
      { numRuns: casesOf(20), seed: 20261130 },
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
      { numRuns: casesOf(20), seed: 20261130 },
    );
  });
});

describe('a box with a weir, worked by hand', () => {
  /** 163 by 100 in plan, floor at 40, walls to 130; a weir of 3 mm parts off 120 by 100. The outlet is in the rest. */
  const box = (top: number): Water => {
    const { tub } = chambersOf({
      size: [0, 100],
      fall: [0, 0],
      across: [[120, top, true]],
      along: undefined,
      drain: [0.9, 0],
    });
    return waterOf(tub, buildShape(tub));
  };

  test('holds what stands behind it with the outlet open, and runs off over its edge to the outlet', () => {
    const water = box(90);
    const [pool] = water.open().pools;
    // 120 by 100 from the floor at 40 to the edge at 90.
    expect(pool.volume).toBeCloseTo(120 * 100 * 50, 6);
    expect(pool.level).toBe(90);
    const { ends } = routeFlow(water.open().net, { kind: 'face', face: 0, rate: 1 });
    expect(ends.map(({ kind }) => kind)).toEqual(['opening']);
  });

  test('takes its own metal from what the tub holds to the rim', () => {
    // 163 by 100 by 90 above the floor, less 3 by 100 by 50 of the weir.
    expect(box(90).basins()[0].volume).toBeCloseTo(163 * 100 * 90 - 3 * 100 * 50, 6);
  });

  test('as high as the rim it makes two basins of one', () => {
    const volumes = box(130)
      .basins()
      .map(({ volume }) => volume);
    expect(volumes[0]).toBeCloseTo(40 * 100 * 90, 6);
    expect(volumes[1]).toBeCloseTo(120 * 100 * 90, 6);
  });
});
