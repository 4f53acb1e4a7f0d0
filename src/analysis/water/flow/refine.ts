import { lerp, lerp2, type Vec2, type Vec3 } from '../../geometry/vec.js';
import { joinPieces, type BorderLine, type Pieces, type SurfaceMesh } from '../surface/mesh.js';
import { trianglesTouching, type Pool } from '../standing/pools.js';
import { surfaceOf, type Surface } from '../surface/surface.js';

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
  const { mesh } = whole;
  const poolAt = new Int32Array(mesh.count).fill(-1);
  if (pools.length === 0) return { surface: whole, poolOf: poolAt };
  pools.forEach((pool, i) => {
    for (const t of trianglesTouching(whole, pool.points)) poolAt[t] = i;
  });
  const points: Vec3[] = [...whole.points];
  const cutOn = new Map<number, { readonly point: number; readonly t: number }>();
  const cut = (edge: number, level: number): { readonly point: number; readonly t: number } => {
    const known = cutOn.get(edge);
    if (known) return known;
    const [a, b] = [mesh.ends[2 * edge], mesh.ends[2 * edge + 1]];
    const t = (level - points[a][2]) / (points[b][2] - points[a][2]);
    const [x, y] = lerp(points[a], points[b], t);
    const made = { point: points.push([x, y, level]) - 1, t };
    cutOn.set(edge, made);
    return made;
  };
  const laid = piecesUpTo(poolAt.reduce((count, pool) => count + (pool < 0 ? 1 : MOST_PIECES), 0));
  const isUnder = (t: number, level: number): boolean => {
    for (let i = 3 * t; i < 3 * t + 3; i++) if (whole.points[mesh.corners[i]][2] > level) return false;
    return true;
  };
  for (let t = 0; t < mesh.count; t++) {
    const pool = poolAt[t];
    const owner = mesh.openingOf[t] >= 0 && open[mesh.openingOf[t]] ? -1 : pool;
    if (pool < 0 || isUnder(t, pools[pool].level)) {
      laid.copy(mesh, t, owner);
      continue;
    }
    const { level } = pools[pool];
    const ring = ringOf(whole, t, level, cut);
    laid.push(
      mesh,
      t,
      ring.filter(({ height }) => height <= level),
      owner,
    );
    laid.push(
      mesh,
      t,
      ring.filter(({ height }) => height >= level),
      -1,
    );
  }
  const { poolOf, ...pieces } = laid.all();
  const surface = surfaceOf(whole, points, joinPieces(pieces, points.length, bordersCut(whole, cutOn)));
  return { surface, poolOf };
};

/** A level cuts a triangle into no more. */
const MOST_PIECES = 3;

interface LaidPieces {
  /** A triangle as it is. */
  readonly copy: (mesh: SurfaceMesh, t: number, owner: number) => void;
  /** A part of a triangle, as a fan. */
  readonly push: (mesh: SurfaceMesh, t: number, ring: readonly Corner[], owner: number) => void;
  readonly all: () => Pieces & Pick<ShoredSurface, 'poolOf'>;
}

const piecesUpTo = (most: number): LaidPieces => {
  const [faceOf, openingOf, poolOf] = [new Int32Array(most), new Int32Array(most), new Int32Array(most)];
  const corners = new Int32Array(3 * most);
  const plane = new Float64Array(6 * most);
  let count = 0;
  const next = (mesh: SurfaceMesh, t: number, owner: number): number => {
    faceOf[count] = mesh.faceOf[t];
    openingOf[count] = mesh.openingOf[t];
    poolOf[count] = owner;
    return count++;
  };
  return {
    copy: (mesh, t, owner) => {
      const piece = next(mesh, t, owner);
      for (let i = 0; i < 3; i++) corners[3 * piece + i] = mesh.corners[3 * t + i];
      for (let i = 0; i < 6; i++) plane[6 * piece + i] = mesh.plane[6 * t + i];
    },
    push: (mesh, t, ring, owner) => {
      for (let i = 1; i + 1 < ring.length; i++) {
        const piece = next(mesh, t, owner);
        [ring[0], ring[i], ring[i + 1]].forEach((corner, k) => {
          corners[3 * piece + k] = corner.point;
          plane.set(corner.plane, 6 * piece + 2 * k);
        });
      }
    },
    all: () => ({
      faceOf: faceOf.slice(0, count),
      openingOf: openingOf.slice(0, count),
      corners: corners.slice(0, 3 * count),
      plane: plane.slice(0, 6 * count),
      poolOf: poolOf.slice(0, count),
    }),
  };
};

/** The borders of the surface, in two where they are cut. */
const bordersCut = ({ mesh }: Surface, cutOn: ReadonlyMap<number, { readonly point: number }>): BorderLine[] =>
  [...mesh.borders].flatMap(([edge, border]): BorderLine[] => {
    const [from, to] = [mesh.ends[2 * edge], mesh.ends[2 * edge + 1]];
    const made = cutOn.get(edge)?.point;
    return made === undefined
      ? [{ from, to, border }]
      : [
          { from, to: made, border },
          { from: made, to, border },
        ];
  });

/** Corners of a triangle, and where `cut` cuts its sides at the level. */
const ringOf = (
  { points, mesh: { corners, sides, plane, ends } }: Surface,
  t: number,
  level: number,
  cut: (edge: number, level: number) => { readonly point: number; readonly t: number },
): readonly Corner[] => {
  const placeOf = (corner: number): Vec2 => [plane[2 * corner], plane[2 * corner + 1]];
  const ring: Corner[] = [];
  for (let i = 3 * t; i < 3 * t + 3; i++) {
    const next = i % 3 === 2 ? i - 2 : i + 1;
    const height = points[corners[i]][2];
    ring.push({ point: corners[i], plane: placeOf(i), height });
    if ((height - level) * (points[corners[next]][2] - level) >= 0) continue;
    const made = cut(sides[i], level);
    const share = ends[2 * sides[i]] === corners[i] ? made.t : 1 - made.t;
    ring.push({ point: made.point, plane: lerp2(placeOf(i), placeOf(next), share), height: level });
  }
  return ring;
};
