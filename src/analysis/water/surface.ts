import { toPlane } from '../geometry/frame.js';
import { addScaled, distance2, type Vec2, type Vec3 } from '../geometry/vec.js';
import type { Tub } from '../model.js';
import type { Face, FaceIndex, Shape, Stretch } from '../shape/shape.js';
import { ROUND_OFF, SAME_POINT } from '../tolerance.js';
import { findBorders, type Border } from './border.js';
import { pointsAlong, regionsOf, stopsOnEdges, type EdgeStop, type FaceRegions } from './face-regions.js';
import { mergePoints, type MergedPoints } from './merge-points.js';
import { triangulate } from './triangulate.js';

/**
 * The wet face of the whole tub as triangles that meet corner to corner.
 *
 * Openings are triangulated too (a plugged outlet is sheet; an open one is a hole): `opening` marks their triangles.
 */
export interface Surface {
  readonly faces: readonly Face[];
  /** Heights that differ by less than ROUND_OFF are made equal, so that level things are exactly level. */
  readonly points: readonly Vec3[];
  readonly triangles: readonly Triangle[];
  readonly edges: readonly Edge[];
  /** Per point, the triangles and the edges around it, in index order. */
  readonly trianglesAt: readonly (readonly number[])[];
  readonly edgesAt: readonly (readonly number[])[];
}

export interface Triangle {
  readonly face: FaceIndex;
  /** Counter-clockwise seen from the wet side. */
  readonly corners: readonly [number, number, number];
  /** The corners in the face's frame. */
  readonly plane: readonly [Vec2, Vec2, Vec2];
  /** Side `i` runs from corner `i` to the next. */
  readonly edges: readonly [number, number, number];
  /** Index into `Tub.openings` when it lies in one. */
  readonly opening: number | undefined;
}

export interface Edge {
  /** Points; `a` < `b`. */
  readonly a: number;
  readonly b: number;
  readonly triangles: readonly number[];
  /** What ends the sheet here; undefined where sheet goes on. */
  readonly border: Border | undefined;
}

export type BareTriangle = Omit<Triangle, 'edges'>;

/** Triangulates every usable face once. Cost: O(n log n) in corners. */
export const buildSurface = (tub: Tub, shape: Shape): Surface => {
  const merge = mergePoints();
  const triangles: BareTriangle[] = [];
  const borders = new Map<number, Border>();
  const known = findBorders(tub, shape);
  const regions = shape.faces.map((face) => (face.usable ? regionsOf(face) : undefined));
  const stops = stopsOnEdges(shape, regions);
  shape.faces.forEach((face, i) => {
    const own = regions[i];
    if (own) addFace(face, own, stops[i], merge, known, triangles, borders);
  });
  return assembleSurface(shape.faces, levelled(merge.points), triangles, borders);
};

