import { dot, type Vec3 } from '../geometry/vec.js';
import type { FaceIndex } from '../shape/shape.js';
import type { Drainage } from './flow/drainage.js';
import { passPoints } from './capacity.js';
import { floodFrom, type Flood } from './standing/flood.js';
import { findPools, type Pool } from './standing/pools.js';
import { NOISE, SAME_POINT, SAME_TURN } from '../geometry/tolerance.js';
import type { CreaseSlope, PanelSlope } from './standing/slopes.js';
import type { Surface } from './surface/surface.js';

/** The deepest pool on a panel over the tilts looked at. */
export interface TiltedPool {
  readonly face: FaceIndex;
  readonly depth: number;
  readonly area: number;
  readonly volume: number;
  /** Plan direction of the side that is raised, rad from x towards y. */
  readonly raised: number;
}

/** Most directions of tilt that are looked at, pools first, then the flattest panels and creases; fewer on large tubs. */
const directionsFor = (points: number): number => Math.max(8, Math.min(48, Math.round(20_000 / points)));

/**
 * Pools of the tub tilted by `within`, the deepest for each panel, over the tilts that can do most harm: against the
 * fall of each panel and crease that is not twice as steep as the tilt, and against the run-off of each pool. These
 * directions turn with the tub. Each tilt is exact; directions between them are not looked at. O(directions x n log n).
 */
export const tiltedPools = (
  surface: Surface,
  { open, rises, pools, flood: asDrawn }: Drainage,
  within: number,
  panels: readonly PanelSlope[],
  creases: readonly CreaseSlope[],
): readonly TiltedPool[] => {
  if (within <= 0) return [];
  const deepest = new Map<FaceIndex, TiltedPool>();
  for (const raised of harmfulTilts(surface, { flood: asDrawn, pools }, within, panels, creases)) {
    const points = tiltPoints(surface.points, within, raised);
    const heights = Float64Array.from(points, (point) => point[2]);
    const flood = floodFrom({ surface, heights, open, rises });
    for (const { face, depth, area, volume, level } of findPools({ surface, points, flood, open })) {
      if (!Number.isFinite(level) || depth <= (deepest.get(face)?.depth ?? 0)) continue;
      deepest.set(face, { face, depth, area, volume, raised });
    }
  }
  return [...deepest.values()].sort((p, q) => p.face - q.face);
};

/** Positions along the gravity of a tub tilted by `angle`, the side towards plan direction `raised` up. */
export const tiltPoints = (points: readonly Vec3[], angle: number, raised: number): readonly Vec3[] => {
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  const [ux, uy] = [Math.cos(raised), Math.sin(raised)];
  const across: Vec3 = [-uy, ux, 0];
  return points.map((point): Vec3 => {
    const along = ux * point[0] + uy * point[1];
    return [along * c - point[2] * s, dot(across, point), along * s + point[2] * c];
  });
};

const harmfulTilts = (
  surface: Surface,
  { flood, pools }: Pick<Drainage, 'flood' | 'pools'>,
  within: number,
  panels: readonly PanelSlope[],
  creases: readonly CreaseSlope[],
): readonly number[] => {
  const wanted: { readonly raised: number; readonly inclination: number }[] = [];
  for (const { face, inclination } of panels) {
    if (inclination > 2 * within) continue;
    const { frame, corners } = surface.faces[face];
    if (inclination > NOISE) wanted.push({ raised: Math.atan2(frame.normal[1], frame.normal[0]), inclination });
    else {
      corners.forEach(([x, y], i) => {
        const [nx, ny] = corners[(i + 1) % corners.length];
        wanted.push({ raised: Math.atan2(x - nx, ny - y), inclination });
      });
    }
  }
  for (const { high, low, inclination } of creases) {
    if (inclination > 2 * within) continue;
    const along = Math.atan2(low[1] - high[1], low[0] - high[0]);
    wanted.push({ raised: along, inclination });
    if (inclination <= NOISE) wanted.push({ raised: along + Math.PI, inclination });
  }
  for (const pool of pools) {
    const raised = Number.isFinite(pool.level) ? awayFromRunOff(surface, flood, pool) : undefined;
    if (raised !== undefined) wanted.push({ raised, inclination: -1 });
  }
  const chosen: number[] = [];
  for (const { raised } of wanted.sort((p, q) => p.inclination - q.inclination)) {
    if (chosen.length >= directionsFor(surface.points.length)) break;
    if (chosen.every((other) => turnBetween(other, raised) > SAME_TURN)) chosen.push(raised);
  }
  return chosen;
};

/** Plan direction from the middle of a pool's lowest points to the middle of the places where it runs off. */
const awayFromRunOff = (surface: Surface, flood: Flood, pool: Pool): number | undefined => {
  const bottom = pool.deepest[2];
  const lowest = pool.points.map((point) => surface.points[point]).filter((point) => point[2] === bottom);
  const passes = [...passPoints(surface, flood, pool)].map((point) => surface.points[point]);
  if (passes.length === 0) return undefined;
  const mean = (points: readonly Vec3[], axis: 0 | 1): number =>
    points.reduce((sum, p) => sum + p[axis], 0) / points.length;
  const [x, y] = [mean(passes, 0) - mean(lowest, 0), mean(passes, 1) - mean(lowest, 1)];
  return Math.hypot(x, y) > SAME_POINT ? Math.atan2(y, x) : undefined;
};

const turnBetween = (a: number, b: number): number => Math.abs(Math.atan2(Math.sin(a - b), Math.cos(a - b)));
