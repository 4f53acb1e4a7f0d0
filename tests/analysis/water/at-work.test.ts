/** Outlets, strainers, tanks, solids, dry zones and samples: what a text gives, worked by hand where it can be. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import type { Tub } from '../../../src/analysis/model/tub.js';
import { buildShape } from '../../../src/analysis/shape/build-shape.js';
import { fallsOn } from '../../../src/analysis/water/overflow.js';
import { strainerFilling } from '../../../src/analysis/water/outlet/strainer-filling.js';
import { tankBalance, tankLevel } from '../../../src/analysis/water/outlet/tank.js';
import { waterOf, type Water } from '../../../src/analysis/water/water.js';
import { depthInWater } from '../../../src/analysis/water/standing/zone-in-water.js';
import { analyseText, codesOf } from '../../support/analyse-text.js';
import { pan, stripBasin } from '../../support/random/arbitrary-tub.js';
import { tubOf, withOutlet } from '../../support/tub-of.js';

const waterIn = (tub: Tub): Water => waterOf(tub, buildShape(tub));

const inflow = (
  panel: number,
  litresPerMinute: number,
  solids?: Tub['inflows'][number]['solids'],
): Tub['inflows'][number] => ({
  name: 'tap',
  at: 3000,
  panel,
  point: undefined,
  rateMm3S: (litresPerMinute * 1e6) / 60,
  solids,
});

const cloth = {
  at: 1,
  meshPerInch: 20,
  wire: 0.4,
  aperture: undefined,
  size: [100, 60],
  blocked: 0.5,
  passage: undefined,
  bolted: undefined,
} as const;

/** Level pan 300 x 200, 80 deep, outlet of 40 in the middle. */
const basin = (strainer?: Tub['outlets'][number]['strainer']): Tub =>
  withOutlet(pan({ wide: 300, deep: 200, rim: 80 }).tub, 0, [150, 100, 0], 40, { strainer, lip: 15 });

describe('an outlet at work', () => {
  test('stands under the head of EN 12056-3 for its inflow', () => {
    const [state] = waterIn({ ...basin(), inflows: [inflow(0, 20)] }).outlets();
    // Q = D h^1.5 / 7500: h = (7500 x 0.3333 / 40)^(2/3) = 15.75 mm, below D / 2.
    expect(state.head).toBeCloseTo(((7500 * (20 / 60)) / 40) ** (2 / 3), 5);
    expect(state.waterLevel).toBe(state.head);
    expect(state.floodLevel).toBe(80);
    // At the rim the hole governs: D^2 sqrt 80 / 15000 L/s.
    expect((state.capacityMm3S ?? 0) / 1e6).toBeCloseTo((1600 * Math.sqrt(80)) / 15000, 6);
  });

  test('adds what the strainer loses, more with a thicker liquid and with more of it blocked', () => {
    const head = (blocked: number, viscosityCst: number): number => {
      const liquid = {
        name: 'l',
        at: 0,
        viscosityCst,
        densityKgM3: 1000,
        surfaceTensionMNM: undefined,
        contactAngleDeg: undefined,
      };
      return waterIn({ ...basin({ ...cloth, blocked }), liquid, inflows: [inflow(0, 20)] }).outlets()[0].head;
    };
    expect(head(0.5, 1)).toBeGreaterThan(waterIn({ ...basin(), inflows: [inflow(0, 20)] }).outlets()[0].head);
    expect(head(0.8, 1)).toBeGreaterThan(head(0.5, 1));
    expect(head(0.5, 40)).toBeGreaterThan(head(0.5, 1));
  });

  test('runs over just at the blocked share that it tells', () => {
    const at = (blocked: number): number =>
      waterIn({ ...basin({ ...cloth, blocked }), inflows: [inflow(0, 20)] }).outlets()[0].waterLevel;
    const { blockedAt = 0 } = waterIn({ ...basin(cloth), inflows: [inflow(0, 20)] }).outlets()[0];
    expect(blockedAt).toBeGreaterThan(0.5);
    expect(at(blockedAt - 1e-6)).toBeLessThanOrEqual(80);
    expect(at(blockedAt + 1e-6)).toBeGreaterThan(80);
  });

  test('takes at most what brings the water to the rim', () => {
    const tub = basin(cloth);
    const { capacityMm3S = 0 } = waterIn({ ...tub, inflows: [inflow(0, 20)] }).outlets()[0];
    const level = (factor: number): number =>
      waterIn({ ...tub, inflows: [{ ...inflow(0, 1), rateMm3S: capacityMm3S * factor }] }).outlets()[0].waterLevel;
    expect(level(1 - 1e-6)).toBeLessThanOrEqual(80 + 1e-3);
    expect(level(1.001)).toBeGreaterThan(80);
  });

  test('gets its water from the sides it says', () => {
    const valley = stripBasin(
      [
        [0, 50],
        [50, 0],
        [100, 50],
      ],
      80,
    ).tub;
    const [state] = waterIn({
      ...withOutlet(valley, 0, [40, 45, 5], 8),
      inflows: [inflow(0, 1), inflow(1, 1)],
    }).outlets();
    expect(state.from.front).toBeGreaterThan(0.04);
    expect(state.from.front + state.from.around).toBeCloseTo(1, 9);
  });
});

