/** How high water stands everywhere once all outlets are plugged. */
import earcut from 'earcut';
import { boxesOfPolygons, indexBoxes } from '../geometry/box-index.js';
import { toPlane } from '../geometry/frame.js';
import { cross2, distance, subtract2, type Vec2, type Vec3 } from '../geometry/vec.js';
import type { Face, FaceIndex, Shape } from '../shape/shape.js';
import { keepBy, memo } from '../cache/memo.js';
import { SAME_POINT } from '../geometry/tolerance.js';
import type { EdgeAccount } from '../shape/edge-account.js';
import { mergePoints } from '../geometry/weld-vertices.js';
import { minQueue } from '../geometry/priority-queue.js';

export interface Flood {
  /** Level at which water over this point of a face starts to run off over a rim, mm; at least the point's own height. */
  readonly levelAt: (face: FaceIndex, point: Vec3) => number;
}

/** The corners of a triangle, by number. */
type Patch = readonly [number, number, number];

/**
 * Flood levels of the tub with its outlets plugged, brimful everywhere.
 *
 * A point's level is the least height to which water must rise to find a way from it to a rim or free edge, over the wet
 * faces; joints count as tight, whatever joins them. Exact for flat faces. A piece of surface without any rim is brimful
 * at its highest point. Cost: O(n log n). Source: priority flood, R. Barnes, C. Lehman, D. Mulla, "Priority-flood",
 * Computers & Geosciences 62 (2014), on the graph of corners and edges.
 */
export const floodOf = (shape: Shape, account: EdgeAccount): Flood => {
  const { points: places, indexOf } = mergePoints();
  const nodes = nodesOf(account, indexOf);
  const pairs = [...nodes];
  const sinks = new Set<number>();
  const open = new Set<number>();
  const border = shape.faces.map((): number[] => []);
  account.entries.forEach(({ stretch, use }, i) => {
    const [from, to] = [nodes[2 * i], nodes[2 * i + 1]];
    border[stretch.face].push(from);
    if (use === 'uncovered' || use === 'near') open.add(from).add(to);
  });
  account.entries.forEach(({ use }, i) => {
    const [from, to] = [nodes[2 * i], nodes[2 * i + 1]];
    if (use === 'rim' || (use === 'free' && !standsUpFrom(open, places, from, to))) sinks.add(from).add(to);
  });
  const layouts = shape.faces.map((face, f) => layOut(face, border[f], places));
  const patches = layouts.map(({ triangles }, f) =>
    triangles.map(([a, b, c]): Patch => [border[f][a], border[f][b], border[f][c]]),
  );
  for (const ofFace of patches) for (const [a, b, c] of ofFace) pairs.push(a, b, b, c, c, a);
  const levels = fill(places, linksOf(places.length, pairs), [...sinks]);
  const levelOn = shape.faces.map((face, f) => memo(() => levelsOn(face, layouts[f], patches[f], levels)));
  return { levelAt: (face, point) => levelOn[face]()(point) };
};

/** Sine of the slope from which a free edge stands up rather than lies along a rim: 30 deg. */
const STANDS_UP = 0.5;

/**
 * Is it the upright side of an open place: a free edge that rises from where an edge is left open? It then belongs to the
 * leak. The rim is above it, and the water would stand up to that if the place were closed.
 */
const standsUpFrom = (open: ReadonlySet<number>, places: readonly Vec3[], from: number, to: number): boolean => {
  const low = places[from][2] <= places[to][2] ? from : to;
  const rise = Math.abs(places[from][2] - places[to][2]);
  return open.has(low) && rise > STANDS_UP * distance(places[from], places[to]);
};

/** Neighbours of all nodes in one list: those of node `i` stand from `first[i]` up to `first[i + 1]`. */
interface Links {
  readonly first: Int32Array;
  readonly neighbours: Int32Array;
}

/** Links both nodes of every pair. */
const linksOf = (count: number, pairs: readonly number[]): Links => {
  const first = new Int32Array(count + 1);
  for (const node of pairs) first[node + 1]++;
  for (let node = 0; node < count; node++) first[node + 1] += first[node];
  const next = first.slice();
  const neighbours = new Int32Array(pairs.length);
  for (let i = 0; i < pairs.length; i += 2) {
    const [a, b] = [pairs[i], pairs[i + 1]];
    neighbours[next[a]++] = b;
    neighbours[next[b]++] = a;
  }
  return { first, neighbours };
};

