import Module from 'manifold-3d';
import { beforeAll, describe, expect, test } from 'vitest';
import { meshOf } from '../../../../src/analysis/solid/boundary/mesh.js';
import type { Triangles } from '../../../../src/analysis/fold/flat-pattern.js';
import { askewTray, closedHem, foldByHand, polygon, roundHole, volumeByFormula } from './fold-by-hand.js';

type Kernel = Awaited<ReturnType<typeof Module>>;
let kernel: Kernel;
beforeAll(async () => {
  kernel = await Module();
  kernel.setup();
});

/** Volume by an independent library, which refuses a mesh that is not closed and oriented. */
const volumeOf = (mesh: Triangles): number => {
  const solid = kernel.Manifold.ofMesh(
    new kernel.Mesh({
      numProp: 3,
      vertProperties: new Float32Array(mesh.positions.flat()),
      triVerts: new Uint32Array(mesh.triangles.flat()),
    }),
  );
  return solid.volume();
};

/** Every directed edge of a triangle met exactly once by its opposite. */
const openEdges = (mesh: Triangles): number => {
  const seen = new Map<string, number>();
  for (const [a, b, c] of mesh.triangles) {
    for (const [p, q] of [
      [a, b],
      [b, c],
      [c, a],
    ])
      seen.set(`${p} ${q}`, (seen.get(`${p} ${q}`) ?? 0) + 1);
  }
  return [...seen].filter(([key, count]) => count !== 1 || seen.get(key.split(' ').reverse().join(' ')) !== 1).length;
};

describe('mesh of a folded part', () => {
  test('a plain plate with a round hole is closed and has its volume', () => {
    const plate = foldByHand({
      thickness: 2,
      panels: [{ contour: polygon([0, 0], [100, 0], [100, 50], [0, 50]), holes: [roundHole([30, 20], 10)] }],
      bends: [],
    });
    const mesh = meshOf(plate, 0.0005);
    expect(openEdges(mesh)).toBe(0);
    expect(volumeOf(mesh)).toBeCloseTo(2 * (5000 - Math.PI * 100), -1);
    expect(Math.abs(volumeOf(mesh) / volumeByFormula(plate) - 1)).toBeLessThan(2e-5);
  });

  test('a tray with askew walls and rolls that join part of an edge is closed', () => {
    const folded = foldByHand(askewTray);
    const mesh = meshOf(folded, 0.001);
    expect(openEdges(mesh)).toBe(0);
    expect(Math.abs(volumeOf(mesh) / volumeByFormula(folded) - 1)).toBeLessThan(5e-5);
  });

  test('a hem folded flat on itself is closed, though it has no inner radius', () => {
    const folded = foldByHand(closedHem);
    const mesh = meshOf(folded, 0.0005);
    expect(openEdges(mesh)).toBe(0);
    expect(Math.abs(volumeOf(mesh) / volumeByFormula(folded) - 1)).toBeLessThan(1e-4);
  });

  test('a finer tolerance gives more triangles and a volume nearer to the formula', () => {
    const folded = foldByHand(askewTray);
    const [coarse, fine] = [meshOf(folded, 0.2), meshOf(folded, 0.002)];
    expect(fine.triangles.length).toBeGreaterThan(coarse.triangles.length);
    const off = (mesh: Triangles): number => Math.abs(volumeOf(mesh) - volumeByFormula(folded));
    expect(off(fine)).toBeLessThan(off(coarse));
  });
});
