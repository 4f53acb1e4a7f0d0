import { GRAVITY } from './flow/depth.js';
import { add, cross, lerp, lengthOf, scale, subtract, type Vec3 } from '../geometry/vec.js';
import type { FaceIndex } from '../shape/shape.js';
import type { Surface } from './surface/surface.js';
import { trianglesTouching } from './standing/pools.js';

/** What the water of one chamber presses a divider with. */
export interface Load {
  readonly face: FaceIndex;
  /** N, of all of its pressure on both sides and the edges that it reaches. */
  readonly force: number;
}

/**
 * The force of liquid that stands at `level` over the given points, on each divider, mm and kg/m3. Exact: pressure grows evenly
 * with depth, so that over a plane triangle it is that at the middle of it. By face.
 */
export const loadsOn = (
  surface: Surface,
  points: readonly number[],
  level: number,
  densityKgM3: number,
): readonly Load[] => {
  const { faces, mesh, dividers } = surface;
  const sums = new Map<FaceIndex, Vec3>();
  for (const t of trianglesTouching(surface, points)) {
    const { panel } = faces[mesh.faceOf[t]];
    if (!dividers.has(panel)) continue;
    const corners = surface.triangle(t).corners.map((corner) => surface.points[corner]);
    sums.set(panel, add(sums.get(panel) ?? [0, 0, 0], pressureOn(corners, level)));
  }
  const perMm3 = (densityKgM3 * GRAVITY) / 1e12;
  return [...sums].map(([face, sum]) => ({ face, force: lengthOf(sum) * perMm3 })).sort((p, q) => p.face - q.face);
};

/** Depth over a triangle times its area, into the sheet, mm3. */
const pressureOn = (corners: readonly Vec3[], level: number): Vec3 => {
  const under = corners.flatMap((a, i): readonly Vec3[] => {
    const b = corners[(i + 1) % corners.length];
    const kept = a[2] <= level ? [a] : [];
    return a[2] <= level !== b[2] <= level ? [...kept, lerp(a, b, (level - a[2]) / (b[2] - a[2]))] : kept;
  });
  let sum: Vec3 = [0, 0, 0];
  for (let i = 1; i + 1 < under.length; i++) {
    const [a, b, c] = [under[0], under[i], under[i + 1]];
    const depth = level - (a[2] + b[2] + c[2]) / 3;
    sum = add(sum, scale(cross(subtract(b, a), subtract(c, a)), -depth / 2));
  }
  return sum;
};
