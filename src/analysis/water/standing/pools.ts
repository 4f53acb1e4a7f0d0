import type { Vec3 } from '../../geometry/vec.js';
import { ROUND_OFF } from '../../geometry/tolerance.js';
import type { FaceIndex } from '../../shape/shape.js';
import { belowLevel, type Below } from './below.js';
import type { Flood } from './flood.js';
import { otherEnd, type SurfaceMesh } from '../surface/mesh.js';
import { panelAt, type Surface } from '../surface/surface.js';

/** Water that stays: what lies below the level at which it would run off. */
export interface Pool {
  /** mm; Infinity where there is no way out at all. */
  readonly level: number;
  readonly depth: number;
  readonly deepest: Vec3;
  /** Face that holds most of its surface; of equals the first. */
  readonly face: FaceIndex;
  /** All faces it wets, in index order. */
  readonly faces: readonly FaceIndex[];
  /** Plan area of the water's surface, mm2. */
  readonly area: number;
  readonly volume: number;
  /** Where it runs off: the pass, or the outlet or edge it rises over; undefined without a way out. */
  readonly spill: Vec3 | undefined;
  /** Points of the surface under water. */
  readonly points: readonly number[];
}

export interface PoolInput {
  readonly surface: Surface;
  /** Positions of the points, along gravity in z: the surface's own, or as tilted. */
  readonly points: readonly Vec3[];
  readonly flood: Flood;
  readonly open: readonly boolean[];
}

/**
 * All pools, deepest point first in index order; what has no volume, as before an upright plate, is none. Areas and volumes
 * are exact on the triangulated surface. O(n).
 */
export const findPools = (input: PoolInput): readonly Pool[] => {
  const { points, flood } = input;
  const { mesh } = input.surface;
  const { start: from, items } = mesh.edgesAt;
  const owner = new Int32Array(points.length).fill(-1);
  const members: number[][] = [];
  for (let start = 0; start < points.length; start++) {
    if (owner[start] >= 0 || !isUnder(input, start)) continue;
    const list = [start];
    owner[start] = members.length;
    for (let i = 0; i < list.length; i++) {
      for (let k = from[list[i]]; k < from[list[i] + 1]; k++) {
        const other = otherEnd(mesh, items[k], list[i]);
        if (owner[other] >= 0 || !isUnder(input, other) || flood.level[other] !== flood.level[start]) continue;
        owner[other] = members.length;
        list.push(other);
      }
    }
    members.push(list);
  }
  return members.map((list) => poolOf(input, list)).filter(({ volume }) => volume > ROUND_OFF);
};

const isUnder = ({ points, flood, surface: { mesh }, open }: PoolInput, point: number): boolean => {
  if (points[point][2] >= flood.level[point]) return false;
  const { start, items } = mesh.trianglesAt;
  for (let i = start[point]; i < start[point + 1]; i++) if (!isOpen(mesh, items[i], open)) return true;
  return false;
};

/** Is the triangle part of a hole that lets water through? */
const isOpen = ({ openingOf }: SurfaceMesh, t: number, open: readonly boolean[]): boolean =>
  openingOf[t] >= 0 && open[openingOf[t]];

const poolOf = (input: PoolInput, list: readonly number[]): Pool => {
  const { surface, points, flood, open } = input;
  const { mesh } = surface;
  const level = flood.level[list[0]];
  const lowest = list.reduce((least, i) => (points[i][2] < points[least][2] ? i : least));
  const areas = new Map<FaceIndex, number>();
  let volume = 0;
  let area = 0;
  const finite = Number.isFinite(level);
  for (const t of trianglesTouching(surface, list)) {
    if (isOpen(mesh, t, open)) continue;
    const face = panelAt(surface, t);
    const below = finite ? belowTriangle(mesh, points, t, level) : ENDLESS;
    areas.set(face, (areas.get(face) ?? 0) + below.area);
    area += below.area;
    volume += below.volume;
  }
  const faces = [...areas.keys()].sort((p, q) => p - q);
  const largest = Math.max(...areas.values());
  const face = faces.find((f) => (areas.get(f) ?? 0) >= largest * (1 - ROUND_OFF)) ?? faces[0];
  const depth = level - points[lowest][2];
  return {
    level,
    depth,
    deepest: points[lowest],
    face,
    faces,
    area,
    volume,
    spill: spillOf(input, lowest),
    points: list,
  };
};

const ENDLESS: Below = { area: 0, volume: Infinity };

/** What lies under a level over one triangle of the mesh, its points standing at `points`. */
export const belowTriangle = ({ corners }: SurfaceMesh, points: readonly Vec3[], t: number, level: number): Below =>
  belowLevel(points[corners[3 * t]], points[corners[3 * t + 1]], points[corners[3 * t + 2]], level);

/** Triangles with one of the points as a corner, in index order. */
export const trianglesTouching = ({ mesh }: Surface, list: readonly number[]): Int32Array => {
  const { start, items } = mesh.trianglesAt;
  let count = 0;
  for (const point of list) count += start[point + 1] - start[point];
  const found = new Int32Array(count);
  count = 0;
  for (const point of list) for (let i = start[point]; i < start[point + 1]; i++) found[count++] = items[i];
  found.sort();
  count = 0;
  for (let i = 0; i < found.length; i++) if (i === 0 || found[i] !== found[i - 1]) found[count++] = found[i];
  return found.subarray(0, count);
};

const spillOf = ({ points, flood }: PoolInput, from: number): Vec3 | undefined => {
  for (let at = from; at !== -2; at = flood.next[at]) {
    if (points[at][2] === flood.level[from] || flood.next[at] === -1) return points[at];
  }
  return undefined;
};