const addFace = (
  face: Face,
  { openings, cut }: FaceRegions,
  stops: readonly EdgeStop[],
  { indexOf, add }: MergedPoints,
  known: ReadonlyMap<Stretch, Border>,
  triangles: BareTriangle[],
  borders: Map<number, Border>,
): void => {
  const plane: Vec2[] = [];
  const global: number[] = [];
  const local = (index: number, at: Vec2): number => {
    plane.push(at);
    global.push(index);
    return plane.length - 1;
  };
  const outline: number[] = [];
  const sides = face.stretches
    .flat()
    .flatMap((stretch) => pointsAlong(stretch, stops).map((start) => ({ start, stretch })));
  const corners = sides.map(({ start, stretch }) => ({ point: indexOf(start), start, stretch }));
  corners.forEach(({ point, start, stretch }, i) => {
    const next = corners[(i + 1) % corners.length].point;
    if (point === next) return;
    outline.push(local(point, toPlane(face.frame, start)));
    const border = known.get(stretch);
    if (border) borders.set(edgeKey(point, next), border);
  });
  const onOutline = outline.length;
  const ringOf = (ring: readonly Vec2[]): readonly number[] => {
    const found = ring.map((corner) => nearest(plane, corner) ?? local(add(onPlane(face, corner)), corner));
    return found.filter((index, i) => global[index] !== global[found[(i + 1) % found.length]]);
  };
  const nearest = (among: readonly Vec2[], corner: Vec2): number | undefined => {
    // Rings that stand free meet no other corner: only what was cut at the edge has to look.
    if (!cut) return undefined;
    const index = among.findIndex((p, i) => distance2(p, corner) <= (i < onOutline ? SAME_POINT : ROUND_OFF));
    return index < 0 ? undefined : index;
  };
  const push = (opening: number | undefined, [a, b, c]: readonly [number, number, number]): void => {
    triangles.push({
      face: face.panel,
      opening,
      corners: [global[a], global[b], global[c]],
      plane: [plane[a], plane[b], plane[c]],
    });
  };
  if (cut) {
    const solid = cut.solid.map((region) => ({ outline: ringOf(region.outline), holes: region.holes.map(ringOf) }));
    for (const region of solid)
      for (const found of triangulate(plane, region.outline, region.holes)) push(undefined, found);
    for (const { opening, corners: ring } of cut.openings)
      for (const found of triangulate(plane, ringOf(ring), [])) push(opening, found);
    return;
  }
  const rings = openings.map(({ corners: ring }) => ringOf(ring));
  for (const found of triangulate(
    plane,
    outline,
    rings.map((ring) => [...ring].reverse()),
  ))
    push(undefined, found);
  rings.forEach((ring, i) => {
    for (const found of triangulate(plane, ring, [])) push(openings[i].opening, found);
  });
};

const onPlane = (face: Face, [x, y]: Vec2): Vec3 =>
  addScaled(addScaled(face.frame.origin, face.frame.u, x), face.frame.v, y);

/** Above any count of points a tub can have, and its square is below 2^53. */
const KEY_BASE = 2 ** 26;

export const edgeKey = (a: number, b: number): number => (a < b ? a * KEY_BASE + b : b * KEY_BASE + a);

/** Joins triangles along common corners. `borders`: by `edgeKey`, for edges with sheet on one side only. */
export const assembleSurface = (
  faces: readonly Face[],
  points: readonly Vec3[],
  bare: readonly BareTriangle[],
  borders: ReadonlyMap<number, Border>,
): Surface => {
  const found = new Map<number, number>();
  const edges: { a: number; b: number; triangles: number[]; border: Border | undefined }[] = [];
  const trianglesAt: number[][] = points.map(() => []);
  const edgesAt: number[][] = points.map(() => []);
  const edgeBetween = (a: number, b: number, triangle: number): number => {
    const key = edgeKey(a, b);
    let edge = found.get(key);
    if (edge === undefined) {
      edge = edges.length;
      found.set(key, edge);
      edges.push({ a: Math.min(a, b), b: Math.max(a, b), triangles: [], border: borders.get(key) });
      edgesAt[a].push(edge);
      edgesAt[b].push(edge);
    }
    edges[edge].triangles.push(triangle);
    return edge;
  };
  const triangles = bare.map((triangle, i): Triangle => {
    const [a, b, c] = triangle.corners;
    for (const corner of triangle.corners) trianglesAt[corner].push(i);
    return { ...triangle, edges: [edgeBetween(a, b, i), edgeBetween(b, c, i), edgeBetween(c, a, i)] };
  });
  for (const edge of edges) if (edge.triangles.length > 1) edge.border = undefined;
  return { faces, points, triangles, edges, trianglesAt, edgesAt };
};

const levelled = (points: readonly Vec3[]): readonly Vec3[] => {
  const order = points.map((_, i) => i).sort((p, q) => points[p][2] - points[q][2]);
  const heights = new Float64Array(points.length);
  let base = -Infinity;
  for (const i of order) {
    if (points[i][2] - base > ROUND_OFF) base = points[i][2];
    heights[i] = base;
  }
  return points.map(([x, y], i): Vec3 => [x, y, heights[i]]);
};

/** Heights of all points, mm. */
export const heightsOf = (surface: Surface): Float64Array => Float64Array.from(surface.points, (point) => point[2]);
