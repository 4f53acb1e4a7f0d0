import type { FaceIndex } from '../shape/shape.js';
import type { Edge, Surface } from './surface.js';
import { minQueue } from './min-queue.js';

export interface FloodInput {
  readonly surface: Surface;
  /** Of each point, along gravity, mm. */
  readonly heights: Float64Array;
  /** Per opening: does water leave through it? */
  readonly open: readonly boolean[];
  /** Per opening: rise of its rim above the wet face, mm. */
  readonly rises: readonly number[];
}

export interface Flood {
  /** Level to which water must rise at each point before it leaves; the point's own height where it runs off. */
  readonly level: Float64Array;
  /** Next point on the way out, -1 at a sink; -2 where there is no way out. */
  readonly next: Int32Array;
  /** At a point whose `next` is -1: the edge over which the water leaves there. */
  readonly exitEdge: Int32Array;
}

/**
 * Level at which water leaves each point of the surface: the smallest, over all ways to a sink, of the greatest height
 * on the way. Over a triangulated surface the best way may keep to corners and edges, so the graph gives it exactly.
 *
 * Sinks: free edges (with the height of a hem turned up) and rims of open openings (with the height of a raised rim).
 * Points without a way out get Infinity. Cost: O(n log n).
 * Source: R. Barnes, C. Lehman, D. Mulla, "Priority-flood", Computers & Geosciences 62 (2014) 117-127, on a graph.
 */
export const floodFrom = ({ surface, heights, open, rises }: FloodInput): Flood => {
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
  const dams = damsAt(surface);
  surface.edges.forEach((edge, i) => {
    const rise = sinkRise(surface, i, open, rises);
    if (rise === undefined) return;
    for (const point of [edge.a, edge.b])
      offer(point, heights[point] + Math.max(rise, heldBy(dams.get(point), edge)), -1, i);
  });
  const settled = new Uint8Array(count);
  for (let point = queue.pop(); point !== undefined; point = queue.pop()) {
    if (settled[point]) continue;
    settled[point] = 1;
    for (const edge of surface.edgesAt[point]) {
      const { a, b } = surface.edges[edge];
      const other = a === point ? b : a;
      if (settled[other] || !isSolidEdge(surface, edge, open)) continue;
      offer(other, Math.max(heights[other], level[point]), point, -1);
    }
  }
  return { level, next, exitEdge };
};

interface Dam {
  readonly face: FaceIndex;
  readonly height: number;
}

/** Hems that stand up on the wet face, at both ends of each. */
const damsAt = ({ edges }: Surface): ReadonlyMap<number, readonly Dam[]> => {
  const found = new Map<number, Dam[]>();
  for (const { a, b, border } of edges) {
    if (!border || border.dam <= 0) continue;
    for (const point of [a, b])
      found.set(point, [...(found.get(point) ?? []), { face: border.stretch.face, height: border.dam }]);
  }
  return found;
};

/** A hem reaches to the wall beside it, so water does not get round its end by the wall's own edge. */
const heldBy = (dams: readonly Dam[] = [], { border }: Edge): number =>
  border === undefined || dams.length === 0 || dams.some(({ face }) => face === border.stretch.face)
    ? 0
    : Math.min(...dams.map(({ height }) => height));

/** Rise over an edge where water leaves, mm; undefined where it does not. */
export const sinkRise = (
  surface: Surface,
  edge: number,
  open: readonly boolean[],
  rises: readonly number[],
): number | undefined => {
  const { border, triangles } = surface.edges[edge];
  if (triangles.length === 1) return border?.kind === 'free' ? border.dam : undefined;
  let hole: number | undefined;
  let solid = false;
  for (const triangle of triangles) {
    const { opening } = surface.triangles[triangle];
    if (opening !== undefined && open[opening]) hole = opening;
    else solid = true;
  }
  return hole !== undefined && solid ? rises[hole] : undefined;
};

const isSolidEdge = (surface: Surface, edge: number, open: readonly boolean[]): boolean =>
  surface.edges[edge].triangles.some((triangle) => {
    const { opening } = surface.triangles[triangle];
    return opening === undefined || !open[opening];
  });
