import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { ROUND_OFF } from '../../../src/analysis/geometry/tolerance.js';
import { buildShape } from '../../../src/analysis/shape/build-shape.js';
import { routeFlow } from '../../../src/analysis/water/flow/route.js';
import { loadsOn } from '../../../src/analysis/water/load.js';
import { waterOf, type Water } from '../../../src/analysis/water/water.js';
import { arbitraryChambers, chambersOf, type ChambersCase } from '../../support/arbitrary-chambers.js';
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

  test('each chamber fills to the lowest thing around it, with the volume over its piece of the floor', () => {
    fc.assert(
      fc.property(arbitraryChambers, ({ tub, bays, isShort }) => {
        fc.pre(!isShort && tub.panels[0].corners.every(([, , z]) => z < 70));
        const chambers = waterOf(tub, buildShape(tub)).chambers();
        const byVolume = (list: readonly { readonly level: number; readonly volume: number }[]): readonly number[] =>
          list.flatMap(({ level, volume }) => [volume + level]).sort((p, q) => p - q);
        const [has, wanted] = [byVolume(chambers), byVolume(bays)];
        expect(has.length).toBe(wanted.length);
        has.forEach((value, i) => expect(Math.abs(value / wanted[i] - 1)).toBeLessThan(1e-8));
        // What runs over a divider runs into the chamber on the other side, and never into itself.
        chambers.forEach(({ spill, level }, i) => {
          expect(spill.into === undefined).toBe(level > 130 - ROUND_OFF);
          expect(spill.into).not.toBe(i);
        });
      }),
      { numRuns: casesOf(30), seed: 20261130 },
    );
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
  const draw = (top: number): ChambersCase =>
    chambersOf({ size: [0, 100], fall: [0, 0], across: [[120, top, true]], along: undefined, drain: [0.9, 0] });
  const box = (top: number): Water => {
    const { tub } = draw(top);
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

  test('has two chambers that run over into each other, and stands over the weir by the head of a thin crest', () => {
    const { tub } = draw(90);
    const inflows = [{ name: 'tap', at: 0, panel: 0, point: [20, 50, 40], rateMm3S: 1e5, solids: undefined }] as const;
    const water = waterOf({ ...tub, inflows }, buildShape(tub));
    const [behind, before] = water.chambers();
    expect([behind.spill.into, before.spill.into]).toEqual([1, 0]);
    expect(tub.panels[behind.spill.over!].name).toBe('across0');
    expect([behind.volume, before.volume]).toEqual([120 * 100 * 50, 40 * 100 * 50].map((v) => expect.closeTo(v, 6)));
    expect(behind.spill.width).toBeCloseTo(100, 6);
    // Q = 2/3 0.62 b sqrt(2 g) h^1.5, the thin straight crest of any textbook of hydraulics.
    const head = (1e5 / ((2 / 3) * 0.62 * 100 * Math.sqrt(2 * 9806.65))) ** (2 / 3);
    const [atWork] = water.chambersAtWork();
    expect(atWork.head).toBeCloseTo(head, 9);
    expect(atWork.level).toBeCloseTo(90 + head, 9);
    expect(atWork.volume).toBeCloseTo(120 * 100 * (50 + head), 4);
    expect(water.holdUp().overCrests).toBeCloseTo(120 * 100 * head, 4);
  });

  test('presses on the weir with half the depth over its wet face', () => {
    const water = box(90);
    const [{ points }] = water.chambers();
    const [{ face, force }] = loadsOn(water.surface(), [...points], 90, 1000);
    expect(face).toBe(5);
    // rho g b h2 / 2: 9806.65 N/m3 by 0.1 m by (0.05 m)2 / 2.
    expect(force).toBeCloseTo((9806.65 * 0.1 * 0.05 ** 2) / 2, 9);
  });

  test('as high as the rim it makes two basins of one', () => {
    const volumes = box(130)
      .basins()
      .map(({ volume }) => volume);
    expect(volumes[0]).toBeCloseTo(40 * 100 * 90, 6);
    expect(volumes[1]).toBeCloseTo(120 * 100 * 90, 6);
  });
});
