/** Drops that jump off where an inflow lands, and the walls that stop them. Heights in mm. */
import { NOISE } from '../geometry/tolerance.js';
import { lerp, type Vec3 } from '../geometry/vec.js';
import { toPlane } from '../geometry/frame.js';
import type { Inflow, Tub } from '../model/tub.js';
import type { FaceIndex } from '../shape/shape.js';
import { spoutOver } from '../shape/spouts.js';
import { triangleAt } from './flow/inflows.js';
import { panelAt, type Surface } from './surface/surface.js';
import type { Water } from './water.js';

/** Rule of thumb, no source: a drop leaves with no more than this part of the speed with which the water came down. */
export const REBOUND = 0.5;

/** An inflow that falls, and how far its drops come. */
export interface Splash {
  /** Index into `Tub.inflows`. */
  readonly inflow: number;
  /** To where it lands: on the panel, or on the water that stands over it. */
  readonly fall: number;
  readonly at: Vec3;
  /** Straight up, and on the level. */
  readonly rises: number;
  readonly reaches: number;
  /** Of the rims that drops come to the one that is most too low, else the one that they pass with least to spare; undefined: there is none. */
  readonly rim: SplashRim | undefined;
}

export interface SplashRim {
  readonly face: FaceIndex;
  readonly at: Vec3;
  /** From where it lands, in plan. */
  readonly off: number;
  /** Over where it lands: the highest that stands on the way to there, and how high drops come there. */
  readonly has: number;
  readonly needs: number;
}

/**
 * Splashes of all inflows that state how far they fall. A drop that leaves with e sqrt(2 g H) rises by h = e2 H and comes down 2 h away;
 * at the distance r none of them is higher than h - r2 / (4 h), the parabola that holds all their ways. Each straight piece of a rim is judged
 * at its worst place; drops that walls, dividers or floors on the way there stop are none. One that is spread over its panel is taken
 * to land at each of its corners. Air slows drops down: they come less far. Cost: O(n), and O(n) for each rim that is too low.
 */
export const splashesOf = (tub: Tub, water: Water): readonly Splash[] =>
  tub.inflows.flatMap((each, inflow): readonly Splash[] => {
    if (!each.fall || !water.surface().faces[each.panel]?.usable) return [];
    const all = landingsOf(water.surface(), each).flatMap((place) => splashAt(tub, water, inflow, place) ?? []);
    return all.length === 0 ? [] : [all.reduce((worst, other) => (lackOf(other) > lackOf(worst) ? other : worst))];
  });

/** By how much the wall is too low. */
export const lackOf = ({ rim }: Splash): number => (rim ? rim.needs - rim.has : -Infinity);

const landingsOf = ({ faces }: Surface, { panel, point }: Inflow): readonly Vec3[] =>
  point ? [point] : faces[panel].corners;

const splashAt = (tub: Tub, water: Water, inflow: number, place: Vec3): Splash | undefined => {
  const { panel, fall = 0 } = tub.inflows[inflow];
  const level = levelOver(water, panel, place);
  const at: Vec3 = [place[0], place[1], Math.max(place[2], level)];
  const left = fall - (at[2] - place[2]);
  if (left <= 0) return undefined;
  const rises = REBOUND ** 2 * left;
  return { inflow, fall: left, at, rises, reaches: 2 * rises, rim: rimNear(tub, water.surface(), at, rises) };
};

/** Of the water that stands there at work. */
const levelOver = (water: Water, panel: FaceIndex, place: Vec3): number => {
  const surface = water.surface();
  const spot = triangleAt({ surface }, panel, toPlane(surface.faces[panel].frame, place));
  if (!spot) return -Infinity;
  const { corners } = surface.triangle(spot.triangle);
  const states = water.chambersAtWork();
  const levels = water
    .chambers()
    .map(({ points }, i) =>
      corners.some((corner) => points.has(corner)) ? (states[i].level ?? -Infinity) : -Infinity,
    );
  return Math.max(-Infinity, ...levels);
};

