/** Volumes and levels of simple hollows, worked by hand; all to 1e-9 of the value. */
import { describe, expect, test } from 'vitest';
import { buildShape } from '../../../src/analysis/shape/build-shape.js';
import { waterOf, type Water } from '../../../src/analysis/water/water.js';
import type { Tub } from '../../../src/analysis/model/tub.js';
import { funnel, OVER_A_SILL, pan, stripBasin } from '../../support/random/arbitrary-tub.js';
import { withOutlet } from '../../support/tub-of.js';

const waterIn = (tub: Tub): Water => waterOf(tub, buildShape(tub));

const expectNear = (value: number | undefined, wanted: number): void =>
  expect(Math.abs((value ?? NaN) - wanted)).toBeLessThanOrEqual(1e-9 * Math.abs(wanted));

describe('a tilted pan', () => {
  // Floor z = 0.1 x over 100 by 60; outlet of 8 mm at x = 50.
  const { tub } = pan({ wide: 100, deep: 60, rim: 40, alongX: 0.1 });
  const drained = withOutlet(tub, 0, [50, 30, 5], 8);
  const incline = Math.atan(0.1);
  const level = 5 - 4 * Math.sin(incline);

  test('holds a wedge up to the lowest point of the rim of its outlet', () => {
    const [pool] = waterIn(drained).pools();
    expectNear(pool.level, level);
    expectNear(pool.depth, level);
    expectNear(pool.area, (level / 0.1) * 60);
    expectNear(pool.volume, ((level / 0.1) * level * 60) / 2);
    expect(tub.panels[pool.face].name).toBe('floor');
  });

  test('plugged it holds a box with a slanting floor to the rim', () => {
    const [basin] = waterIn(drained).basins();
    // Mean depth 40 - 5 over 6000 mm2.
    expectNear(basin.level, 40);
    expectNear(basin.volume, 35 * 6000);
    expect(basin.outlets).toEqual([0]);
  });

  test('an outlet at the low side with its rim on the lowest line leaves no pool', () => {
    expect(waterIn(withOutlet(tub, 0, [4 * Math.cos(incline), 30, 0.4 * Math.cos(incline)], 8)).pools()).toEqual([]);
  });
});

describe('a funnel', () => {
  test('of unlike ends holds h/6 (A1 + 4 Am + A2)', () => {
    // Top 600 by 400, bottom 100 by 100, 150 deep: 150/6 (240000 + 4 x 87500 + 10000) = 15 L.
    const { tub } = funnel({ top: [600, 400], bottom: [100, 100], at: [250, 150], rim: 150 });
    expectNear(waterIn(tub).basins()[0].volume, 15e6);
  });

  test('that is a square frustum holds 56 cubed units, as in problem 14 of the Moscow Mathematical Papyrus', () => {
    // Sides 4 and 2, height 6; 1 unit = 10 mm.
    const { tub } = funnel({ top: [40, 40], bottom: [20, 20], at: [10, 10], rim: 60 });
    expectNear(waterIn(tub).basins()[0].volume, 56e3);
  });
});

describe('a V-trough', () => {
  // 100 wide, 50 deep, 80 long, both sides 1 : 1.
  const { tub } = stripBasin(
    [
      [0, 50],
      [50, 0],
      [100, 50],
    ],
    80,
  );

  test('holds its triangular section times its length', () => {
    expectNear(waterIn(tub).basins()[0].volume, 50 * 50 * 80);
  });

  test('has a level-volume curve of h squared times its length', () => {
    for (const { level, volume, area } of waterIn(tub).curve()) {
      if (level === 0) continue;
      expectNear(volume, level * level * 80);
      expectNear(area, 2 * level * 80);
    }
  });

  test('with a floor split in two at another level fills both hollows, each from its own bottom on', () => {
    // Two Vs side by side: 40 deep from the crest at 10, rim at 50.
    const { tub: double } = stripBasin(
      [
        [0, 50],
        [40, 0],
        [50, 10],
        [60, 5],
        [105, 50],
      ],
      80,
    );
    // Welded at the crest, so that it is as sharp as drawn.
    const water = waterIn({ ...double, bends: [] });
    const section = (40 * 50) / 2 + 50 * 10 - (10 * 10) / 2 + 50 * 10 - 10 * 7.5 + (45 * 45) / 2;
    expectNear(water.basins()[0].volume, section * 80);
    // Sides of 0.8 and 1 in 1 from the one bottom, of 2 and 1 in 1 from the other, 5 above it; 80 long.
    for (const { level, volume } of water.curve().filter((each) => each.level <= 10))
      expectNear(volume, 80 * (0.9 * level ** 2 + 1.5 * Math.max(0, level - 5) ** 2));
  });
});

describe('a bent crest', () => {
  test('lets the water by over the top of its round, not over the sharp corner', () => {
    // Up and down by 30 in 10: a turn of 2 atan 3, over an outer radius of 1.2 + 1.2. The corner stands r / cos(turn / 2) over
    // the middle of the round, its top r.
    const { tub: bent } = stripBasin(OVER_A_SILL, 80);
    const [first, second] = waterIn(bent).chambers();
    const top = 30 - 2.4 / Math.cos(Math.atan(3)) + 2.4;
    expect([first.level, second.level]).toEqual([expect.closeTo(top, 9), expect.closeTo(top, 9)]);
    expect([first.spill.into, second.spill.into]).toEqual([1, 0]);
    expect(first.spill.width).toBeCloseTo(80, 9);
    // A crest that leans to one side.
    const { tub: leaning } = stripBasin(
      [
        [0, 120],
        [10, 0],
        [90, 0],
        [90.0001, 40],
        [160, 20],
        [200, 120],
      ],
      80,
    );
    const turn = Math.PI / 2 + Math.atan(20 / 70);
    const lean = turn / 2 - Math.atan(20 / 70);
    expect(waterIn(leaning).chambers()[0].level).toBeCloseTo(40 - (2.4 / Math.cos(turn / 2)) * Math.cos(lean) + 2.4, 3);
  });
});

describe('a level floor', () => {
  const { tub } = pan({ wide: 100, deep: 60, rim: 40 });

  test('with a raised outlet holds water to the top of its edge', () => {
    const [pool] = waterIn(withOutlet(tub, 0, [50, 30, 0], 20, { raised: 3 })).pools();
    // The hole is a 32-gon: area 16 r^2 sin(2 pi / 32).
    const hole = 16 * 100 * Math.sin((2 * Math.PI) / 32);
    expectNear(pool.depth, 3);
    expectNear(pool.volume, (6000 - hole) * 3);
  });

  test('plugged holds the whole box, whatever polygon stands for the outlet', () => {
    expectNear(waterIn(withOutlet(tub, 0, [50, 30, 0], 20)).basins()[0].volume, 40 * 6000);
  });
});
