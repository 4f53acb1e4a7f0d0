/** Room between things: against an independent solid modeller, and against the same tub written with its bends off. */
import { describe, expect, test } from 'vitest';
import type { Vec3 } from '../../../src/analysis/geometry/vec.js';
import { analyseText } from '../../support/analyse-text.js';
import { casesOf } from '../../support/cases.js';
import { seededUniform } from '../../support/random/random.js';
import { solidKernel } from '../../support/oracles/solid-kernel.js';

const tray = (rising: number): string => `units mm
sheet skin = stainless thickness 1.25 radius 1.6
strip floor of skin from (0, 300, 12) heading front across right 300 {
    panel base 300 level
    panel front 100 rising ${rising} deg
}
`;

describe('room between two things', () => {
  test('is that of the solids of an independent modeller, and reaches from one to the other', async () => {
    const { solidOf } = await solidKernel();
    const uniform = seededUniform(47);
    for (let i = 0; i < casesOf(6); i++) {
      const at = [400 + 300 * uniform(), 500 * uniform(), 400 * (uniform() - 0.5)].map((x) => x.toFixed(2));
      const text = `${tray(60 + 60 * uniform())}support stand {
    sheet plate = steel thickness 3 radius 4
    strip leg of plate from (${at.join()}) heading right across back ${(20 + 80 * uniform()).toFixed(1)} {
        panel foot 40 level
        panel rise ${(30 + 90 * uniform()).toFixed(1)} rising ${(20 + 100 * uniform()).toFixed(1)} deg
        panel top 50 level
    }
}
clear stand tub at least 0
`;
      const { stages } = analyseText(text);
      const [{ nearest, worst }] = stages.clears();
      const [tub, stand] = stages.folded().map((part) => solidOf(part!));
      const gap = tub.minGap(stand, 1000);
      expect(Math.abs(nearest.gap - gap), text).toBeLessThan(0.06);
      expect(Math.hypot(...([0, 1, 2].map((k) => nearest.points[0][k] - nearest.points[1][k]) as unknown as Vec3))).toBeCloseTo(nearest.gap, 6); // prettier-ignore
      expect(worst.gap).toBeLessThan(nearest.gap);
      // Half a degree at two bends of either, over at most 300 mm, and their marks.
      expect(worst.gap).toBeGreaterThan(nearest.gap - 4 * 300 * (Math.PI / 360) - 3);
    }
  });

  test('at worst is what the same tub has with its bend and its mark off', () => {
    // A wall 40 mm in front, as high as the front.
    const wall = 'existing room {\n    panel wall of skin metal front = (0, -40, 0) (300, -40, 0) (300, -40, 112) (0, -40, 112)\n}\nclear room tub at least 1\n'; // prettier-ignore
    const outcome = (rising: number, marks: number): { nearest: number; worst: number } => {
      const shop = `shop "s" { bends within 0.5 deg marks within ${marks} }\n`;
      const { stages } = analyseText(tray(rising) + wall + shop);
      const [{ nearest, worst }] = stages.clears();
      return { nearest: nearest.gap, worst: worst.gap };
    };
    const exact = outcome(90, 0);
    // Leaning out by 0.5 deg more, the mark where it was.
    expect(exact.worst).toBeCloseTo(outcome(89.5, 0).nearest, 1);
    expect(exact.nearest - exact.worst).toBeGreaterThan(0.8);
    // One mark for the bend line, and one for where the thing is set down.
    expect(exact.worst - outcome(90, 0.3).worst).toBeCloseTo(0.6, 6);
  });

  test('at worst is never told more than what is left, where more places than a limit could be the worst', () => {
    const legs = Array.from(
      { length: 14 },
      (_, i) => `        panel l${i} 40 ${i % 2 ? 'falling 60 deg' : 'level'} radius 3`,
    );
    const zigzag = (name: string, z: number): string => `support ${name} {\n    strip s of skin from (0, 0, ${z}) heading right across back 200 {\n${legs.join('\n')}\n    }\n}\n`; // prettier-ignore
    const text = `units mm\nsheet skin = stainless thickness 1.25 radius 1.6\n${zigzag('a', 0)}${zigzag('b', -90)}`;
    const { stages } = analyseText(`${text}clear a b at least 5\n`, { rules: [] });
    const [{ nearest, worst }] = stages.clears();
    // Each of the two turns by a half degree at every bend, the last of which is some 400 mm off.
    expect(nearest.gap).toBeGreaterThan(20);
    expect(worst.gap).toBeLessThan(nearest.gap - 20);
  });

  test('is less than nothing where both take the same room', () => {
    const { stages, findings } = analyseText(`${tray(90)}existing post {
    sheet plate = steel thickness 10
    panel face of plate metal right = (100, 100, -50) (100, 200, -50) (100, 200, 50) (100, 100, 50)
}
clear post tub at least 5
`);
    expect(stages.clears()[0].nearest.gap).toBeLessThan(-1);
    const told = findings.find(({ code }) => code === 'shape/not-clear');
    expect(told).toMatchObject({ severity: 'error', about: ['post'] });
    expect(told?.message).toContain('take the same room');
  });

  test('counts clips, and knows no distance to what has no metal', () => {
    const clip = `${tray(90)}side left of skin closes floor.left up to 112
seam left floor { tabs loose 18 wide 14 deep every 60 weld tig }
existing post {
    sheet plate = steel thickness 10
    panel under of plate metal down = (-50, 0, -5) (350, 0, -5) (350, 300, -5) (-50, 300, -5)
}
existing nothing {
    point P = (0, 0, 0)
}
clear post tub at least 5
clear nothing tub at least 5
`;
    const outcomes = analyseText(clip).stages.clears();
    expect(outcomes).toHaveLength(1);
    // The floor's dry side is at 12 - 1.25, the clip below it.
    expect(outcomes[0].nearest.gap).toBeCloseTo(17 - 2 * 1.25, 6);
  });
});
