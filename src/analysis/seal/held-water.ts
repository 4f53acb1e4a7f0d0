/** The water that the plugged tub holds as it is, with its leaks. */
import { toPlane, toSpace } from '../geometry/frame.js';
import { SAME_POINT } from '../geometry/tolerance.js';
import { distance } from '../geometry/vec.js';
import type { FaceIndex } from '../shape/shape.js';
import { panelAt } from '../water/surface/surface.js';
import type { Tub } from '../model/tub.js';
import { sillsOf } from '../water/outlet/sills.js';
import { contentAt, contentUnder, type Content } from '../water/capacity.js';
import { triangleAt } from '../water/flow/inflows.js';
import { floodFrom, type Flood, type LeakPlace } from '../water/standing/flood.js';
import { findPools, trianglesTouching } from '../water/standing/pools.js';
import { heightsOf } from '../water/surface/surface.js';
import type { Water } from '../water/water.js';
import type { Leak } from './leak.js';
import type { Watertight } from './watertight.js';

/** One water of the plugged tub, as far as it fills before it runs over or out. All mm. */
export interface HeldWater {
  /** Its lowest point, of the surface. */
  readonly lowest: number;
  readonly level: number;
  /** What bounds it; undefined: it runs over. */
  readonly leak: Leak | undefined;
  readonly faces: readonly FaceIndex[];
}

export interface Holding {
  /** That over the lowest point of the main basin first, though it may hold nothing; then as they lie in the surface. Films are left out. */
  readonly waters: readonly HeldWater[];
  /** Level to which water rises over a point of the surface before it runs over or out. */
  readonly levelAt: (point: number) => number;
}

/**
 * Leaks, and sills that are open to the edge above them, which no plug shuts, are ways out at their heights, each where it lies: one of
 * them lowers no water but what comes to it. Cost: O(n log n).
 */
export const heldWater = (tub: Tub, water: Water, { leaks }: Watertight): Holding => {
  const surface = water.surface();
  const { open, rises } = water.plugged();
  const leaking = leaks.filter((leak) => leak.isUnderWater && leak.isAsDrawn && !leak.isInside);
  const around = leaking.map((leak) => ({ height: leak.height, around: pointsAround(water, leak) }));
  const flood = floodFrom({
    surface,
    heights: heightsOf(surface.points),
    open,
    rises,
    leaks: [...around, ...sillsOf(tub, surface, water.liquid)],
  });
  const leakOf = (from: number): Leak | undefined => {
    const point = wayOut(flood, from);
    if (point === undefined || flood.exitEdge[point] >= 0) return undefined;
    const isIt = (place: LeakPlace): boolean =>
      place.around.includes(point) && Math.max(place.height, surface.points[point][2]) === flood.level[point];
    return leaking[around.findIndex(isIt)];
  };
  const heldOver = (lowest: number, faces: readonly FaceIndex[]): HeldWater => ({
    lowest,
    level: flood.level[lowest],
    leak: leakOf(lowest),
    faces,
  });
  const main = water.basins().at(0);
  const first = main ? [surface.points.indexOf(main.lowest)] : [];
  const others = findPools({ surface, points: surface.points, flood, open })
    .filter(({ depth, level, points }) => depth > water.film && level < Infinity && !points.includes(first[0]))
    .map(({ deepest, faces }) => heldOver(surface.points.indexOf(deepest), faces));
  const mainWater = first.map((lowest) => {
    const { points } = contentAt(surface, lowest, flood.level[lowest]);
    const faces = new Set([...trianglesTouching(surface, [...points])].map((t) => panelAt(surface, t)));
    return heldOver(lowest, [...faces]);
  });
  return { waters: [...mainWater, ...others], levelAt: (point) => flood.level[point] };
};

/** What a held water holds up to a level, never more than its own; where dividers part it, on each side of them. */
export const contentOf = (water: Water, { lowest, level }: HeldWater, upTo = level): Content => {
  const full = contentAt(water.surface(), lowest, level);
  return upTo >= level ? full : contentUnder(water.surface(), full.points, upTo);
};

const wayOut = (flood: Flood, from: number): number | undefined => {
  let at = from;
  while (flood.next[at] >= 0) at = flood.next[at];
  return flood.next[at] === -1 ? at : undefined;
};

/** Corners of the triangles that a leak lies in, on the face or faces that it is nearest to. */
const pointsAround = (water: Water, { faces, point }: Leak): readonly number[] => {
  const surface = water.surface();
  const found = faces.flatMap((face) => {
    const { frame } = surface.faces[face];
    const spot = triangleAt({ surface }, face, toPlane(frame, point));
    return spot ? [{ ...spot, off: distance(toSpace(frame, spot.at), point) }] : [];
  });
  const nearest = Math.min(...found.map(({ off }) => off));
  return found
    .filter(({ off }) => off <= nearest + SAME_POINT)
    .flatMap(({ triangle }) => surface.triangle(triangle).corners);
};
