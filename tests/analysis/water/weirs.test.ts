import { describe, expect, test } from 'vitest';
import { flattenContour } from '../../../src/analysis/geometry/contour.js';
import { signedArea } from '../../../src/analysis/geometry/polygon.js';
import { crestFlow } from '../../../src/analysis/water/outlet/weir.js';
import { outletCapacity } from '../../../src/analysis/water/outlet/outlet-head.js';
import { createStages, type Stages } from '../../../src/analysis/stages/stages.js';
import { analyseText } from '../../support/analyse-text.js';

/** 300 by 200, walls 120 high, with two outlets cut into its back and left walls and a round one in its floor. */
const tub = (outlets: string): Stages => {
  const { tub: model, findings } = analyseText(
    `units mm
sheet skin = stainless thickness 1.2 radius 1.2
panel floor of skin = (0, 0, 0) (300, 0, 0) (300, 200, 0) (0, 200, 0)
panel front of skin = (0, 0, 0) (300, 0, 0) (300, 0, 120) (0, 0, 120)
panel back  of skin = (0, 200, 0) (300, 200, 0) (300, 200, 120) (0, 200, 120)
panel left  of skin = (0, 0, 0) (0, 200, 0) (0, 200, 120) (0, 0, 120)
panel right of skin = (300, 0, 0) (300, 200, 0) (300, 200, 120) (300, 0, 120)
seam floor front { weld tig }  seam floor back { weld tig }  seam floor left { weld tig }  seam floor right { weld tig }
seam front left { weld tig }  seam front right { weld tig }  seam back left { weld tig }  seam back right { weld tig }
inflow 60 L/min on floor at (150, 100, 0)
${outlets}`,
    { rules: [] },
  );
  expect(findings).toEqual([]);
  return createStages(model);
};

describe('notches and vees', () => {
  test('the pool behind a notch stands at its sill exactly, and holds the box below it', () => {
    const [pool] = tub('outlet gauge notch in back from (100, 200, 83) to (140, 200, 83)').water().standing();
    expect(pool.level).toBeCloseTo(83, 6);
    expect(pool.volume).toBeCloseTo(300 * 200 * 83, -1);
  });

  test('a notch, a vee and a hole in the floor stand under one level and take all that comes, each by its own head', () => {
    const water = tub(`outlet drain in floor at (150, 150, 0) diameter 16
outlet gauge notch in back from (100, 200, 60) to (140, 200, 120)
outlet tip vee in left at (0, 100, 70) 60 deg deep 50`).water();
    const states = water.outlets();
    expect(states.reduce((sum, { rateMm3S }) => sum + rateMm3S, 0)).toBeCloseTo(1e6, 1);
    const [level, ...others] = states.map(({ waterLevel }) => waterLevel);
    for (const other of others) expect(other).toBeCloseTo(level, 6);
    expect(level).toBeGreaterThan(70);
    expect(states[0].rateMm3S).toBeCloseTo(outletCapacity({ diameter: 16, steepness: 0 }, level), 0);
    expect(states[1].rateMm3S).toBeCloseTo(crestFlow(40, level - 60), 0);
    // Summed over strips of the vee, each a hole under its own head, as the law is derived.
    const strips = Array.from({ length: 4000 }, (_, i) => {
      const under = ((i + 0.5) / 4000) * (level - 70);
      const width = 2 * Math.tan(Math.PI / 6) * (level - 70 - under);
      return (0.58 * width * Math.sqrt(2 * 9806.65 * under) * (level - 70)) / 4000;
    });
    expect(states[2].rateMm3S / strips.reduce((sum, strip) => sum + strip, 0)).toBeCloseTo(1, 4);
    const ends = water.flows()[0].ends.reduce((sum, { share }) => sum + share, 0);
    expect(Math.abs(ends - 1)).toBeLessThan(1e-9);
  });

  test('what a notch takes of the sheet is gone from the flat, and no hole is left', () => {
    const [plain, cut] = ['', 'outlet gauge notch in back from (100, 200, 83) to (140, 200, 120)'].map((outlet) =>
      tub(outlet)
        .flats()
        .find((flat) => flat?.name === 'back'),
    );
    const areaOf = (flat: typeof cut): number => (flat ? signedArea(flattenContour(flat.outline, 0.01)) : NaN);
    expect(areaOf(plain) - areaOf(cut)).toBeCloseTo(40 * 37, 3);
    expect(cut?.holes).toEqual([]);
  });

  test('the test fills to below the lowest sill, and asks for no plug in it', () => {
    const test = tub(`outlet drain in floor at (150, 150, 0) diameter 16
outlet gauge notch in back from (100, 200, 60) to (140, 200, 120)`).fillTest();
    expect(test?.plugs).toEqual([0]);
    expect(test?.holdsTo).toBeCloseTo(60, 6);
    expect(test?.level).toBeCloseTo(57, 6);
  });

  test('with the drain shut an overflow takes all that comes, at the head of its own law', () => {
    const water = tub(`outlet drain in floor at (150, 150, 0) diameter 60
outlet gauge notch in back from (100, 200, 60) to (200, 200, 120) { overflow }`).water();
    expect(water.outlets()[1].rateMm3S).toBe(0);
    const blocked = water.whenBlocked()?.outlets[1];
    expect(blocked?.rateMm3S).toBeCloseTo(1e6, 1);
    expect(crestFlow(100, blocked?.head ?? NaN)).toBeCloseTo(1e6, 0);
    expect(blocked?.waterLevel).toBeCloseTo(60 + (blocked?.head ?? NaN), 6);
  });
});

test('over the upper edge of a wall water stands behind and leaves level: 1.705 b h^1.5, not a film that runs down', () => {
  const { tub: model } = analyseText(
    `units mm
sheet skin = stainless 18 ga  radius 1.2
strip floor of skin from (0, 400, 200) heading front across right 300 {
    panel back to z 100 falling 90 deg
    panel shelf 300 falling 3 deg
    panel front to z 150 rising 60 deg
}
side cheekL of skin closes floor.left  up to 200
side cheekR of skin closes floor.right up to 200
outlet m spout over floor.end
inflow 15 L/min on floor.shelf`,
    { rules: [] },
  );
  const [state] = createStages(model).water().outlets();
  expect(state.jet?.isCrest).toBe(true);
  expect(state.jet?.down).toBe(0);
  expect(state.jet?.width).toBeCloseTo(300, 6);
  expect(state.head).toBeCloseTo(1000 * (0.25 / 300 / 1.705) ** (2 / 3), 1);
});
