import { otherEnd, type SurfaceMesh } from '../surface/mesh.js';
import { minQueue } from '../../geometry/priority-queue.js';
import type { Surface } from '../surface/surface.js';

export interface FloodInput {
  readonly surface: Surface;
  /** Of each point, along gravity, mm. */
  readonly heights: Float64Array;
  /** Per opening: does water leave through it? */
  readonly open: readonly boolean[];
  /** Per opening: rise of its rim above the wet face, mm. */
  readonly rises: readonly number[];
  /** Other places where it leaves, each with the points around it. */
  readonly leaks?: readonly LeakPlace[];
}

export interface LeakPlace {
  readonly height: number;
  readonly around: readonly number[];
}

export interface Flood {
  /** Level to which water must rise at each point before it leaves; the point's own height where it runs off. */
  readonly level: Float64Array;
  /** Next point on the way out, -1 at a sink; -2 where there is no way out. */
  readonly next: Int32Array;
  /** At a point whose `next` is -1: the edge over which the water leaves there; -1: by a leak. */
  readonly exitEdge: Int32Array;
}

/**
 * Level at which water leaves each point of the surface: the smallest, over all ways to a sink, of the greatest height
 * on the way. Over a triangulated surface the best way may keep to corners and edges, so the graph gives it exactly.
 *
 * Sinks: free edges and rims of open openings (with the height of a raised rim).
 * Points without a way out get Infinity. Cost: O(n log n).
 * Source: R. Barnes, C. Lehman, D. Mulla, "Priority-flood", Computers & Geosciences 62 (2014) 117-127, on a graph.
 */
export const floodFrom = ({ surface, heights, open, rises, leaks = [] }: FloodInput): Flood => {
  const { mesh } = surface;
  const { ends, edgesAt } = mesh;
  const count = heights.length;
  const level = new Float64Array(count).fill(Infinity);
  const next = new Int32Array(count).fill(-2);
  const exitEdge = new Int32Array(count).fill(-1);
  const queue = minQueue();
  const offer = (point: number, at: number, from: number, edge: number): void => {
    if (at >= level[point]) return;
    level[point] = at;
    next[point] = from;
    exitEdge[point] = edge;
    queue.push(point, at);
  };
  for (let end = 0; end < ends.length; end++) {
    const edge = end >> 1;
    const rise = sinkRise(surface, edge, open, rises);
    if (rise === undefined) continue;
    offer(ends[end], heights[ends[end]] + rise, -1, edge);
  }
  for (const { height, around } of leaks)
    for (const point of around) offer(point, Math.max(heights[point], height), -1, -1);
  const settled = new Uint8Array(count);
  for (let point = queue.pop(); point !== undefined; point = queue.pop()) {
    if (settled[point]) continue;
    settled[point] = 1;
    for (let i = edgesAt.start[point]; i < edgesAt.start[point + 1]; i++) {
      const edge = edgesAt.items[i];
      const other = otherEnd(mesh, edge, point);
      if (settled[other] || !isSolidEdge(mesh, edge, open)) continue;
      offer(other, Math.max(heights[other], level[point]), point, -1);
    }
  }
  return { level, next, exitEdge };
};

/** Rise over an edge where water leaves, mm; undefined where it does not. */
export const sinkRise = (
  { mesh }: Surface,
  edge: number,
  open: readonly boolean[],
  rises: readonly number[],
): number | undefined => {
  const { start, items } = mesh.trianglesOfEdge;
  if (start[edge + 1] - start[edge] === 1) {
    return mesh.borders.get(edge)?.kind === 'free' ? 0 : undefined;
  }
  let hole: number | undefined;
  let solid = false;
  for (let i = start[edge]; i < start[edge + 1]; i++) {
    const opening = mesh.openingOf[items[i]];
    if (opening >= 0 && open[opening]) hole = opening;
    else solid = true;
  }
  return hole !== undefined && solid ? rises[hole] : undefined;
};

/** Is there sheet beside an edge, so that water stands along it? */
export const isSolidEdge = (
  { trianglesOfEdge: { start, items }, openingOf }: SurfaceMesh,
  edge: number,
  open: readonly boolean[],
): boolean => {
  for (let i = start[edge]; i < start[edge + 1]; i++) {
    const opening = openingOf[items[i]];
    if (opening < 0 || !open[opening]) return true;
  }
  return false;
};
