import { boxesOfPolygons, indexBoxes } from '../geometry/box-index.js';
import type { Vec3 } from '../geometry/vec.js';
import { distance, lerp } from '../geometry/vec.js';
import type { OutletIndex, Tub } from '../model/tub.js';
import type { FaceIndex } from '../shape/shape.js';
import { ROUND_OFF, SAME_POINT } from '../geometry/tolerance.js';
import { contentAt, NO_OPENING, rimPoints } from './capacity.js';
import type { Drainage } from './flow/drainage.js';
import { trianglesTouching } from './standing/pools.js';
import { hollowsOf } from './standing/hollows.js';
import { landingFinder } from './surface/landing.js';
import { listOf } from './surface/mesh.js';
import { panelAt, type Surface } from './surface/surface.js';

/** A hollow of the plugged tub, as far as it fills before it runs over into another or out of the tub. All mm. */
export interface Chamber {
  readonly outlets: readonly OutletIndex[];
  readonly lowest: Vec3;
  /** Level at which it runs over. */
  readonly level: number;
  readonly volume: number;
  readonly area: number;
  readonly faces: readonly FaceIndex[];
  /** Points of the surface under water then. */
  readonly points: ReadonlySet<number>;
  readonly spill: Spill;
}

export interface Spill {
  /** Index of the chamber into which it runs over; undefined: out of the tub. */
  readonly into: number | undefined;
  /** The middle of the longest line over which it runs, else the point. */
  readonly at: Vec3;
  /** The divider over whose edge, or through whose opening, it runs. */
  readonly over: FaceIndex | undefined;
  /** Length of the level line over which it runs, 0 where that is a point. */
  readonly width: number;
}

/**
 * The chambers of a tub, those that run over into others before these, of two that do so into each other the one without an outlet
 * in use first. Hollows that lie less than the film deep below their way out are none. Cost: O(n log n).
 */
export const findChambers = (tub: Tub, surface: Surface, plugged: Drainage, film: number): readonly Chamber[] => {
  const outletsIn = outletsByPoint(tub, surface);
  const found = hollowsOf(surface, plugged, film).map(({ lowest, level, pass, into }): Chamber => {
    const { volume, area, points } = contentAt(surface, lowest, level);
    const triangles = trianglesTouching(surface, [...points]);
    return {
      outlets: outletsIn(points),
      lowest: surface.points[lowest],
      level,
      volume,
      area,
      points,
      faces: facesOf(surface, triangles),
      spill: {
        into,
        at: surface.points[pass],
        over: dividerAt(surface, pass),
        ...spillLine(surface, plugged, { points, triangles, level }),
      },
    };
  });
  const below = found.length > 1 ? fallsInto(surface, found) : (): undefined => undefined;
  const known = found.map((chamber): Chamber => {
    const { spill } = chamber;
    return { ...chamber, spill: { ...spill, into: spill.into ?? below(chamber) } };
  });
  const order = upstreamFirst(known, (outlet) => tub.outlets[outlet].shut !== true).filter((i) => holds(known[i]));
  const placeOf = new Map(order.map((i, place) => [i, place]));
  return order.map((i) => {
    const { spill, ...chamber } = known[i];
    const into = nextThatHolds(known, spill.into);
    return { ...chamber, spill: { ...spill, into: into === undefined ? undefined : placeOf.get(into) } };
  });
};

/** The chamber into which falls what leaves another over a free edge at its level; undefined: it falls past the tub. */
const fallsInto = (surface: Surface, chambers: readonly Chamber[]): ((chamber: Chamber) => number | undefined) => {
  const { mesh, points: places } = surface;
  const landing = landingFinder(surface);
  const endsOf = (edge: number): readonly [Vec3, Vec3] => [
    places[mesh.ends[2 * edge]],
    places[mesh.ends[2 * edge + 1]],
  ];
  const level = [...mesh.borders.keys()].filter((edge) => {
    const [a, b] = endsOf(edge);
    return a[2] === b[2];
  });
  const middles = level.map((edge) => lerp(...endsOf(edge), 0.5));
  const search = indexBoxes(boxesOfPolygons(middles.map((middle) => [middle])));
  const edgeAt = ({ level: brim, spill: { at } }: Chamber): number | undefined => {
    const reach = 2 * SAME_POINT;
    const near = search(at[0] - reach, at[1] - reach, at[0] + reach, at[1] + reach);
    const found = near.find((i) => endsOf(level[i])[0][2] === brim && distance(middles[i], at) <= SAME_POINT);
    return found === undefined ? undefined : level[found];
  };
  const chambersOver = new Map<number, number[]>();
  chambers.forEach(({ points }, chamber) => {
    for (const point of points) {
      const known = chambersOver.get(point);
      if (known) known.push(chamber);
      else chambersOver.set(point, [chamber]);
    }
  });
  return (chamber) => {
    const edge = edgeAt(chamber);
    const found = edge === undefined ? undefined : landing(edge, 0.5);
    if (!found) return undefined;
    const corners = [...mesh.corners.subarray(3 * found.triangle, 3 * found.triangle + 3)];
    const into = corners.flatMap(
      (corner) => (chambersOver.get(corner) ?? []).find((i) => chambers[i] !== chamber) ?? [],
    );
    return into.length === 0 ? undefined : Math.min(...into);
  };
};