/** Nodes of the start and end of each entry. An entry mostly starts where the one before it ends. */
const nodesOf = (account: EdgeAccount, indexOf: (point: Vec3) => number): readonly number[] => {
  const nodes: number[] = [];
  let [last, lastNode] = [undefined as Vec3 | undefined, -1];
  for (const { stretch } of account.entries) {
    const { start, end } = stretch;
    const goesOn = last && last[0] === start[0] && last[1] === start[1] && last[2] === start[2];
    const from = goesOn ? lastNode : indexOf(start);
    [last, lastNode] = [end, indexOf(end)];
    nodes.push(from, lastNode);
  }
  return nodes;
};

/** A face cut into triangles, in its own frame. */
interface Layout {
  /** Where the stretches begin, around the face. */
  readonly corners: readonly Vec2[];
  /** Indices into `corners`. A point along an edge may be in none: the links along its edge carry it. */
  readonly triangles: readonly Patch[];
}

const layoutFor = keepBy<Face, Layout>();

const layOut = (face: Face, border: readonly number[], places: readonly Vec3[]): Layout => {
  const around = border.map((node) => places[node]);
  return layoutFor(face, around, () => {
    const corners = around.map((place) => toPlane(face.frame, place));
    const found = earcut(corners.flat());
    const triangles = Array.from({ length: found.length / 3 }, (_, i): Patch => [
      found[3 * i],
      found[3 * i + 1],
      found[3 * i + 2],
    ]);
    return { corners, triangles };
  });
};

/** Spreads from the sinks, lowest first; what is never reached fills to the top of its own piece. */
const fill = (places: readonly Vec3[], links: Links, sinks: readonly number[]): number[] => {
  const levels = places.map(() => Infinity);
  spread(places, links, sinks, levels);
  const highestFirst = places.map((_, i) => i).sort((a, b) => places[b][2] - places[a][2] || a - b);
  for (const node of highestFirst) if (levels[node] === Infinity) spread(places, links, [node], levels);
  return levels;
};

const spread = (
  places: readonly Vec3[],
  { first, neighbours }: Links,
  from: readonly number[],
  levels: number[],
): void => {
  const queue = minQueue();
  const settled = new Uint8Array(places.length);
  const reach = (node: number, level: number): void => {
    if (level >= levels[node]) return;
    levels[node] = level;
    queue.push(node, level);
  };
  for (const node of from) reach(node, places[node][2]);
  for (let node = queue.pop(); node !== undefined; node = queue.pop()) {
    if (settled[node]) continue;
    settled[node] = 1;
    for (let i = first[node]; i < first[node + 1]; i++) {
      reach(neighbours[i], Math.max(levels[node], places[neighbours[i]][2]));
    }
  }
};

/** Level over a point of one face. */
const levelsOn = (
  face: Face,
  layout: Layout,
  patches: readonly Patch[],
  levels: readonly number[],
): ((point: Vec3) => number) => {
  const triangles = layout.triangles.map((triangle) => triangle.map((corner) => layout.corners[corner]));
  const search = indexBoxes(boxesOfPolygons(triangles));
  const d = SAME_POINT;
  return (point) => {
    const [x, y] = toPlane(face.frame, point);
    const holding = search(x - d, y - d, x + d, y + d, (i) => isInTriangle([x, y], triangles[i]));
    // A point just off the outline by rounding is in no triangle: any corner of the face then serves.
    const corners = holding.length > 0 ? holding.flatMap((i) => patches[i]) : patches.flat();
    if (corners.length === 0) return point[2];
    return corners.reduce((level, node) => Math.min(level, Math.max(point[2], levels[node])), Infinity);
  };
};

/** Border counts as inside, with a little room for rounding. */
const isInTriangle = (point: Vec2, [a, b, c]: readonly Vec2[]): boolean => {
  const area = cross2(subtract2(b, a), subtract2(c, a));
  const slack = 1e-9 * Math.abs(area);
  const sides = [
    cross2(subtract2(b, a), subtract2(point, a)),
    cross2(subtract2(c, b), subtract2(point, b)),
    cross2(subtract2(a, c), subtract2(point, c)),
  ];
  return sides.every((side) => side * Math.sign(area) >= -slack);
};
