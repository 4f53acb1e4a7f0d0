/** The triangles that are exported, as solids of an independent kernel, which refuses what is not closed and oriented. */
import ManifoldModule, { type Manifold } from 'manifold-3d';
import type { Vec3 } from '../../../src/analysis/geometry/vec.js';
import type { FoldedPart } from '../../../src/analysis/fold/flat-pattern.js';
import { meshOf } from '../../../src/analysis/solid/boundary/mesh.js';

/** mm. Of chords in the bends: finer than what is exported, so that they take next to no room from what lies in the bend. */
const FINENESS = 0.002;

export const meshBodies = async () => {
  const kernel = await ManifoldModule();
  kernel.setup();
  const bodyOf = (part: FoldedPart, fineness = FINENESS): Manifold => {
    const { positions, triangles } = meshOf(part, fineness);
    return kernel.Manifold.ofMesh(
      new kernel.Mesh({
        numProp: 3,
        vertProperties: new Float32Array(positions.flat()),
        triVerts: new Uint32Array(triangles.flat()),
      }),
    );
  };
  /** Room that two bodies take both, mm3. */
  const commonOf = (a: Manifold, b: Manifold): number => {
    const both = a.intersect(b);
    const volume = both.volume();
    both.delete();
    return volume;
  };
  /** The hull of points, and all of some bodies as one. */
  const hull = (points: readonly Vec3[]): Manifold => kernel.Manifold.hull(points.map(([x, y, z]) => [x, y, z]));
  const union = (bodies: readonly Manifold[]): Manifold => kernel.Manifold.union([...bodies]);
  return { bodyOf, commonOf, hull, union };
};
