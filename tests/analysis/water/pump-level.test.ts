import { expect, test } from 'vitest';
import { createStages } from '../../../src/analysis/stages/stages.js';
import { askedHead, curveHead } from '../../../src/analysis/water/pump/operating-point.js';
import { pumpStates } from '../../../src/analysis/water/pump/pumps.js';
import { analyseText } from '../../support/analyse-text.js';

const stagesOf = (raised: number) => {
  const { tub, findings } = analyseText(
    `units mm
sheet skin = stainless 18 ga  radius 1.2
strip floor of skin from (0, 400, 300) heading front across right 300 {
    panel back to z 180 falling 90 deg
    panel shelf 300 falling 3 deg
    panel front to z 300 rising 80 deg
}
side cheekL of skin closes floor.left  up to 300
side cheekR of skin closes floor.right up to 300
outlet drain in floor.shelf at (150, 400 - 150 * cos(3 deg), 180 - 150 * sin(3 deg)) diameter 40 { lip 15  raised ${raised} }
tank catch 16 L working 14 L under drain from (0, 100, -300) to (200, 300, 100)
inflow spray pumped from catch at (100, 200, -290) on floor.shelf at (150, 380, 180 - 20 * tan(3 deg)) falls 100 {
    curve 0 L/min at 3.2 m  10 L/min at 2.6 m  20 L/min at 1.4 m  26 L/min at 0 m
    hose bore 19 long 1.8 m bends 3
    covered 25
}`,
    { rules: [] },
  );
  expect(findings).toEqual([]);
  return createStages(tub);
};

test.each([0, 20, 60])('flow and level of the tank agree, the outlet raised by %d mm', (raised) => {
  const stages = stagesOf(raised);
  const { tub } = stages;
  const water = stages.water();
  const [{ rateMm3S }] = water.flows();
  const [{ pump }] = tub.inflows;
  const { drainBack, pools } = water.holdUp();
  // What was filled in, less what is out in the tub and in the hose; 200 by 200 mm of tank.
  const hose = (Math.PI / 4) * 19 ** 2 * 1800;
  const level = -300 + (14e6 - drainBack - pools - hose) / 200 ** 2;
  const lift = 180 - 20 * Math.tan(Math.PI / 60) + 100 - level;
  const over =
    curveHead(pump!.curve, rateMm3S) - askedHead(pump!, rateMm3S, { lift, viscosityCst: water.liquid.viscosityCst });
  expect(Math.abs(over)).toBeLessThan(1e-5);
  const [state] = pumpStates(tub, water);
  expect(state.lowest).toBeCloseTo(level, 6);
  expect(state.usual.rateMm3S / rateMm3S).toBeCloseTo(1, 8);
  expect(water.outlets()[0].rateMm3S / rateMm3S).toBeCloseTo(1, 8);
});
