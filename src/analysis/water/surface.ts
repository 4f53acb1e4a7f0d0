import { toPlane } from '../geometry/frame.js';
import { addScaled, type Vec2, type Vec3 } from '../geometry/vec.js';
import type { Tub } from '../model.js';
import type { Face, FaceIndex, Shape, Stretch } from '../shape/shape.js';
import { ROUND_OFF } from '../tolerance.js';
import { findBorders, type Border } from './border.js';
import { openingOutlines } from './opening-outline.js';
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
  for (const face of shape.faces) if (face.usable) addFace(face, merge, known, triangles, borders);
  return assembleSurface(shape.faces, levelled(merge.points), triangles, borders);
};

const addFace = (
  face: Face,
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
  const sides: { readonly from: number; readonly stretch: Stretch }[] = [];
  for (const stretch of face.stretches.flat()) {
    const from = indexOf(stretch.start);
    if (from === indexOf(stretch.end)) continue;
    sides.push({ from, stretch });
    outline.push(local(from, toPlane(face.frame, stretch.start)));
  }
  sides.forEach(({ from, stretch }, i) => {
    const border = known.get(stretch);
    if (border) borders.set(edgeKey(from, sides[(i + 1) % sides.length].from), border);
  });
  const openings = openingOutlines(face);
  const rings = openings.map(({ corners }) =>
    corners.map((corner) => local(add(onPlane(face, corner)), corner)),
  );
  const push = (opening: number | undefined, [a, b, c]: readonly [number, number, number]): void => {
    triangles.push({
      face: face.panel,
      opening,
      corners: [global[a], global[b], global[c]],
      plane: [plane[a], plane[b], plane[c]],
    });
  };
  for (const corners of triangulate(plane, outline, rings.map((ring) => [...ring].reverse()))) push(undefined, corners);
  rings.forEach((ring, i) => {
    for (const corners of triangulate(plane, ring, [])) push(openings[i].opening, corners);
  });
};

const onPlane = (face: Face, [x, y]: Vec2): Vec3 => addScaled(addScaled(face.frame.origin, face.frame.u, x), face.frame.v, y);

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
