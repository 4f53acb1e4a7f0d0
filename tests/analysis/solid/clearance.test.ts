/** How near metal comes to metal, against the gap that an independent solid modeller finds and against numbers by hand. */
import { beforeAll, describe, expect, test } from 'vitest';
import ManifoldModule, { type Manifold, type ManifoldToplevel } from 'manifold-3d';
import { hullDistance } from '../../../src/analysis/geometry/hulls/hull-distance.js';
import type { Vec3 } from '../../../src/analysis/geometry/vec.js';
import { measureAspect } from '../../../src/analysis/aim/measure.js';
import { analyseText } from '../../support/analyse-text.js';
import { casesOf } from '../../support/cases.js';
import { seededUniform } from '../../support/random/random.js';
import { solidKernel } from '../../support/oracles/solid-kernel.js';

const CASES = casesOf(20);

let kernel: ManifoldToplevel;
beforeAll(async () => {
  kernel = await ManifoldModule();
  kernel.setup();
});

const hullOf = (points: readonly Vec3[]): Manifold => kernel.Manifold.hull(points.map(([x, y, z]) => [x, y, z]));

/** Points in a box of the size, somewhere. */
const cloud = (uniform: () => number, count: number, size: number): readonly Vec3[] => {
  const middle = [0, 1, 2].map(() => 60 * uniform());
  return Array.from({ length: count }, () => middle.map((at) => at + size * (uniform() - 0.5)) as unknown as Vec3);
};

describe('the distance between two hulls', () => {
  test('of random points is the gap between solids', () => {
    const uniform = seededUniform(31);
    for (let i = 0; i < CASES; i++) {
      const [p, q] = [cloud(uniform, 4 + Math.floor(6 * uniform()), 40), cloud(uniform, 8, 5 + 30 * uniform())];
      const gap = hullOf(p).minGap(hullOf(q), 200);
      expect(Math.abs(hullDistance(p, q) - gap), `case ${i}`).toBeLessThan(1e-4 + 1e-4 * gap);
    }
  });

  const box = ([x, y, z]: Vec3): readonly Vec3[] =>
    [0, 1].flatMap((i) => [0, 1].flatMap((j) => [0, 1].map((k): Vec3 => [x + i, y + j, z + k])));

  test.each<[string, Vec3, number]>([
    ['face to face', [3, 0.5, 0], 2],
    ['edge to edge', [4, 5, 0], 5],
    ['corner to corner', [2, 3, 3], 3],
    ['touching', [1, 0.3, 0.4], 0],
    ['the same', [0, 0, 0], 0],
  ])('of boxes %s', (_, at, expected) => {
    expect(hullDistance(box([0, 0, 0]), box(at))).toBeCloseTo(expected, 9);
  });
});

/** A tray 300 wide of 1.27 mm sheet whose right side stands dry side out, and a board beside it. */
const besideBoard = (x: number, y = 100, turn = 90): string => `units mm
sheet skin = stainless thickness 1.25 radius 1.6
sheet board = steel thickness 20 radius 1
strip floor of skin from (0, 300, 90) heading front across right 300 {
    panel back to z 12 falling 90 deg
    panel base 300 falling 2 deg
    panel front to z 90 rising 90 deg
}
side left of skin closes floor.left up to 90
side right of skin closes floor.right up to 90
seam left floor { weld tig }
seam right floor { weld tig }
existing cabinet {
    strip wall of board from (${x}, ${y}, 600) heading front across right 20 { panel face 700 falling ${turn} deg }
}
aim { clear tub cabinet at least 3 }
`;

describe('the clearance between two things', () => {
  const clearance = (text: string): number | undefined => {
    const { stages } = analyseText(text);
    const [wish] = stages.tub.aim!.wishes;
    return wish.kind === 'bound' ? measureAspect(stages, wish.of) : undefined;
  };

  test('is from metal to metal: a side stands out by its thickness', () => {
    expect(clearance(besideBoard(380))).toBeCloseTo(380 - 300 - 1.25, 6);
  });

  test('is slantwise where that is shorter', () => {
    // The back, 300 wide, ends at 301.25 with its metal; its side stands out farther, but ends at 300.
    expect(clearance(besideBoard(380, 400))).toBeCloseTo(Math.hypot(380 - 300, 400 - 301.25), 6);
  });

  test('is less than nothing where both take the same room, by how far one had to move', () => {
    expect(clearance(besideBoard(300))).toBeCloseTo(-1.25, 6);
  });

  test('is that of the solids, also where the board leans', async () => {
    const { solidOf } = await solidKernel();
    for (const [x, y, turn] of [
      [330, 100, 70],
      [310, 420, 110],
      [150, 700, 60],
    ] as const) {
      // prettier-ignore
      const text = besideBoard(x, y, turn);
      const { stages } = analyseText(text);
      const tub = stages.folded().map((part) => solidOf(part!));
      const [cabinet] = stages.existing().map(solidOf);
      const gap = Math.min(...tub.map((solid) => solid.minGap(cabinet, 1000)));
      expect(Math.abs(clearance(text)! - gap), text).toBeLessThan(0.06);
    }
  });
});
