import type { Vec2, Vec3 } from '../geometry/vec.js';
import type { Tub } from '../model.js';
import type { Face, FaceIndex, Shape, Stretch } from '../shape/shape.js';
import { ROUND_OFF } from '../tolerance.js';
import { findBorders, type Border } from './border.js';
import { meshOn, plainMesh, type FaceMesh } from './face-mesh.js';
import { pointsAlong, regionsOf, stopsOnEdges, type EdgeStop } from './face-regions.js';
import { mergePoints } from './merge-points.js';
import { joinPieces, listOf, noPieces, type BorderLine, type Mesh } from './mesh.js';

/**
 * The wet face of the whole tub as triangles that meet corner to corner.
 *
 * Openings are triangulated too (a plugged outlet is sheet; an open one is a hole): `opening` marks their triangles.
 * `mesh` says all in flat lists; `triangle` and `edge` say the same of one of them.
 */
export interface Surface {
  readonly faces: readonly Face[];
  /** Heights that differ by less than ROUND_OFF are made equal, so that level things are exactly level. */
  readonly points: readonly Vec3[];
  readonly mesh: Mesh;
  /** Each made when first asked for. */
  readonly triangle: (index: number) => Triangle;
  readonly edge: (index: number) => Edge;
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

/** Triangulates every usable face once. Cost: O(n log n) in corners. */
export const buildSurface = (tub: Tub, shape: Shape): Surface => {
  const merge = mergePoints();
  const pieces = noPieces();
  const lines: BorderLine[] = [];
  const known = findBorders(tub, shape);
  const stopsOn = stopsOnEdges(shape);
  for (const face of shape.faces) {
    if (!face.usable) continue;
    const stops = stopsOn(face.panel);
    const sides = sidesOf(face, stops);
    const points = sides.map(({ start }) => merge.indexOf(start));
    const isShort = (side: number): boolean => points[side] === points[(side + 1) % points.length];
    sides.forEach(({ stretch }, side) => {
      const border = stretch.mates.length === 0 ? known.get(stretch) : undefined;
      if (border && !isShort(side)) lines.push({ from: points[side], to: points[(side + 1) % points.length], border });
    });
    const isPlain = stops.length === 0 && !regionsOf(face).cut && !points.some((_, side) => isShort(side));
    const kept = isPlain ? points : points.filter((_, side) => !isShort(side));
    const starts = sides.filter((_, side) => !isShort(side)).map(({ start }) => start);
    const mesh = isPlain
      ? plainMesh(face)
      : meshOn(face, starts, (a, b) => a === b || (a < kept.length && kept[a] === kept[b]));
    for (const point of mesh.inner) kept.push(merge.add(point));
    addMesh(pieces, face.panel, mesh, kept);
  }
  const points = levelled(merge.points);
  return surfaceOf(shape.faces, points, joinPieces(pieces, points.length, lines));
};

interface Side {
  readonly start: Vec3;
  readonly stretch: Stretch;
}

const sidesOf = (face: Face, stops: readonly EdgeStop[]): readonly Side[] => {
  const sides: Side[] = [];
  for (const list of face.stretches) {
    for (const stretch of list) {
      if (stops.length === 0) sides.push({ start: stretch.start, stretch });
      else for (const start of pointsAlong(stretch, stops)) sides.push({ start, stretch });
    }
  }
  return sides;
};

/** Adds the triangles of one face; `points`: which points of the tub its own are. */
const addMesh = (
  pieces: ReturnType<typeof noPieces>,
  face: FaceIndex,
  { plane, corners, openings }: FaceMesh,
  points: readonly number[],
): void => {
  for (const opening of openings) {
    pieces.faceOf.push(face);
    pieces.openingOf.push(opening);
  }
  for (const corner of corners) {
    pieces.corners.push(points[corner]);
    pieces.plane.push(plane[corner][0], plane[corner][1]);
  }
};

/** A surface over a mesh of its points. */
export const surfaceOf = (faces: readonly Face[], points: readonly Vec3[], mesh: Mesh): Surface => {
  const triangles = new Array<Triangle | undefined>(mesh.count);
  const edges = new Array<Edge | undefined>(mesh.ends.length / 2);
  return {
    faces,
    points,
    mesh,
    triangle: (index) => (triangles[index] ??= triangleOf(mesh, index)),
    edge: (index) => (edges[index] ??= edgeOf(mesh, index)),
  };
};

const triangleOf = ({ faceOf, openingOf, corners, sides, plane }: Mesh, t: number): Triangle => {
  const [i, k] = [3 * t, 6 * t];
  return {
    face: faceOf[t],
    opening: openingOf[t] < 0 ? undefined : openingOf[t],
    corners: [corners[i], corners[i + 1], corners[i + 2]],
    plane: [
      [plane[k], plane[k + 1]],
      [plane[k + 2], plane[k + 3]],
      [plane[k + 4], plane[k + 5]],
    ],
    edges: [sides[i], sides[i + 1], sides[i + 2]],
  };
};

const edgeOf = ({ ends, trianglesOfEdge, borders }: Mesh, edge: number): Edge => ({
  a: ends[2 * edge],
  b: ends[2 * edge + 1],
  triangles: [...listOf(trianglesOfEdge, edge)],
  border: borders.get(edge),
});

const levelled = (points: readonly Vec3[]): readonly Vec3[] => {
  const sorted = heightsOf(points).sort();
  const levels: number[] = [];
  for (const height of sorted)
    if (levels.length === 0 || height - levels[levels.length - 1] > ROUND_OFF) levels.push(height);
  return points.map((point): Vec3 => {
    const level = levelUnder(levels, point[2]);
    return level === point[2] ? point : [point[0], point[1], level];
  });
};

/** The highest of the ascending levels that is not above the height. */
const levelUnder = (levels: readonly number[], height: number): number => {
  let [low, high] = [0, levels.length - 1];
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (levels[middle] <= height) low = middle;
    else high = middle - 1;
  }
  return levels[low];
};

/** Heights of all points, mm. */
export const heightsOf = (points: readonly Vec3[]): Float64Array => {
  const heights = new Float64Array(points.length);
  for (let i = 0; i < points.length; i++) heights[i] = points[i][2];
  return heights;
};
