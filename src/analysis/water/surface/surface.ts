import { distance, type Vec2, type Vec3 } from '../../geometry/vec.js';
import { memoBy } from '../../cache/memo.js';
import type { Tub } from '../../model/tub.js';
import type { Face, FaceIndex, Shape, Stretch } from '../../shape/shape.js';
import { ROUND_OFF, SAME_POINT } from '../../geometry/tolerance.js';
import { findBorders, type Border } from '../../shape/account/border.js';
import { meshOn, plainMesh, type PlacedMesh } from './face-mesh.js';
import { regionsOf, splitSides, stopsOnEdges, type SplitSide } from './face-regions.js';
import { partedFaces, partedMeshes } from './parted.js';
import { weldVertices } from '../../geometry/weld-vertices.js';
import type { Rounding } from './crests.js';
import { joinPieces, listOf, type BorderLine, type SurfaceMesh, type Pieces } from './mesh.js';

/**
 * The wet face of the whole tub as triangles that meet corner to corner.
 *
 * Openings are triangulated too (a plugged outlet is sheet; an open one is a hole): `opening` marks their triangles.
 * `mesh` says all in flat lists; `triangle` and `edge` say the same of one of them.
 */
export interface Surface {
  /** The panels' faces by their index, then the other sides and edges of dividers, the rounds of crests and hems: `panel` tells whose. */
  readonly faces: readonly Face[];
  /** Panels that stand in the tub, with liquid on both sides. */
  readonly dividers: ReadonlySet<FaceIndex>;
  /** By face, the edge that is turned back there. */
  readonly hems: ReadonlyMap<number, { readonly rim: Stretch }>;
  /** By panel, corners that are rounded off. */
  readonly roundings: ReadonlyMap<FaceIndex, readonly Rounding[]>;
  /** Heights that differ by less than ROUND_OFF are made equal, so that level things are exactly level. */
  readonly points: readonly Vec3[];
  readonly mesh: SurfaceMesh;
  /** Each made when first asked for. */
  readonly triangle: (index: number) => Triangle;
  readonly edge: (index: number) => SurfaceEdge;
}

export interface Triangle {
  /** Index into `Surface.faces`. */
  readonly face: number;
  /** Counter-clockwise seen from the wet side. */
  readonly corners: readonly [number, number, number];
  /** The corners in the face's frame. */
  readonly plane: readonly [Vec2, Vec2, Vec2];
  /** Side `i` runs from corner `i` to the next. */
  readonly edges: readonly [number, number, number];
  /** Index into `Tub.openings` when it lies in one. */
  readonly opening: number | undefined;
}

export interface SurfaceEdge {
  /** Points; `a` < `b`. */
  readonly a: number;
  readonly b: number;
  readonly triangles: readonly number[];
  /** What ends the sheet here; undefined where sheet goes on. */
  readonly border: Border | undefined;
}

/** Triangulates every usable face once. `isTight`: openings of dividers are sheet that is marked. Cost: O(n log n) in corners. */
export const buildSurface = (tub: Tub, shape: Shape, isTight = false): Surface => {
  const merge = weldVertices();
  const placed: PlacedMesh[] = [];
  const lines: BorderLine[] = [];
  const borders = findBorders(shape);
  const stopsOn = stopsOnEdges(shape);
  const parted = partedFaces(tub, shape, isTight);
  for (const face of shape.faces) {
    if (!face.usable || parted?.involved.has(face.panel)) continue;
    const stops = stopsOn(face.panel);
    const sides = stops.length === 0 ? wholeSides(face) : splitSides(face, stops);
    const points = sides.map(({ start }) => merge.indexOf(start));
    const after = (side: number): number => points[side + 1 < points.length ? side + 1 : 0];
    const long = sides.filter((_, side) => points[side] !== after(side));
    sides.forEach(({ stretch }, side) => {
      const border = stretch.mates.length === 0 ? borders.get(stretch) : undefined;
      if (border && points[side] !== after(side)) lines.push({ from: points[side], to: after(side), border });
    });
    const isPlain = stops.length === 0 && long.length === sides.length && !regionsOf(face).cut;
    const kept = isPlain ? points : points.filter((point, side) => point !== after(side));
    const mesh = isPlain
      ? plainMesh(face)
      : meshOn(
          face,
          long.map(({ start }) => start),
          (a, b) => a === b || (a < kept.length && kept[a] === kept[b]),
        );
    for (const point of mesh.inner) kept.push(merge.add(point));
    placed.push({ face: face.panel, mesh, points: kept });
  }
  if (parted) placed.push(...partedMeshes(parted, { merge, stopsOn, borders, lines }));
  const points = levelled(merge.points);
  const mesh = joinPieces(piecesOf(placed), points.length, lines);
  return surfaceOf(
    parted ?? { faces: shape.faces, dividers: NO_DIVIDERS, hems: NO_HEMS, roundings: NO_ROUNDINGS },
    points,
    mesh,
  );
};

/** The panel that a triangle belongs to, whichever side of its sheet it is. */
export const panelAt = ({ faces, mesh }: Surface, triangle: number): FaceIndex => faces[mesh.faceOf[triangle]].panel;

/** Where the liquid gets to at a corner of a panel that a hem takes off; else the point itself. */
export const reachedAt = ({ roundings }: Surface, face: FaceIndex, point: Vec3): Vec3 =>
  roundings.get(face)?.find(({ at, foot }) => foot && distance(at, point) <= SAME_POINT)?.foot ?? point;

const wholeSides = memoBy((face: Face): readonly SplitSide[] =>
  face.stretches.flat().map((stretch) => ({ start: stretch.start, stretch })),
);

const piecesOf = (placed: readonly PlacedMesh[]): Pieces => {
  const count = placed.reduce((sum, { mesh }) => sum + mesh.openings.length, 0);
  const faceOf = new Int32Array(count);
  const openingOf = new Int32Array(count);
  const corners = new Int32Array(3 * count);
  const plane = new Float64Array(6 * count);
  let next = 0;
  for (const { face, mesh, points } of placed) {
    faceOf.fill(face, next, next + mesh.openings.length);
    openingOf.set(mesh.openings, next);
    plane.set(mesh.plane, 6 * next);
    for (let i = 0; i < mesh.corners.length; i++) corners[3 * next + i] = points[mesh.corners[i]];
    next += mesh.openings.length;
  }
  return { faceOf, openingOf, corners, plane };
};

const NO_DIVIDERS: Surface['dividers'] = new Set();
const NO_HEMS: Surface['hems'] = new Map();
const NO_ROUNDINGS: Surface['roundings'] = new Map();

/** A surface over a mesh of its points. */
export const surfaceOf = (
  { faces, dividers, hems, roundings }: Pick<Surface, 'faces' | 'dividers' | 'hems' | 'roundings'>,
  points: readonly Vec3[],
  mesh: SurfaceMesh,
): Surface => {
  const triangles = new Array<Triangle | undefined>(mesh.count);
  const edges = new Array<SurfaceEdge | undefined>(mesh.ends.length / 2);
  return {
    faces,
    dividers,
    hems,
    roundings,
    points,
    mesh,
    triangle: (index) => (triangles[index] ??= triangleOf(mesh, index)),
    edge: (index) => (edges[index] ??= edgeOf(mesh, index)),
  };
};

const triangleOf = ({ faceOf, openingOf, corners, sides, plane }: SurfaceMesh, t: number): Triangle => {
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

const edgeOf = ({ ends, trianglesOfEdge, borders }: SurfaceMesh, edge: number): SurfaceEdge => ({
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
