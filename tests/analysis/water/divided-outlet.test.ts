/** An outlet that a divider stands over: each chamber runs to the part of the hole that lies in it. */
import { describe, expect, test } from 'vitest';
import { drainDownOf } from '../../../src/analysis/water/drain-down.js';
import { analyseText } from '../../support/analyse-text.js';

const LITRE_PER_MIN = 1e6 / 60;

/** A box whose floor falls to the front, upright sheet of 1.5 mm across it at x, over the drain or beside it. */
const box = (divider: number | undefined, inflows: string): string => `units mm
tub "box"
sheet skin = stainless thickness 1.5 radius 2
strip box of skin from (0, 400, 200) heading front across right 300 {
    panel back  to z 20 falling 90 deg
    panel bed   to y 0 falling 2 deg
    panel front to z 200 rising 90 deg
}
side left  of skin closes box.left  up to 200
side right of skin closes box.right up to 200
seam left box { weld tig }
seam right box { weld tig }
outlet drain in box.bed at (150, 60, 20 - 340 * tan(2 deg)) diameter 40
${inflows}
${
  divider === undefined
    ? ''
    : `side mid of skin crosses box at ${divider} from left up to 120
seam mid box { weld tig }`
}
`;

const waterIn = (text: string) => {
  const { tub, stages } = analyseText(text, { rules: [] });
  return { tub, water: stages.water() };
};

describe('a divider across the middle of a drain', () => {
  // The sheet is 1.5 mm thick, to the right of where it is stated.
  const MIDDLE = 149.25;

  test('lets both chambers run to it, each as deep as all would stand without it', () => {
    const { water: whole } = waterIn(box(undefined, 'inflow 30 L/min on box.bed'));
    const { water } = waterIn(box(MIDDLE, 'inflow 30 L/min on box.bed'));
    const [left, right] = water.chambersAtWork();
    const [state] = water.outlets();
    expect(water.outlets()).toHaveLength(1);
    expect(state.rateMm3S / LITRE_PER_MIN).toBeCloseTo(30, 9);
    expect(left.rateMm3S + right.rateMm3S).toBeCloseTo(30 * LITRE_PER_MIN, 3);
    expect(left.rateMm3S).toBeCloseTo(15 * LITRE_PER_MIN, -3);
    for (const { level } of [left, right]) expect(level).toBeCloseTo(whole.outlets()[0].waterLevel, 1);
    expect(state.waterLevel).toBeCloseTo(Math.max(left.level!, right.level!), 9);
  });

  test('drains each in the time that both take without it', () => {
    const { tub, water: whole } = waterIn(box(undefined, ''));
    const { tub: parted, water } = waterIn(box(MIDDLE, ''));
    const [all] = whole.chambers();
    const halves = water.chambers();
    expect(halves).toHaveLength(2);
    // To the height of the divider it holds as much less as is over it: times by the law of the same hole and heads.
    const times = halves.map((chamber) => drainDownOf(parted, water, chamber)!);
    const below = drainDownOf(tub, whole, { ...all, level: 120 })!;
    for (const time of times) expect(Math.abs(time / below - 1)).toBeLessThan(0.01);
  });
});

test('a divider off the middle gives each chamber its part of the hole', () => {
  const { water } = waterIn(box(141, 'inflow 30 L/min on box.bed'));
  const [left, right] = water.chambersAtWork();
  // A circle of radius 20 cut at 9 and 7.5 mm from its middle: segments in closed form.
  const segment = (h: number): number => (Math.acos(h / 20) - (h / 20) * Math.sqrt(1 - (h / 20) ** 2)) / Math.PI;
  const share = segment(9) / (segment(9) + 1 - segment(7.5));
  expect(left.rateMm3S / LITRE_PER_MIN).toBeGreaterThan(30 * share);
  expect(left.level! - right.level!).toBeGreaterThan(1);
  const perArea = [left.rateMm3S / share, right.rateMm3S / (1 - share)];
  expect(perArea[0]).toBeGreaterThan(perArea[1]);
  expect(left.rateMm3S + right.rateMm3S).toBeCloseTo(30 * LITRE_PER_MIN, 3);
});
