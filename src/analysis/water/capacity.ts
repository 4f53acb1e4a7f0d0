import type { Vec3 } from '../geometry/vec.js';
import { memoBy } from '../cache/memo.js';
import type { OutletIndex, Tub } from '../model/tub.js';
import type { FaceIndex } from '../shape/shape.js';
import type { Drainage } from './flow/drainage.js';
import type { Flood } from './standing/flood.js';
import { listOf, otherEnd } from './surface/mesh.js';
import { belowTriangle, trianglesTouching, type Pool } from './standing/pools.js';
import { panelAt, type Surface } from './surface/surface.js';

/** A hollow of the tub with its outlets plugged, filled until it runs over. */
export interface Basin {
  /** Outlets that lie in it. */
  readonly outlets: readonly OutletIndex[];
  /** mm; Infinity when nothing lets the water out. */
  readonly level: number;
  readonly lowest: Vec3;
  readonly volume: number;
  readonly area: number;
  readonly faces: readonly FaceIndex[];
  /** Everywhere it runs over first: lines at the level, or single points. */
  readonly overflow: readonly OverflowPlace[];
  readonly pool: Pool;
}

export interface OverflowPlace {
  readonly face: FaceIndex;
  readonly start: Vec3;
  readonly end: Vec3;
  /** Points of the surface at both ends; equal for a single point. */
  readonly points: readonly [number, number];
}

export interface LevelVolume {
  readonly level: number;
  readonly volume: number;
  readonly area: number;
}

/** Basins of the plugged tub: the main one first (holding the lowest outlet, else the largest), then by volume. */
export const findBasins = (
  tub: Tub,
  surface: Surface,
  { flood, pools }: Pick<Drainage, 'flood' | 'pools'>,
): readonly Basin[] => {
  const owner = new Int32Array(surface.points.length).fill(-1);
  pools.forEach((pool, i) => {
    for (const point of pool.points) owner[point] = i;
  });
  const rims = rimPoints(surface);
  const outletsOf: OutletIndex[][] = pools.map(() => []);
  const lowestOutlet = pools.map(() => Infinity);
  tub.outlets.forEach((outlet, index) => {
    const rim = (rims.get(outlet.opening ?? NO_OPENING) ?? []).filter((point) => owner[point] >= 0);
    if (rim.length === 0) return;
    const lowest = rim.reduce((least, i) => (surface.points[i][2] < surface.points[least][2] ? i : least));
    const pool = owner[lowest];
    outletsOf[pool].push(index);
    lowestOutlet[pool] = Math.min(lowestOutlet[pool], surface.points[lowest][2]);
  });
  return pools
    .map((pool, i) => ({ pool, outlets: outletsOf[i], lowestOutlet: lowestOutlet[i], i }))
    .sort((p, q) => compare(p.lowestOutlet, q.lowestOutlet) || q.pool.volume - p.pool.volume || p.i - q.i)
    .map(({ pool, outlets }) => basinOf(surface, flood, pool, outlets));
};

const compare = (a: number, b: number): number => (a < b ? -1 : a > b ? 1 : 0);

/** Of a spout, over whose edge water leaves. */
export const NO_OPENING = -1;

/** Points of each opening's triangles, its rim, in index order. O(n) for all of them. */
export const rimPoints = memoBy(({ mesh }: Surface): ReadonlyMap<number, readonly number[]> => {
  const found = new Map<number, Set<number>>();
  for (let t = 0; t < mesh.count; t++) {
    const opening = mesh.openingOf[t];
    if (opening < 0) continue;
    let rim = found.get(opening);
    if (!rim) found.set(opening, (rim = new Set()));
    for (let i = 3 * t; i < 3 * t + 3; i++) rim.add(mesh.corners[i]);
  }
  return new Map([...found].map(([opening, rim]) => [opening, [...rim].sort((p, q) => p - q)]));
});

const basinOf = (surface: Surface, flood: Flood, pool: Pool, outlets: readonly OutletIndex[]): Basin => ({
  outlets,
  level: pool.level,
  lowest: pool.deepest,
  volume: pool.volume,
  area: pool.area,
  faces: pool.faces,
  overflow: overflowOf(surface, flood, pool),
  pool,
});

/** Points at the level of a pool, beside it, from which its water goes on down or out. */
export const passPoints = (surface: Surface, flood: Flood, pool: Pool): ReadonlySet<number> => {
  const inside = new Set(pool.points);
  const isPass = (point: number): boolean =>
    !inside.has(point) &&
    surface.points[point][2] === pool.level &&
    flood.level[point] === pool.level &&
    !inside.has(flood.next[point]);
  const { start, items } = surface.mesh.edgesAt;
  const passes = new Set<number>();
  for (const point of pool.points) {
    for (let i = start[point]; i < start[point + 1]; i++) {
      const other = otherEnd(surface.mesh, items[i], point);
      if (isPass(other)) passes.add(other);
    }
  }
  return passes;
};