/** Which outlets have a point of their rims among some, ascending. */
const outletsByPoint = (tub: Tub, surface: Surface): ((points: ReadonlySet<number>) => readonly OutletIndex[]) => {
  const rims = rimPoints(surface);
  const at = new Map<number, OutletIndex[]>();
  tub.outlets.forEach(({ opening = NO_OPENING }, outlet) => {
    for (const point of rims.get(opening) ?? []) {
      const known = at.get(point);
      if (known) known.push(outlet);
      else at.set(point, [outlet]);
    }
  });
  return (points) => {
    const found = new Set<OutletIndex>();
    for (const point of points) for (const outlet of at.get(point) ?? []) found.add(outlet);
    return [...found].sort((p, q) => p - q);
  };
};

/** What has no volume, as before an upright plate under which the water gets by, is none. */
const holds = ({ volume }: Chamber): boolean => volume > ROUND_OFF;

const nextThatHolds = (chambers: readonly Chamber[], from: number | undefined): number | undefined => {
  const passed = new Set<number>();
  let at = from;
  for (; at !== undefined && !holds(chambers[at]) && !passed.has(at); at = chambers[at].spill.into) passed.add(at);
  return at !== undefined && holds(chambers[at]) ? at : undefined;
};

/** Indices of the chambers, those from which the water has farthest to go first. */
const upstreamFirst = (chambers: readonly Chamber[], isOpen: (outlet: OutletIndex) => boolean): readonly number[] => {
  const steps = chambers.map((_, start) => {
    const passed = new Set<number>();
    for (let at: number | undefined = start; at !== undefined && !passed.has(at); at = chambers[at].spill.into)
      passed.add(at);
    return passed.size;
  });
  const drains = chambers.map(({ outlets }) => (outlets.some(isOpen) ? 1 : 0));
  return [...chambers.keys()].sort((p, q) => steps[q] - steps[p] || drains[p] - drains[q] || p - q);
};

const facesOf = (surface: Surface, triangles: Int32Array): readonly FaceIndex[] => {
  const faces = new Set<FaceIndex>();
  for (const t of triangles) faces.add(panelAt(surface, t));
  return [...faces].sort((p, q) => p - q);
};

/** The edges at the level that have water on one side and nothing that stands above it on the other: their length, and a place on them. */
const spillLine = (
  { mesh, points: places }: Surface,
  { open }: Drainage,
  { points, triangles, level }: Wetted,
): Partial<Pick<Spill, 'at'>> & Pick<Spill, 'width'> => {
  const { corners, ends, sides, trianglesOfEdge } = mesh;
  const isHole = (t: number): boolean => mesh.openingOf[t] >= 0 && open[mesh.openingOf[t]];
  const cornersOf = (t: number): Int32Array => corners.subarray(3 * t, 3 * t + 3);
  const isWet = (t: number): boolean => !isHole(t) && cornersOf(t).some((corner) => points.has(corner));
  const isLow = (t: number): boolean => isHole(t) || cornersOf(t).every((corner) => places[corner][2] <= level);
  const seen = new Set<number>();
  let width = 0;
  let longest: { readonly length: number; readonly at: Vec3 } | undefined;
  for (const t of triangles) {
    for (let side = 3 * t; side < 3 * t + 3; side++) {
      const edge = sides[side];
      const [a, b] = [places[ends[2 * edge]], places[ends[2 * edge + 1]]];
      if (a[2] !== level || b[2] !== level || seen.has(edge)) continue;
      seen.add(edge);
      const others = [...listOf(trianglesOfEdge, edge)].filter((other) => !isWet(other));
      const isRim = mesh.borders.get(edge)?.kind === 'free';
      if (others.length > 0 ? !others.every(isLow) : !isRim) continue;
      const length = distance(a, b);
      width += length;
      if (!longest || length > longest.length) longest = { length, at: lerp(a, b, 0.5) };
    }
  }
  return { width, ...(longest ? { at: longest.at } : {}) };
};

interface Wetted {
  readonly points: ReadonlySet<number>;
  readonly triangles: Int32Array;
  readonly level: number;
}

/** The divider that a point of the surface belongs to. */
export const dividerAt = (surface: Surface, point: number): FaceIndex | undefined =>
  [...listOf(surface.mesh.trianglesAt, point)]
    .map((t) => panelAt(surface, t))
    .find((panel) => surface.dividers.has(panel));