describe('liquid that is out of the tank', () => {
  test('is the film on a slope: Nusselt, added over the run of evenly spread water', () => {
    // 400 down a slope of 1 : 10 by 300 wide, 0.6 L/min over all of it: q grows evenly, so the mean film is 3/4 of the last.
    const slope = tubOf({
      panels: {
        slope: [
          [0, 0, 0],
          [300, 0, 0],
          [300, 400, 40],
          [0, 400, 40],
        ],
      },
    });
    const { panels } = waterIn({ ...slope, inflows: [inflow(0, 0.6)] }).films();
    const run = Math.hypot(400, 40);
    const last = Math.cbrt((3 * 1.004 * (1e4 / 300)) / (9806.65 * (40 / run)));
    expect(panels[0].depth).toBeCloseTo(last, 6);
    expect(panels[0].volume / (0.75 * last * 300 * run)).toBeCloseTo(1, 2);
  });

  test('is the same whichever way the panel is cut into triangles', () => {
    const slope = (corners: readonly (readonly [number, number, number])[]): number =>
      waterIn({ ...tubOf({ panels: { slope: corners } }), inflows: [inflow(0, 5)] }).holdUp().total;
    const corners = [
      [0, 0, 0],
      [300, 0, 0],
      [300, 400, 40],
      [0, 400, 40],
    ] as const;
    expect(slope([...corners.slice(1), corners[0]]) / slope(corners)).toBeCloseTo(1, 3);
  });

  test('is the box of water over a level outlet', () => {
    const water = waterIn({ ...basin(), inflows: [inflow(0, 20)] });
    expect(water.holdUp().overOutlets).toBeCloseTo(water.outlets()[0].head * 300 * 200, 3);
  });

  test('has to fit into the tank, and leaves the rest to the pump', () => {
    const tank = {
      name: 'catch',
      at: 0,
      capacityMm3: 50e6,
      workingMm3: 20e6,
      under: [0],
      box: { min: [0, 0, -300], max: [200, 500, -50] },
    } as const;
    const balance = tankBalance(
      tank,
      { drainBack: 3e6, pools: 1e6, films: 0, overOutlets: 0, overCrests: 0, total: 4e6 },
      0.5,
    );
    expect(balance).toEqual({ working: 20e6, drainBack: 1.5e6, pools: 0.5e6, needed: 21.5e6, leftWhileRunning: 18e6 });
    // 21.5 L over 200 x 500; what stands in pools stays there.
    expect(tankLevel(tank, balance.needed)).toBe(-300 + 215);
  });
});

describe('solids', () => {
  // A floor that falls 1 : 5 (11.3 deg: chips move from 8), its outlet at the low end; by the fall alone all water meets it.
  const ramp = (alongX: number): Tub => ({
    ...withOutlet(pan({ wide: 60, deep: 44, rim: 80, at: 20, alongX }).tub, 0, [24, 22, 20 + 24 * alongX], 40, {
      strainer: { ...cloth, blocked: 0 },
    }),
    inflows: [{ ...inflow(0, 20, { kind: 'chips', rateMm3S: 100 }), point: [55, 22, 20 + 55 * alongX] as const }],
  });

  test('shut a strainer in the time that their layer takes', () => {
    const [filling] = strainerFilling(ramp(0.2), waterIn(ramp(0.2)));
    // 10 mm over the share of 100 x 60 that may be blocked, at 100 mm3/s; cleaned at half of it.
    expect(filling.untilOverflow).toBeCloseTo((filling.blockedAt * 6000 * 10) / 100, 6);
    expect(filling.cleanEvery).toBe(filling.untilOverflow / 2);
  });

  test('that come to rest on a floor too flat for them do not reach the strainer', () => {
    // 1 : 10 is 5.7 deg.
    expect(strainerFilling(ramp(0.1), waterIn(ramp(0.1)))).toEqual([]);
  });
});