const rimNear = (tub: Tub, surface: Surface, from: Vec3, rises: number): SplashRim | undefined => {
  const { mesh, points } = surface;
  const rims = [...mesh.borders].flatMap(([edge, { kind, stretch }]): readonly SplashRim[] => {
    if (kind !== 'free' || spoutOver(tub, surface.faces, stretch) >= 0) return [];
    const [a, b] = [points[mesh.ends[2 * edge]], points[mesh.ends[2 * edge + 1]]];
    const at = worstOn(a, b, from, rises);
    const off = Math.hypot(at[0] - from[0], at[1] - from[1]);
    const face = panelAt(surface, mesh.trianglesOfEdge.items[mesh.trianglesOfEdge.start[edge]]);
    return [{ face, at, off, has: at[2] - from[2], needs: rises - off ** 2 / (4 * rises) }];
  });
  const worstFirst = rims.sort((p, q) => p.has - p.needs - (q.has - q.needs));
  const over = worstFirst.filter(({ has, needs }) => has < needs);
  for (const rim of over) {
    const highest = wayTo(surface, from, rises, rim);
    if (highest !== undefined) return { ...rim, has: Math.max(rim.has, highest) };
  }
  return worstFirst.find(({ has, needs }) => has >= needs);
};

/** Where a straight rim is lowest against the parabola: z + r2 / (4 h) is least. */
const worstOn = (a: Vec3, b: Vec3, from: Vec3, rises: number): Vec3 => {
  const [dx, dy, dz] = [b[0] - a[0], b[1] - a[1], b[2] - a[2]];
  const length2 = dx * dx + dy * dy;
  if (length2 <= NOISE) return a[2] <= b[2] ? a : b;
  const nearest = -((a[0] - from[0]) * dx + (a[1] - from[1]) * dy) / length2;
  return lerp(a, b, Math.min(1, Math.max(0, nearest - (2 * rises * dz) / length2)));
};

/**
 * Over where it lands, the highest that drops pass on the way to a rim; undefined where none passes all of it. At the distance r a drop
 * that leaves at the slope t is r t - r2 (1 + t2) / (4 h) high, so between two slopes it passes what stands there; those for all that is
 * crossed, of straight sheet the ends, have to have one in common.
 */
const wayTo = (
  { mesh, points }: Surface,
  from: Vec3,
  rises: number,
  { at, off, has }: SplashRim,
): number | undefined => {
  if (off <= NOISE) return has;
  const way = [(at[0] - from[0]) / off, (at[1] - from[1]) / off];
  let [low, high] = [-Infinity, Infinity];
  let highest = has;
  const pass = (r: number, z: number): boolean => {
    const slopes = slopesOver(r, z, rises);
    if (!slopes) return false;
    [low, high] = [Math.max(low, slopes[0]), Math.min(high, slopes[1])];
    highest = Math.max(highest, z);
    return low < high;
  };
  if (!pass(off, has)) return undefined;
  for (let edge = 0; edge < mesh.ends.length / 2; edge++) {
    const [a, b] = [points[mesh.ends[2 * edge]], points[mesh.ends[2 * edge + 1]]];
    const [p, q] = [a, b].map((end) => {
      const [x, y] = [end[0] - from[0], end[1] - from[1]];
      return { along: x * way[0] + y * way[1], aside: y * way[0] - x * way[1], up: end[2] - from[2] };
    });
    if (p.aside === q.aside || p.aside * q.aside > 0) continue;
    const share = p.aside / (p.aside - q.aside);
    const r = p.along + (q.along - p.along) * share;
    if (r > NOISE && r < off - NOISE && !pass(r, p.up + (q.up - p.up) * share)) return undefined;
  }
  return highest;
};

/** Between which slopes a drop passes over a place; undefined: none reaches it. */
const slopesOver = (r: number, z: number, rises: number): readonly [number, number] | undefined => {
  const root = 4 * rises ** 2 - r ** 2 - 4 * rises * z;
  if (root <= 0) return undefined;
  return [(2 * rises - Math.sqrt(root)) / r, (2 * rises + Math.sqrt(root)) / r];
};
