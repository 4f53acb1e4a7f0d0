import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { ROUND_OFF } from '../../../src/analysis/geometry/tolerance.js';
import { buildShape } from '../../../src/analysis/shape/build-shape.js';
import { routeFlow } from '../../../src/analysis/water/flow/route/route.js';
import type { Chamber } from '../../../src/analysis/water/chambers.js';
import { drainDownOf } from '../../../src/analysis/water/drain-down.js';
import { createStages } from '../../../src/analysis/stages/stages.js';
import { analyseText } from '../../support/analyse-text.js';
import { loadsOn } from '../../../src/analysis/water/load.js';
import { waterOf, type Water } from '../../../src/analysis/water/water.js';
import { arbitraryChambers, chambersOf, type ChambersCase } from '../../support/random/arbitrary-chambers.js';
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

/** mm3/s, which the outlet before the weir takes under less head than the weir is high: EN 12056-3, (15000 Q / D2)2 = 22 mm. */
const RATE = 2e4;

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
    const inflows = [{ name: 'tap', at: 0, panel: 0, point: [20, 50, 40], rateMm3S: RATE, solids: undefined }] as const;
    const water = waterOf({ ...tub, inflows }, buildShape(tub));
    const [behind, before] = water.chambers();
    expect([behind.spill.into, before.spill.into]).toEqual([1, 0]);
    expect(tub.panels[behind.spill.over!].name).toBe('across0');
    expect([behind.volume, before.volume]).toEqual([120 * 100 * 50, 40 * 100 * 50].map((v) => expect.closeTo(v, 6)));
    expect(behind.spill.width).toBeCloseTo(100, 6);
    // Q = 2/3 0.62 b sqrt(2 g) h^1.5, the thin straight crest of any textbook of hydraulics.
    const head = (RATE / ((2 / 3) * 0.62 * 100 * Math.sqrt(2 * 9806.65))) ** (2 / 3);
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

describe('drain-down', () => {
  test('of upright walls is that of the outlet, integrated by hand', () => {
    const { tub } = chambersOf({ size: [0, 100], fall: [0, 0], across: [], along: undefined, drain: [0, 0] });
    const water = waterOf(tub, buildShape(tub));
    const [chamber] = water.chambers();
    // 40 by 100 in plan, 90 deep, a level hole of 8 mm: EN 12056-3 as in outlet-head, Q = D2 h^0.5 / 15000 above h = D / 2 and
    // D h^1.5 / 7500 below (L/s), so dt = A dh / Q: 2 A (h1^0.5 - h2^0.5) and 2 A (h2^-0.5 - h1^-0.5) over the constants.
    const [area, hole, rim] = [4000, (64 * 1e6) / 15000, (8 * 1e6) / 7500];
    const time =
      ((2 * area) / hole) * (Math.sqrt(90) - Math.sqrt(4)) +
      ((2 * area) / rim) * (1 / Math.sqrt(water.film) - 1 / Math.sqrt(4));
    expect(drainDownOf(tub, water, chamber)! / time).toBeCloseTo(1, 3);
  });
});

const BOX = `units mm
sheet skin = stainless thickness 2 radius 1.6
strip box of skin from (0, 600, 300) heading front across right 400 {
    panel back  300 falling 90 deg
    panel bed   300 falling 0 deg
    panel low   300 falling 3 deg
    panel front to z 300 rising 90 deg
}
side lc of skin closes box.left up to 300
side rc of skin closes box.right up to 300
seam lc box { weld tig }
seam rc box { weld tig }
outlet drain in low at center(low) diameter 40
`;

describe('dividers as they are written', () => {
  const chambersIn = (text: string): readonly Chamber[] => {
    const { tub, findings } = analyseText(BOX + text);
    expect(findings.filter(({ code }) => code.startsWith('seal/') || code.startsWith('shape/'))).toEqual([]);
    return createStages(tub).water().chambers();
  };
  const weir = (text: string): string => `${text}\nseam weir box { weld tig }\nseam weir lc { weld tig }\n`;

  test('on a bend, three panels along one edge', () => {
    const text =
      'panel weir of skin = (0, 300, 0) (400, 300, 0) (400, 300, 200) (0, 300, 200)\nseam weir rc { weld tig }';
    expect(chambersIn(weir(text))[0].volume).toBeCloseTo(400 * 300 * 200, 1);
  });

  test('round a corner of their own', () => {
    const text = `panel weir of skin = (0, 350, 0) (300, 350, 0) (300, 350, 200) (0, 350, 200)
panel wing of skin = (300, 350, 0) (300, 600, 0) (300, 600, 200) (300, 350, 200)
bend weir wing
seam wing box { weld tig }`;
    expect(chambersIn(weir(text))[0].volume).toBeCloseTo(300 * 250 * 200, 1);
  });

  test('leaning: what stands behind is a wedge more', () => {
    const text =
      'panel weir of skin = (0, 350, 0) (400, 350, 0) (400, 450, 200) (0, 450, 200)\nseam weir rc { weld tig }';
    const [{ volume, level }] = chambersIn(weir(text));
    // Its metal, 2 mm square to it, lies towards the water: 2 / cos of the lean along the bed.
    const metal = 2 * Math.hypot(1, 0.5);
    expect(level).toBe(200);
    expect(volume).toBeCloseTo(400 * 200 * ((250 + 150) / 2 - metal), -3);
  });

  test('with a hole, through which the water runs on from its lowest place', () => {
    const text = `panel weir of skin stands on box.bed at 200 up to 200
seam weir rc { weld tig }
hole gap in weir at (200, 400, 60) diameter 30`;
    const [behind] = chambersIn(weir(text));
    expect(behind.level).toBeCloseTo(45, 6);
    expect(behind.volume).toBeCloseTo(400 * 200 * 45, 1);
    expect(behind.spill.into).toBe(1);
  });

  test('with an outlet that is shut in use: the water runs over, what stays is told with it open', () => {
    const text = `panel weir of skin stands on box.bed at 200 up to 200
seam weir rc { weld tig }
outlet empty in bed at (200, 500, 0) diameter 40 { shut in use }
inflow 12 L/min on bed at (100, 550, 0)`;
    const { tub } = analyseText(BOX + weir(text));
    const water = createStages(tub).water();
    expect(
      water.flows()[0].ends.map((end) => (end.kind === 'outlet' ? tub.outlets[end.outlet].name : end.kind)),
    ).toEqual(['drain']);
    expect(water.chambersAtWork()[0].level).toBeGreaterThan(200);
    expect(water.chambersAtWork()[0].atRest).toBeCloseTo(400 * 200 * 200, 1);
    // The bed is level, so that it stays wet, but nothing stands behind the weir once both are open.
    expect(water.pools().every(({ depth }) => depth < 10)).toBe(true);
    expect(drainDownOf(tub, water, water.chambers()[0])).toBeGreaterThan(10);
  });
});