describe('dry zones', () => {
  test('are as deep in the water as the water over the sheet reaches above their bottom', () => {
    const water = waterIn(basin());
    const { pool } = water.basins()[0];
    expect(depthInWater(water.surface(), pool, { min: [10, 10, 50], max: [20, 20, 200] })).toBe(30);
    expect(depthInWater(water.surface(), pool, { min: [10, 10, -50], max: [20, 20, 60] })).toBe(60);
    expect(depthInWater(water.surface(), pool, { min: [10, 10, 80], max: [20, 20, 90] })).toBe(0);
    expect(depthInWater(water.surface(), pool, { min: [-60, 10, 0], max: [-50, 20, 90] })).toBe(0);
  });

  test('get what falls from an edge above them, and 10 mm beside it', () => {
    const edge = { start: [0, 0, 100], end: [0, 50, 100] } as const;
    const box = (
      x: number,
      z: number,
    ): { min: readonly [number, number, number]; max: readonly [number, number, number] } => ({
      min: [x, 20, z - 10],
      max: [x + 5, 30, z],
    });
    expect(fallsOn(edge, box(9, 0))).toBe(true);
    expect(fallsOn(edge, box(11, 0))).toBe(false);
    expect(fallsOn(edge, box(-16, 0))).toBe(false);
    expect(fallsOn(edge, box(0, 200))).toBe(false);
  });
});

describe('slopes within level', () => {
  test('are the least over the tilts: a plane leant by the angle it may stand off', () => {
    const tub = {
      ...pan({ wide: 100, deep: 60, rim: 40, alongX: 0.1, alongY: 0.05 }).tub,
      level: { at: 0, within: 0.02 },
    };
    const [floor] = waterIn(tub).panels();
    expect(floor.inclination).toBeCloseTo(Math.atan(Math.hypot(0.1, 0.05)), 12);
    expect(floor.worst).toBeCloseTo(floor.inclination - 0.02, 12);
  });

  test('a flat floor that drains as drawn pools when it stands off level', () => {
    const tub = withOutlet(pan({ wide: 200, deep: 60, rim: 40, alongX: 0.01 }).tub, 0, [10, 30, 0.1], 20);
    expect(waterIn(tub).tilted()).toEqual([]);
    const [deepest] = waterIn({ ...tub, level: { at: 0, within: 0.03 } }).tilted();
    // Falls the other way by 0.03 - 0.01; the rim of the outlet farthest from the wall is 20 in, the wall at 200.
    expect(deepest.depth).toBeCloseTo(Math.tan(0.03 - Math.atan(0.01)) * 180, 0);
  });
});

describe('samples', () => {
  const sample = (name: string): string =>
    readFileSync(join(import.meta.dirname, '../../../samples', `${name}.tub`), 'utf8');

  test('the starved basin shows why its outlet gets only what the slot leaves', () => {
    const codes = codesOf(analyseText(sample('brush-rinse-starved')));
    for (const code of [
      'drain/pool',
      'drain/too-flat',
      'drain/inflow-lost',
      'drain/path-left',
      'seal/opening-under-water',
    ]) {
      expect(codes).toContain(code);
    }
  });

  test('its repaired twin brings all the water to the outlet and draws no complaint of draining', () => {
    const analysis = analyseText(sample('brush-rinse-repaired'));
    expect(codesOf(analysis).filter((code) => code.startsWith('drain/') || code.startsWith('seal/'))).toEqual([]);
    const [{ ends }] = analysis.stages?.water().flows() ?? [];
    expect(ends.filter(({ kind }) => kind === 'outlet').reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 9);
  });
});
