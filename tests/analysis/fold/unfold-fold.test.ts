import { describe, expect, it } from 'vitest';
import { areaOfContour, lengthOfContour } from '../../../src/analysis/geometry/contour.js';
import { addScaled, distance, type Vec3 } from '../../../src/analysis/geometry/vec.js';
import { toSpace } from '../../../src/analysis/geometry/frame.js';
import { createStages } from '../../../src/analysis/stages/stages.js';
import { tubOf } from '../../support/tub-of.js';

const rim = 80;
const pan: Record<string, Vec3[]> = {
  bottom: [
    [0, 0, 0],
    [300, 0, 0],
    [300, 200, 0],
    [0, 200, 0],
  ],
  front: [
    [0, 0, 0],
    [300, 0, 0],
    [300, 0, rim],
    [0, 0, rim],
  ],
  back: [
    [0, 200, 0],
    [300, 200, 0],
    [300, 200, rim],
    [0, 200, rim],
  ],
  left: [
    [0, 0, 0],
    [0, 200, 0],
    [0, 200, rim],
    [0, 0, rim],
  ],
  right: [
    [300, 0, 0],
    [300, 200, 0],
    [300, 200, rim],
    [300, 0, rim],
  ],
};
const panBends = [
  ['bottom', 'front'],
  ['bottom', 'back'],
  ['bottom', 'left'],
  ['bottom', 'right'],
] as const;

describe('a folded pan', () => {
  const stages = createStages(tubOf({ panels: pan, bends: panBends }));
  const [unfolded] = stages.unfolded();

  it('is one part whose flat has four bends and a relief in each corner', () => {
    expect(unfolded.faults).toEqual([]);
    expect(unfolded.flat!.bends).toHaveLength(4);
    expect(unfolded.reliefs).toHaveLength(4);
  });

  it('has the width that inside dimensions and the bend deduction give by hand', () => {
    // T = R = 1.2: K = 0.325 (DIN 6935), BA = pi/2 (1.2 + 0.325 x 1.2) = 2.4976; wet inside SB = 1.2; BD = 2.4 - 2.4976.
    const xs = unfolded.flat!.outline.map((v) => v.x);
    const deduction = 2.4 - (Math.PI / 2) * (1.2 + 0.325 * 1.2);
    expect(Math.max(...xs) - Math.min(...xs)).toBeCloseTo(300 + 2 * rim - 2 * deduction, 9);
  });

  it('runs counter-clockwise and covers plates and zones', () => {
    const flat = unfolded.flat!;
    expect(areaOfContour(flat.outline)).toBeGreaterThan(0);
    expect(lengthOfContour(flat.outline)).toBeGreaterThan(2 * (300 + 200));
    for (const panel of flat.panels) expect(areaOfContour(panel.region)).toBeGreaterThan(0);
  });

  it('folds back: the wet side of every plate lies on its panel', () => {
    const [folded] = stages.folded();
    expect(folded!.plates).toHaveLength(5);
    expect(folded!.rolls).toHaveLength(4);
    const shape = stages.shape();
    for (const plate of folded!.plates) {
      const face = shape.faces[plate.face!];
      const { frame } = plate;
      const [nx, ny, nz] = face.frame.normal;
      expect(distance(frame.normal, [-nx, -ny, -nz])).toBeLessThan(1e-12);
      for (const { x, y } of plate.contour) {
        const wet = addScaled(toSpace(frame, [x, y]), frame.normal, -1.2);
        const off =
          (wet[0] - face.corners[0][0]) * nx + (wet[1] - face.corners[0][1]) * ny + (wet[2] - face.corners[0][2]) * nz;
        expect(Math.abs(off)).toBeLessThan(1e-9);
      }
    }
  });
});
