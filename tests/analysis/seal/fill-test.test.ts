import { describe, expect, it } from 'vitest';
import { isInside } from '../../../src/analysis/geometry/polygon.js';
import type { Vec2 } from '../../../src/analysis/geometry/vec.js';
import { createStages } from '../../../src/analysis/stages/stages.js';
import { waterBody } from '../../../src/analysis/seal/water-body.js';
import { reportJoints } from '../../../src/analysis/report/joining/joints.js';
import { pan } from '../../support/random/arbitrary-tub.js';
import { sealed, withoutSeam } from '../../support/tubs/sealed.js';
import { stripAndSides, zigzag } from '../../support/tubs/strip-and-sides.js';
import { withOutlet } from '../../support/tub-of.js';

const box = sealed(withOutlet(pan({ wide: 200, deep: 150, rim: 80 }).tub, 0, [100, 75, 0], 40));

describe('filling a level pan of 200 by 150 by 80 mm', () => {
  const plan = createStages(box).fillTest()!;

  it('plugs the outlet and fills to 3 mm below the brim', () => {
    expect(plan.plugs).toEqual([0]);
    expect(plan.holdsTo).toBe(80);
    expect(plan.holds).toBeCloseTo(200 * 150 * 80, 3);
    expect(plan.level).toBe(77);
    expect(plan.volume).toBeCloseTo(200 * 150 * 77, 3);
  });

  it('weighs what sheet and water weigh', () => {
    // Water at 998.2 kg/m3; the tub is five plates of 1.2 mm at 7930 kg/m3, less the outlet.
    const sheet = (200 * 150 + 2 * 200 * 80 + 2 * 150 * 80 - Math.PI * 20 ** 2) * 1.2 * 7930e-9;
    expect(plan.liquid).toBeCloseTo(200 * 150 * 77 * 998.2e-9, 6);
    expect(plan.full.mass).toBeCloseTo(plan.liquid + sheet, 3);
    expect(plan.full.centre![0]).toBeCloseTo(100, 6);
    expect(plan.full.centre![1]).toBeCloseTo(75, 6);
  });

  // By hand: 0.61 pi/4 0.1^2 sqrt(2 9806.65 7.7) = 1.862 mm3/s; a millilitre in 537 s: the least of 30 min holds.
  it('is watched for half an hour at least', () => {
    expect(plan.watch).toBe(1800);
  });

  it('names every seam under water with its depth', () => {
    expect(plan.seams).toHaveLength(box.seams.length);
    expect(plan.seams.every(({ lowest, head }) => lowest === 0 && head === 77)).toBe(true);
  });
});

it('a shallow dish is watched longer', () => {
  const dish = sealed(pan({ wide: 200, deep: 150, rim: 8 }).tub);
  // 5 mm deep: taken under 1 mm of head: 0.671 mm3/s, 1490 s, in whole 5 minutes 1500 s; half an hour is more.
  expect(createStages(dish).fillTest()!.watch).toBe(1800);
});

it('with a leak in the wall the tub holds to the leak', () => {
  const stages = createStages({
    ...box,
    openings: [
      ...box.openings,
      {
        name: 'slot',
        at: 9,
        panel: 1,
        use: 'slot',
        shape: { kind: 'slot', center: [100, 0, 50], along: 'level', length: 20, width: 6 },
        fastener: undefined,
      },
    ],
  });
  const plan = stages.fillTest()!;
  expect(plan.limitedBy?.kind).toBe('opening');
  expect(plan.holdsTo).toBeCloseTo(47, 9);
  expect(plan.holds).toBeCloseTo(200 * 150 * 47, 0);
  expect(reportJoints(stages).leak_level_mm).toBeCloseTo(47, 4);
});

it('open from the bottom it holds nothing', () => {
  const plan = createStages(withoutSeam(box, 0)).fillTest()!;
  expect(plan.holdsTo).toBe(0);
  expect(plan.holds).toBe(0);
});

describe('the water in a zigzag strip', () => {
  const stages = createStages(stripAndSides(zigzag, 300, { weld: 'tig' }));
  const surface = stages.water().surface();
  const pool = stages.water().basins()[0].pool;

  it.each([80, 115, 150, 200])('filled to %s mm has the volume and centre of its section', (level) => {
    const body = waterBody(surface, pool.points, level);
    // Section by slabs of a quarter millimetre, by a point-in-polygon test of the profile.
    const section: Vec2[] = zigzag.map(([y, z]): Vec2 => [y, z]);
    const step = 0.25;
    let [area, my, mz] = [0, 0, 0];
    for (let z = 52 + step / 2; z < level; z += step) {
      for (let y = step / 2; y < 360; y += step) {
        if (!isInside([y, z], section)) continue;
        area += step * step;
        my += y * step * step;
        mz += z * step * step;
      }
    }
    expect(Math.abs(body.volume / (area * 300) - 1)).toBeLessThan(0.003);
    expect(body.centre![0]).toBeCloseTo(150, 6);
    expect(Math.abs(body.centre![1] - my / area)).toBeLessThan(0.3);
    expect(Math.abs(body.centre![2] - mz / area)).toBeLessThan(0.3);
  });
});
