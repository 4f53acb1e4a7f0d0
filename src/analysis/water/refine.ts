import { lerp, lerp2, type Vec2, type Vec3 } from '../geometry/vec.js';
import type { Border } from './border.js';
import { trianglesTouching, type Pool } from './pools.js';
import { assembleSurface, edgeKey, type BareTriangle, type Surface } from './surface.js';

/** The surface cut along the shore of every pool, so that each triangle is under water or not. */
export interface ShoredSurface {
  readonly surface: Surface;
  /** Per triangle, the index of the pool over it; -1: none. */
  readonly poolOf: Int32Array;
}

interface Corner {
  readonly point: number;
  readonly plane: Vec2;
  readonly height: number;
}

/** Cuts the triangles that cross the water line of a pool. Points keep their indices; new ones follow. O(n). */
export const cutAtShores = (whole: Surface, pools: readonly Pool[], open: readonly boolean[]): ShoredSurface => {
  if (pools.length === 0) return { surface: whole, poolOf: new Int32Array(whole.triangles.length).fill(-1) };
  const poolAt = new Map<number, number>();
  pools.forEach((pool, i) => {
    for (const t of trianglesTouching(whole, pool.points)) poolAt.set(t, i);
  });
  const points: Vec3[] = [...whole.points];
  const cutOn = new Map<number, { readonly point: number; readonly t: number }>();
  const cut = (edge: number, level: number): { readonly point: number; readonly t: number } => {
    const known = cutOn.get(edge);
    if (known) return known;
    const { a, b } = whole.edges[edge];
    const t = (level - points[a][2]) / (points[b][2] - points[a][2]);
    const [x, y] = lerp(points[a], points[b], t);
    const made = { point: points.push([x, y, level]) - 1, t };
    cutOn.set(edge, made);
    return made;
  };
  const triangles: BareTriangle[] = [];
  const owners: number[] = [];
  whole.triangles.forEach((triangle, t) => {
    const pool = poolAt.get(t) ?? -1;
    const isHole = triangle.opening !== undefined && open[triangle.opening];
    const level = pool < 0 ? Infinity : pools[pool].level;
    const ring: Corner[] = [];
    triangle.corners.forEach((point, i) => {
      const next = triangle.corners[(i + 1) % 3];
      const height = points[point][2];
      ring.push({ point, plane: triangle.plane[i], height });
      if ((height - level) * (points[next][2] - level) >= 0 || level === Infinity) return;
      const made = cut(triangle.edges[i], level);
      const share = whole.edges[triangle.edges[i]].a === point ? made.t : 1 - made.t;
      ring.push({
        point: made.point,
        plane: lerp2(triangle.plane[i], triangle.plane[(i + 1) % 3], share),
        height: level,
      });
    });
    const push = (corners: readonly Corner[], owner: number): void => {
      for (let i = 1; i + 1 < corners.length; i++) {
        const [a, b, c] = [corners[0], corners[i], corners[i + 1]];
        triangles.push({ ...triangle, corners: [a.point, b.point, c.point], plane: [a.plane, b.plane, c.plane] });
        owners.push(isHole ? -1 : owner);
      }
    };
    if (pool < 0 || ring.every(({ height }) => height <= level)) return push(ring, pool);
    push(
      ring.filter(({ height }) => height <= level),
      pool,
    );
    push(
      ring.filter(({ height }) => height >= level),
      -1,
    );
  });
  const borders = new Map<number, Border>();
  whole.edges.forEach(({ a, b, border }, edge) => {
    if (!border) return;
    const made = cutOn.get(edge);
    if (!made) borders.set(edgeKey(a, b), border);
    else borders.set(edgeKey(a, made.point), border).set(edgeKey(made.point, b), border);
  });
  return { surface: assembleSurface(whole.faces, points, triangles, borders), poolOf: Int32Array.from(owners) };
};
