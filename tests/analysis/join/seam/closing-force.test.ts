/** The force that pulls a seam shut, against handbook formulas for strips and frames. */
import { describe, expect, test } from 'vitest';
import { complianceOf, type FlexingPanel } from '../../../../src/analysis/join/seam/flexing-panel.js';
import type { RunJoint } from '../../../../src/analysis/join/seam-joint.js';
import { createStages } from '../../../../src/analysis/stages/stages.js';
import type { Tub } from '../../../../src/analysis/model/tub.js';
import { analyseText } from '../../../support/analyse-text.js';
import { stripAndSides, zigzag } from '../../../support/tubs/strip-and-sides.js';

const runsOf = (tub: Tub): readonly RunJoint[] => createStages(tub).joints().seams[0].runs;
const runAt = (tub: Tub, name: string): RunJoint =>
  runsOf(tub).find(({ run }) => run.sides.some(({ face }) => tub.panels[face].name === name))!;

const leg = (root: FlexingPanel['root'], inward: FlexingPanel['inward'], free: number): FlexingPanel => ({
  face: 0,
  root,
  along: [1, 0, 0],
  inward,
  free,
  rigidity: 1000,
});

describe('how far a bent frame gives, E I 1000 N mm2', () => {
  test('one leg of 60 mm pulled square to itself: L^3 / (3 E I) (any handbook of strength of materials)', () => {
    expect(complianceOf(leg([0, 0, 0], [0, 0, 1], 60), [25, 0, 60], [0, 1, 0])).toBeCloseTo(60 ** 3 / 3000, 9);
  });

  test('the same leg pulled along itself does not bend', () => {
    expect(complianceOf(leg([0, 0, 0], [0, 0, 1], 60), [25, 0, 60], [0, 0, 1])).toBe(0);
  });

  test('a post of 40 with an arm of 70 square to it, loaded at its end along the post: b^3 / 3 + a b^2 (derived by hand)', () => {
    const [post, arm] = [leg([0, 0, 0], [0, 0, 1], 40), leg([0, 0, 40], [0, 1, 0], 70)];
    const gives = [post, arm].reduce((sum, each) => sum + complianceOf(each, [0, 70, 40], [0, 0, 1]), 0);
    expect(gives).toBeCloseTo((70 ** 3 / 3 + 40 * 70 ** 2) / 1000, 9);
  });

  test('the same loaded along the arm: a^3 / 3 of the post alone', () => {
    const [post, arm] = [leg([0, 0, 0], [0, 0, 1], 40), leg([0, 0, 40], [0, 1, 0], 70)];
    const gives = [post, arm].reduce((sum, each) => sum + complianceOf(each, [0, 70, 40], [0, 1, 0]), 0);
    expect(gives).toBeCloseTo(40 ** 3 / 3 / 1000, 9);
  });
});

describe('a strip between two flat cheeks', () => {
  const U = [
    [0, 100],
    [0, 0],
    [150, 0],
    [150, 100],
  ] as const;

  test('its wall of 100 mm, set together at the base, is a strip of what one pull at its corner reaches', () => {
    const tub = stripAndSides(U, 300);
    const { material, thickness } = tub.sheets[0];
    expect(material).toBe('stainless');
    const { closing } = runAt(tub, 'leg1').gap;
    // 88.1 mm of the 300: 100 / (3 0.416 (1 - 0.3^2)); E 193 GPa.
    const perMm = (3 * 193_000 * 88.057 * thickness ** 3) / 12 / 100 ** 3;
    expect(closing.force! / closing.open).toBeCloseTo(perMm, 3);
    expect(closing.bent?.free).toBeCloseTo(100, 6);
  });

  test('a narrow strip gives as a whole', () => {
    const tub = stripAndSides(U, 50);
    const { closing } = runAt(tub, 'leg3').gap;
    const perMm = (3 * 193_000 * 50 * tub.sheets[0].thickness ** 3) / 12 / 100 ** 3;
    expect(closing.force! / closing.open).toBeCloseTo(perMm, 3);
  });

  test('clamped leg by leg, no leg has more left to close than it stands open, and the first has nothing', () => {
    const runs = runsOf(stripAndSides(zigzag, 300));
    expect(runs.length).toBe(5);
    for (const { gap } of runs) {
      expect(gap.closing.open).toBeLessThanOrEqual(gap.stack.rss + 1e-9);
      expect(gap.closing.force).toBeGreaterThanOrEqual(0);
    }
    expect(Math.min(...runs.map(({ gap }) => gap.closing.open))).toBe(0);
    expect(Math.max(...runs.map(({ gap }) => gap.stack.rss - gap.closing.open))).toBeGreaterThan(0.1);
  });

  test('what is pulled is what the weld does not bridge, and no pull is needed for less', () => {
    for (const gapAtMost of [0, 0.3, 0.6, 5]) {
      for (const { gap } of runsOf(stripAndSides(U, 300, { weld: 'mig', gapAtMost }))) {
        expect(gap.pull).toBeCloseTo(Math.max(0, gap.closing.open - Math.min(gapAtMost, 1.5)), 1);
        expect(gap.pullForce).toBeCloseTo(gap.pull > 0 ? (gap.closing.force! * gap.pull) / gap.closing.open : 0, 9);
      }
    }
  });
});

test('a wall with a flange up its far end takes far more than a flat one', () => {
  const box = (more: string): string => `units mm
sheet s = stainless thickness 1 radius 1
point A = (0, 0, 0) point B = (200, 0, 0) point C = (200, 150, 0) point D = (0, 150, 0)
panel floor of s = A B C D
flange front on floor[A B] turned up 90 deg by 100
flange right on floor[B C] turned up 90 deg by 100
${more}
seam front right { weld tig }
`;
  const forceOf = (text: string): number => {
    const { stages } = analyseText(text);
    return stages.joints().seams[0].runs[0].gap.closing.force!;
  };
  const flat = forceOf(box(''));
  expect(flat).toBeGreaterThan(1);
  expect(flat).toBeLessThan(20);
  expect(forceOf(box('flange ear on front.left turned out 90 deg by 20'))).toBeGreaterThan(20 * flat);
});
