import { NOISE } from '../geometry/tolerance.js';
import { distance, lerp, type Vec3 } from '../geometry/vec.js';
import type { Box } from '../model/tub.js';
import type { FaceIndex } from '../shape/shape.js';
import type { Basin } from './capacity.js';
import type { Drainage } from './flow/drainage.js';
import { routeFlow } from './flow/route/route.js';
import { panelAt, type Surface } from './surface/surface.js';
import { trianglesOfOpening } from './surface/mesh.js';

/** A length of edge over which water falls clear of the tub. */
export interface FallPlace {
  readonly face: FaceIndex;
  readonly start: Vec3;
  readonly end: Vec3;
  /** Share of the water in question that falls here. */
  readonly share: number;
}

/** Where the water of an overflowing basin finally falls off the sheet: it may run down a flange first. */
export const overflowFalls = ({ net }: Drainage, basin: Basin): readonly FallPlace[] => {
  const inside = new Set(basin.pool.points);
  const flatArea = net.flatAreas.findIndex(({ points }) => points.some((point) => inside.has(point)));
  if (flatArea < 0) return [];
  const { ends } = routeFlow(net, { kind: 'flatArea', flatArea, rate: 1 });
  return ends.flatMap((end): readonly FallPlace[] => {
    if (end.kind === 'opening') return lowestRim(net.surface, end.opening, end.flux);
    if (end.kind !== 'edge') return [];
    const { a, b, triangles } = net.surface.edge(end.edge);
    const face = panelAt(net.surface, triangles[0]);
    return [{ face, start: net.surface.points[a], end: net.surface.points[b], share: end.flux }];
  });
};

/** Water that runs out of a hole in a wall falls from the lowest part of its rim. */
export const lowestRim = (surface: Surface, opening: number, share: number): readonly FallPlace[] => {
  const inside = trianglesOfOpening(surface.mesh, opening).map(surface.triangle);
  const rim = [...new Set(inside.flatMap(({ corners }) => corners))].map((point) => surface.points[point]);
  const lowest = Math.min(...rim.map(([, , z]) => z));
  const low = rim.filter(([, , z]) => z === lowest);
  return low.length === 0
    ? []
    : [{ face: surface.faces[inside[0].face].panel, start: low[0], end: low[low.length - 1], share }];
};

/** mm. Falling water is taken to reach this far sideways from the edge; common practice, no source. */
export const SPLASH = 10;

/** Does water that falls straight down from a length of edge come within SPLASH of a box that reaches below it? */
export const fallsOn = ({ start, end }: Pick<FallPlace, 'start' | 'end'>, { min, max }: Box): boolean => {
  if (Math.max(start[2], end[2]) < min[2]) return false;
  let [from, to] = [0, 1];
  for (const axis of [0, 1]) {
    const [p, d] = [start[axis], end[axis] - start[axis]];
    const [lo, hi] = [min[axis] - SPLASH, max[axis] + SPLASH];
    if (d === 0) {
      if (p < lo || p > hi) return false;
      continue;
    }
    const [t0, t1] = [(lo - p) / d, (hi - p) / d];
    from = Math.max(from, Math.min(t0, t1));
    to = Math.min(to, Math.max(t0, t1));
  }
  return from <= to;
};

/** Middle of the longest of several lengths. */
export const middleOfLongest = (places: readonly Pick<FallPlace, 'start' | 'end'>[]): Vec3 | undefined => {
  const longest = Math.max(0, ...places.map(({ start, end }) => distance(start, end)));
  const place = places.find(({ start, end }) => distance(start, end) >= longest * (1 - NOISE));
  return place && lerp(place.start, place.end, 0.5);
};
