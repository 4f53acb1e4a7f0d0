/**
 * Laps of sheets that are nearly in one plane: set down by a step and turned along the other sheet. Oracles: the way of the skin
 * followed in small steps, and bodies of an independent kernel, which must touch over all of the leg and share nothing.
 */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { stepDown } from '../../../../src/analysis/join/tabs/step-down.js';
import { analyseText } from '../../../support/analyse-text.js';
import { casesOf } from '../../../support/cases.js';
import { solidKernel } from '../../../support/oracles/solid-kernel.js';

const DEGREE = Math.PI / 180;

const step = fc.record({
  degrees: fc.double({ min: -14.9, max: 14.9, noNaN: true }),
  own: fc.double({ min: 0.6, max: 3, noNaN: true }),
  other: fc.double({ min: 0.6, max: 3, noNaN: true }),
  ratio: fc.double({ min: 0.5, max: 2.5, noNaN: true }),
});

/** Where the skin that will lie on the other sheet comes to, and which way it then runs: straight, round, straight, round. */
const followed = (
  from: number,
  pieces: readonly { readonly length: number; readonly turn: number }[],
): { readonly x: number; readonly y: number; readonly heading: number } => {
  let [x, y, heading] = [from, 0, 0];
  for (const { length, turn } of pieces) {
    const count = 4000;
    for (let i = 0; i < count; i++) {
      const middle = heading + turn / count / 2;
      x += (length / count) * Math.cos(middle);
      y += (length / count) * Math.sin(middle);
      heading += turn / count;
    }
  }
  return { x, y, heading };
};

test('the step ends on the dry face of the other sheet, under its edge, and along it', () => {
  fc.assert(
    fc.property(step, ({ degrees, own, other, ratio }) => {
      const [rise, radius] = [degrees * DEGREE, ratio * own];
      const { angle, back, slope, length } = stepDown({ depth: other, rise, radius, thickness: own });
      expect(Math.min(angle, back, slope)).toBeGreaterThan(0);
      const end = followed(-length, [
        // Round its outside, away from the other sheet; round its inside, back to it.
        { length: (radius + own) * angle, turn: -angle },
        { length: slope, turn: 0 },
        { length: radius * back, turn: back },
      ]);
      // The dry edge of a square end: as deep as the other sheet is thick, square to it.
      expect(end.x).toBeCloseTo(other * Math.sin(rise), 5);
      expect(end.y).toBeCloseTo(-other * Math.cos(rise), 5);
      expect(end.heading).toBeCloseTo(rise, 9);
    }),
    { numRuns: 200, seed: 3 },
  );
});

const LAP = 18;
const WIDE = 120;

const textOf = ({ degrees, own, other, ratio }: { degrees: number; own: number; other: number; ratio: number }): string => {
  const [c, s] = [Math.cos(degrees * DEGREE), Math.sin(degrees * DEGREE)];
  return `units mm
sheet skin = stainless thickness ${own.toFixed(4)} radius ${(own * ratio).toFixed(4)}
sheet thick = stainless thickness ${other.toFixed(4)} radius ${other.toFixed(4)}
panel base of skin = (0, 0, 0) (${WIDE}, 0, 0) (${WIDE}, 150, 0) (0, 150, 0)
panel rise of thick = (0, 150, 0) (${WIDE}, 150, 0) (${WIDE}, ${(150 + 90 * c).toFixed(6)}, ${(90 * s).toFixed(6)}) (0, ${(150 + 90 * c).toFixed(6)}, ${(90 * s).toFixed(6)})
seam base rise { lap ${LAP} on rise sealant 3 }
`;
}; // prettier-ignore

test('of random sheets the leg lies flat on the other, and no metal in metal', async () => {
  const kernel = await solidKernel();
  for (const stated of fc.sample(step, { numRuns: casesOf(8, 1), seed: 9 })) {
    if (Math.abs(stated.degrees) < 1.1) continue;
    const { stages, findings } = analyseText(textOf(stated));
    expect(findings.filter(({ severity }) => severity === 'error')).toEqual([]);
    const [base, rise] = stages.folded().map((part) => kernel.solidOf(part!));
    expect(base.intersect(rise).volume()).toBeLessThan(1e-6 * rise.volume() + 1e-3);
    const MOVED = 0.02;
    const [c, s] = [Math.cos(stated.degrees * DEGREE), Math.sin(stated.degrees * DEGREE)];
    const pressed = base
      .translate([0, -s * MOVED, c * MOVED])
      .intersect(rise)
      .volume();
    const { row } = stages.joints().seams[0].runs[0];
    const leg = LAP * row!.usable * MOVED;
    expect(row!.usable).toBeGreaterThan(WIDE - 12);
    // Moved so little, the leg alone goes in: nothing else of the sheet was as near.
    expect(Math.abs(pressed - leg)).toBeLessThan(0.08 * leg);
  }
});

test('a lap between one plane and 15 deg has two pressed bends, the second by as much more as the sheets rise', () => {
  const { stages } = analyseText(textOf({ degrees: 8, own: 1.2, other: 1.2, ratio: 1 }));
  const bends = stages.flats()[0]!.bends.filter(({ pressed }) => pressed);
  expect(bends.map(({ direction }) => direction)).toEqual(['up', 'down']);
  expect(bends[1].angle - bends[0].angle).toBeCloseTo(8 * DEGREE, 5);
});

test('a trough in two lengths has a leg on every wall, clear of the bends between them', () => {
  const length = (name: string, from: number): string => `strip ${name} of skin from (${from}, 200, 80) heading front across right 400 {
    panel back to z 0 falling 90 deg
    panel bed to y 0 level
    panel front to z 80 rising 90 deg
}`; // prettier-ignore
  for (const [thickness, radius] of [
    [0.95, 1],
    [1.27, 1.6],
    [1.5, 3],
  ]) {
    // prettier-ignore
    const { stages, findings } = analyseText(
      `units mm\nsheet skin = stainless thickness ${thickness} radius ${radius}\n${length('upper', 0)}\n${length('lower', 400)}
seam lower.left upper.right { lap 25 rivets every 15 sealant 4 }\n`,
    );
    expect(
      findings.map(({ code }) => code).filter((code) => /^(join\/(tabs|row-without|no-room)|flat|shape)/.test(code)),
    ).toEqual([]);
    const legs = stages.flats().flatMap((flat) => flat!.bends.filter(({ pressed }) => pressed));
    const named = ['back', 'bed', 'front'].map((leg) => `lower.${leg} lap on upper.${leg}`);
    expect(legs.map(({ name }) => name).sort()).toEqual(named.flatMap((name) => [name, name])); // prettier-ignore
  }
});
