import { SAME_POINT } from '../../geometry/tolerance.js';
import { lerp, type Vec3 } from '../../geometry/vec.js';
import type { Surface } from '../../water/surface/surface.js';
import { listOf } from '../../water/surface/mesh.js';
import { drawn3, drawnLength } from '../drawn.js';
import type { WaterPoolItem } from '../items/water-items.js';

/** The surface of standing water: plane pieces at its level, and the lines where it meets the sheet. */
export interface LevelSurface {
  /** Convex. */
  readonly pieces: readonly (readonly Vec3[])[];
  /** Of the water under each corner of the pieces, mm; even in between. */
  readonly depths: readonly (readonly number[])[];
  readonly shore: readonly (readonly [Vec3, Vec3])[];
}

/** As an item has it, of all of them together. */
export const drawnSurface = (
  surfaces: readonly LevelSurface[],
): Pick<WaterPoolItem, 'surface' | 'depths' | 'shore'> => ({
  surface: surfaces.flatMap(({ pieces }) => pieces.map((piece) => piece.map(drawn3))),
  depths: surfaces.flatMap(({ depths }) => depths.map((each) => each.map(drawnLength))),
  shore: surfaces.flatMap(({ shore }) => shore.map(([a, b]) => [drawn3(a), drawn3(b)] as const)),
});

/** Water at `level` over the triangles that touch the points of one pool. Exact on the triangulated surface. O(n) in them. */
export const levelSurface = (surface: Surface, points: readonly number[], level: number): LevelSurface => {
  const pieces: (readonly Vec3[])[] = [];
  const depths: (readonly number[])[] = [];
  const shore: (readonly [Vec3, Vec3])[] = [];
  if (!Number.isFinite(level)) return { pieces, depths, shore };
  for (const t of new Set(points.flatMap((point) => [...listOf(surface.mesh.trianglesAt, point)]))) {
    const corners = surface.triangle(t).corners.map((corner) => surface.points[corner]);
    const under = corners.flatMap((corner, i) => cutAt(corner, corners[(i + 1) % 3], level));
    const crossings = under.filter(({ crossing }) => crossing).map(({ point }) => point);
    if (crossings.length === 2) shore.push([crossings[0], crossings[1]]);
    // An upright panel has no water over it, only a shore on it.
    const piece = under.map(({ point }): Vec3 => [point[0], point[1], level]);
    if (piece.length < 3 || Math.abs(planArea(piece)) <= SAME_POINT) continue;
    pieces.push(piece);
    depths.push(under.map(({ point }) => level - point[2]));
  }
  return { pieces, depths, shore };
};

interface Cut {
  readonly point: Vec3;
  readonly crossing: boolean;
}

/** A corner when it is under water, then the place where the side to the next one crosses the level. */
const cutAt = (a: Vec3, b: Vec3, level: number): readonly Cut[] => {
  const cuts: Cut[] = a[2] <= level ? [{ point: a, crossing: false }] : [];
  if (a[2] < level !== b[2] < level && a[2] !== b[2] && a[2] !== level && b[2] !== level) {
    cuts.push({ point: lerp(a, b, (level - a[2]) / (b[2] - a[2])), crossing: true });
  }
  return cuts;
};

const planArea = (piece: readonly Vec3[]): number => {
  let twice = 0;
  piece.forEach((a, i) => {
    const b = piece[(i + 1) % piece.length];
    twice += a[0] * b[1] - b[0] * a[1];
  });
  return twice / 2;
};
