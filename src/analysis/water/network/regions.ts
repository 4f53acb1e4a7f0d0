/** The surface in the hollows that water on it runs to, with every opening shut. */
import { NOISE } from '../../geometry/tolerance.js';
import { distance, dot } from '../../geometry/vec.js';
import type { Face } from '../../shape/shape.js';
import { floodFrom, type Flood } from '../standing/flood.js';
import { hollowsOf } from '../standing/hollows.js';
import { otherEnd } from '../surface/mesh.js';
import { heightsOf, type Surface } from '../surface/surface.js';

export interface Regions {
  /** Lowest point of each. */
  readonly lowest: readonly number[];
  /** By triangle; -1: it runs off the surface. */
  readonly ofTriangle: Int32Array;
  readonly ofPoint: Int32Array;
}

/**
 * Each point belongs to the hollow that the steepest edges lead down to, a triangle to that of its lowest corner: so their borders
 * are edges, along the crests. Hollows less deep than `film` belong to what they run over into. Cost: O(n log n).
 */
export const regionsOf = (surface: Surface, film: number): Regions => {
  const heights = heightsOf(surface.points);
  const open = new Array<boolean>(openingCount(surface)).fill(false);
  const flood = floodFrom({ surface, heights, open, rises: open.map(() => 0) });
  const hollows = hollowsOf(surface, { flood, open }, film);
  const under = ownersOf(surface, heights, hollows);
  const order = [...heights.keys()].sort((p, q) => heights[p] - heights[q] || p - q);
  const rank = new Int32Array(heights.length);
  order.forEach((point, i) => (rank[point] = i));
  const ofPoint = new Int32Array(heights.length).fill(-1);
  const { edgesAt, corners, count } = surface.mesh;
  for (const point of order) {
    let [next, steepest] = [point, -1];
    for (let i = edgesAt.start[point]; i < edgesAt.start[point + 1]; i++) {
      const other = otherEnd(surface.mesh, edgesAt.items[i], point);
      if (rank[other] > rank[point]) continue;
      const steepness = (heights[point] - heights[other]) / distance(surface.points[point], surface.points[other]);
      if (steepness < steepest || (steepness === steepest && rank[other] > rank[next])) continue;
      [next, steepest] = [other, steepness];
    }
    ofPoint[point] = next === point ? hollowFrom(flood, under, point) : ofPoint[next];
  }
  const ofTriangle = new Int32Array(count);
  for (let t = 0; t < count; t++) {
    const [a, b, c] = [corners[3 * t], corners[3 * t + 1], corners[3 * t + 2]];
    const low = rank[a] < rank[b] ? a : b;
    ofTriangle[t] = ofPoint[rank[c] < rank[low] ? c : low];
  }
  for (const triangles of topsOf(surface)) {
    const between = new Set(triangles.flatMap((t) => [0, 1, 2].map((i) => ofPoint[corners[3 * t + i]])));
    if (between.size === 2) for (const t of triangles) ofTriangle[t] = Math.max(...between);
  }
  return { lowest: hollows.map(({ lowest }) => lowest), ofTriangle, ofPoint };
};

/** Triangles of each edge of a divider that water may run over, so that all of it is on one side. */
const topsOf = ({ mesh, faces, dividers }: Surface): Iterable<readonly number[]> => {
  const found = new Map<number, number[]>();
  if (dividers.size === 0) return [];
  mesh.faceOf.forEach((face, t) => {
    if (!isTop(faces, face, dividers)) return;
    const known = found.get(face);
    if (known) known.push(t);
    else found.set(face, [t]);
  });
  return found.values();
};

const isTop = (faces: readonly Face[], face: number, dividers: Surface['dividers']): boolean => {
  const { panel, frame } = faces[face];
  return (
    face !== panel &&
    dividers.has(panel) &&
    frame.normal[2] > 0 &&
    Math.abs(dot(frame.normal, faces[panel].frame.normal)) < NOISE
  );
};

const openingCount = ({ mesh: { openingOf } }: Surface): number =>
  openingOf.reduce((most, opening) => Math.max(most, opening + 1), 0);

/** By point, the hollow under whose level it lies; -1: none. */
const ownersOf = (
  { mesh }: Surface,
  heights: Float64Array,
  hollows: readonly { readonly lowest: number; readonly level: number }[],
): Int32Array => {
  const owner = new Int32Array(heights.length).fill(-1);
  hollows.forEach(({ lowest, level }, id) => {
    const wet = [lowest];
    owner[lowest] = id;
    for (const point of wet) {
      for (let i = mesh.edgesAt.start[point]; i < mesh.edgesAt.start[point + 1]; i++) {
        const other = otherEnd(mesh, mesh.edgesAt.items[i], point);
        if (heights[other] >= level || owner[other] >= 0) continue;
        owner[other] = id;
        wet.push(other);
      }
    }
  });
  return owner;
};

/** Where a place that nothing leads down from, and that is no hollow of its own, runs over to. */
const hollowFrom = (flood: Flood, under: Int32Array, from: number): number => {
  let at = from;
  while (under[at] < 0 && flood.next[at] >= 0) at = flood.next[at];
  return under[at];
};