const overflowOf = (surface: Surface, flood: Flood, pool: Pool): readonly OverflowPlace[] => {
  const inside = new Set(pool.points);
  const passes = passPoints(surface, flood, pool);
  const { ends, edgesAt, trianglesOfEdge, corners } = surface.mesh;
  const places: OverflowPlace[] = [];
  const used = new Set<number>();
  const isWet = (t: number): boolean => corners.subarray(3 * t, 3 * t + 3).some((corner) => inside.has(corner));
  for (const a of [...passes].sort((p, q) => p - q)) {
    for (const edge of listOf(edgesAt, a)) {
      const b = ends[2 * edge + 1];
      if (ends[2 * edge] !== a || !passes.has(b)) continue;
      const triangles = listOf(trianglesOfEdge, edge);
      const wet = triangles.filter(isWet);
      if (wet.length === 0 || (wet.length === triangles.length && triangles.length > 1)) continue;
      places.push({ face: panelAt(surface, wet[0]), start: surface.points[a], end: surface.points[b], points: [a, b] });
      used.add(a).add(b);
    }
  }
  for (const point of passes) if (!used.has(point)) places.push(pointPlace(surface, point));
  if (places.length > 0) return places;
  return damPlaces(surface, flood, pool);
};

const pointPlace = (surface: Surface, point: number): OverflowPlace => ({
  face: panelAt(surface, listOf(surface.mesh.trianglesAt, point)[0]),
  start: surface.points[point],
  end: surface.points[point],
  points: [point, point],
});

/** Water that leaves over a raised rim or hem stands higher than the sheet at that place. */
const damPlaces = (surface: Surface, flood: Flood, pool: Pool): readonly OverflowPlace[] =>
  pool.points.filter((point) => flood.next[point] === -1).map((point) => pointPlace(surface, point));

/** Steps of the level-volume curve between the bottom and the overflow. */
const STEPS = 24;

/**
 * Volume and water surface of basins at even steps of level, no higher than to where each runs over; hollows of one, which dividers
 * part, stand at one level. Each value is exact. Cost: O(steps x n of the basins).
 */
export const levelVolumeCurve = (surface: Surface, basins: readonly Basin[]): readonly LevelVolume[] => {
  if (basins.length === 0 || basins.some(({ level }) => !Number.isFinite(level))) return [];
  const bottom = Math.min(...basins.map(({ lowest }) => lowest[2]));
  const brim = Math.max(...basins.map(({ level }) => level));
  return Array.from({ length: STEPS + 1 }, (_, i) => {
    const level = i === STEPS ? brim : bottom + ((brim - bottom) * i) / STEPS;
    const contents = basins.map(({ pool }) => contentUnder(surface, pool.points, Math.min(level, pool.level)));
    return {
      level,
      volume: contents.reduce((sum, { volume }) => sum + volume, 0),
      area: contents.reduce((sum, { area }) => sum + area, 0),
    };
  });
};

export interface Content {
  readonly volume: number;
  readonly area: number;
  /** Points under water. */
  readonly points: ReadonlySet<number>;
}

/** The same under those of some points that lie below the level: what is parted there stands at one level all the same. */
export const contentUnder = (surface: Surface, among: Iterable<number>, level: number): Content => {
  const points = [...among].filter((point) => surface.points[point][2] < level);
  let volume = 0;
  let area = 0;
  for (const t of trianglesTouching(surface, points)) {
    const below = belowTriangle(surface.mesh, surface.points, t, level);
    volume += below.volume;
    area += below.area;
  }
  return { volume, area, points: new Set(points) };
};

/** Volume (mm3) and plan area (mm2) of the water that stands at `level` over a point. */
export const contentAt = (surface: Surface, from: number, level: number): Content => {
  const points = new Set<number>();
  const reached: number[] = [];
  const reach = (point: number): void => {
    if (points.has(point) || surface.points[point][2] >= level) return;
    points.add(point);
    reached.push(point);
  };
  reach(from);
  for (let i = 0; i < reached.length; i++) {
    for (const edge of listOf(surface.mesh.edgesAt, reached[i])) reach(otherEnd(surface.mesh, edge, reached[i]));
  }
  return contentUnder(surface, points, level);
};
