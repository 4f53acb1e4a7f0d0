import fc from 'fast-check';
import { beforeAll, describe, expect, test } from 'vitest';
import { writeStep } from '../../../../src/analysis/export/solid/step.js';
import type { FoldedPart } from '../../../../src/analysis/fold/flat-pattern.js';
import { SAME_POINT } from '../../../../src/analysis/geometry/tolerance.js';
import { arbitraryStrip, tubFromStrip } from '../../../support/random/arbitrary-strip.js';
import { geometryOf } from '../../../support/oracles/geometry-of.js';
import {
  askewTray,
  closedHem,
  foldByHand,
  polygon,
  roundHole,
  skinByFormula,
  volumeByFormula,
} from './fold-by-hand.js';
import { measure, readSolids } from './kernel.js';
import { casesOf } from '../../../support/cases.js';

const washer: FoldedPart = {
  ...foldByHand({
    thickness: 2,
    panels: [{ contour: polygon([0, 0], [100, 0], [100, 50], [0, 50]), holes: [roundHole([30, 20], 10)] }],
    bends: [],
  }),
  name: 'blank',
};
const tray: FoldedPart = { ...foldByHand(askewTray), name: "tray 'Ä'" };

describe('solid file read back by an independent kernel', () => {
  let file: Awaited<ReturnType<typeof readSolids>>;
  beforeAll(async () => {
    file = await readSolids(writeStep('basin', [tray, washer]), 1e-4);
  });

  test('volume and skin of every part agree with the formulas to a millionth', () => {
    expect(file.success).toBe(true);
    const read = file.meshes.map(measure);
    [tray, washer].forEach((part, i) => {
      expect(Math.abs(read[i].volume / volumeByFormula(part) - 1)).toBeLessThan(1e-6);
      expect(Math.abs(read[i].skin / skinByFormula(part) - 1)).toBeLessThan(1e-6);
    });
  });

  test('strips between leaning sides, their bend zones ending in arcs, are closed solids of their volume', async () => {
    const parts = fc.sample(arbitraryStrip({ lean: 0.5 }), { seed: 8, numRuns: casesOf(3, 0.1) }).flatMap((recipe) => {
      const [strip] = geometryOf(tubFromStrip(recipe)).folded;
      // A zone so narrow that its borders are one line is none.
      return strip?.rolls.every(({ near }) => near[near.length - 1].x > SAME_POINT)
        ? [{ ...strip, name: `strip ${recipe.legs.length}` }]
        : [];
    });
    const ends = parts.flatMap(({ rolls }) => rolls.flatMap(({ near, far }) => [near, far]));
    expect(ends.filter(([{ bulge }]) => bulge !== 0).length).toBeGreaterThan(2);
    const { meshes } = await readSolids(writeStep('basin', parts), 1e-4);
    const read = meshes.map(measure);
    parts.forEach((part, i) => {
      expect(read[i].openEdges).toBe(0);
      expect(Math.abs(read[i].volume / volumeByFormula(part) - 1)).toBeLessThan(1e-6);
    });
  });

  test('a hem without inner radius is one closed solid of its volume', async () => {
    const hem = foldByHand(closedHem);
    const { meshes } = await readSolids(writeStep('basin', [hem]), 1e-4);
    const read = measure(meshes[0]);
    expect(read.openEdges).toBe(0);
    expect(Math.abs(read.volume / volumeByFormula(hem) - 1)).toBeLessThan(1e-5);
  });

  test('every solid is closed: no edge of its triangles lacks a partner, and no face was dropped', () => {
    expect(file.meshes.map(measure).map(({ openEdges, faces }) => [openEdges, faces])).toEqual([
      [0, 42],
      [0, 8],
    ]);
  });

  test('parts stand under the tub by their names', () => {
    expect(file.root).toMatchObject({
      children: [{ name: 'basin', children: [{ name: "tray 'Ä'" }, { name: 'blank' }] }],
    });
  });
});

test('the same parts give the same bytes, in plain ASCII', () => {
  const text = writeStep('Bücher', [tray]);
  expect(writeStep('Bücher', [tray])).toBe(text);

  expect(text).toMatch(/^[\x20-\x7e\n]*$/);
  expect(text).toContain("'B\\X2\\00FC\\X0\\cher'");
});

test('a fold with a corner that is not a number is refused rather than written', () => {
  expect(() => writeStep('x', [{ ...washer, thickness: Number.NaN }])).toThrow('NaN');
});
