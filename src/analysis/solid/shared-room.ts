/** Panels whose metal takes the same room. */
import { flattenContour } from '../geometry/contour.js';
import { boxesOfPolygons, indexBoxes } from '../geometry/box-index.js';
import { toSpace } from '../geometry/frame.js';
import { triangulateRings } from '../geometry/triangulate-rings.js';
import { NO_AXIS, SAME_POINT } from '../geometry/tolerance.js';
import { addScaled, cross, distance, dot, lengthOf, scale, subtract, type Vec3 } from '../geometry/vec.js';
import { keepBy, memoBy } from '../cache/memo.js';
import type { FoldedPart, Plate } from '../fold/flat-pattern.js';
import type { FaceIndex, Shape } from '../shape/shape.js';

export interface SharedRoom {
  readonly faces: readonly [FaceIndex, FaceIndex];
  /** How far one would have to move to be clear of the other where they overlap most, mm. */
  readonly depth: number;
  /** In the middle of what they share there. */
  readonly point: Vec3;
}

/** mm. Metal that overlaps by less gives way when it is bent and joined. Common practice, no source. */
const LEAST_SHARED = 0.1;

/** mm. Arcs of outlines and holes are taken as chords this close to them. */
const FINENESS = 0.05;

/**
 * Pairs of panels that share room, as they are folded; each pair once, by face. Panels that meet along an edge are left out: what
 * becomes of their metal there is the business of their bend or seam. Cost: O(n log n) in panels, and the triangles of those
 * whose boxes overlap.
 */
export function* sharedRoomOf(
  shape: Shape,
  folded: readonly (FoldedPart | undefined)[],
): Generator<void, readonly SharedRoom[]> {
  const slabs: Slab[] = [];
  for (const part of folded) {
    if (part) slabs.push(...slabsOf(part));
    yield;
  }
  if (slabs.length < 2) return [];
  const search = indexBoxes(boxesOfPolygons(slabs.map(({ corners }) => corners)));
  const found: SharedRoom[] = [];
  for (const [i, slab] of slabs.entries()) {
    yield;
    const { low, high } = slab;
    const near = search(
      low[0],
      low[1],
      high[0],
      high[1],
      (j) => j > i && slabs[j].low[2] < high[2] && slabs[j].high[2] > low[2],
    );
    const meets = near.length > 0 ? meetingFaces(shape, slab.face) : NONE;
    for (const j of near) {
      const other = slabs[j];
      if (other.face === slab.face || meets.has(other.face)) continue;
      const overlap = overlapFor(slab, [other], () => overlapOf(slab, other));
      if (overlap && isAtSharedCorner(shape, slab, other, overlap)) continue;
      if (overlap) found.push({ faces: [slab.face, other.face], depth: overlap.depth, point: overlap.point });
    }
  }
  return found;
}

const NONE: ReadonlySet<FaceIndex> = new Set();

/** Thicknesses around a common corner within which metal is taken for that of the corner, which reliefs and seams see to. */
const CORNER_REACH = 3;

const isAtSharedCorner = (shape: Shape, a: Slab, b: Slab, { places }: Overlap): boolean => {
  const reach = CORNER_REACH * (a.thickness + b.thickness);
  const corners = shape.faces[a.face].corners.filter((p) =>
    shape.faces[b.face].corners.some((q) => distance(p, q) <= SAME_POINT),
  );
  return corners.length > 0 && places.every((point) => corners.some((corner) => distance(point, corner) <= reach));
};

const meetingFaces = (shape: Shape, face: FaceIndex): ReadonlySet<FaceIndex> =>
  new Set(shape.faces[face].stretches.flatMap((list) => list.flatMap(({ mates }) => mates.map((mate) => mate.face))));

/** A plate as prisms over its triangles. */
interface Slab {
  readonly face: FaceIndex;
  readonly thickness: number;
  readonly normal: Vec3;
  readonly corners: readonly Vec3[];
  readonly prisms: readonly Prism[];
  readonly low: Vec3;
  readonly high: Vec3;
}

/** Six corners, and the directions of its edges and of its sides' normals. */
interface Prism {
  readonly corners: readonly Vec3[];
  readonly edges: readonly Vec3[];
  readonly normals: readonly Vec3[];
}

interface Overlap extends Pick<SharedRoom, 'depth' | 'point'> {
  /** Middles of all that prisms of both share. */
  readonly places: readonly Vec3[];
}

const overlapFor = keepBy<Slab, Overlap | undefined>();

const slabsOf = memoBy(({ plates, thickness }: FoldedPart): readonly Slab[] =>
  plates.flatMap((plate) => (plate.face === undefined ? [] : [slabOf(plate, plate.face, thickness)])),
);

const slabOf = (plate: Plate, face: FaceIndex, thickness: number): Slab => {
  const rings = [plate.contour, ...plate.holes].map((ring) => flattenContour(ring, FINENESS));
  const dry = rings.flat().map((point) => toSpace(plate.frame, point));
  const { normal } = plate.frame;
  const wet = dry.map((point) => addScaled(point, normal, -thickness));
  const prisms = triangulateRings(rings).map((triangle): Prism => {
    const ring = triangle.map((i) => dry[i]);
    const edges = ring.map((from, k) => subtract(ring[(k + 1) % 3], from));
    return {
      corners: [...ring, ...triangle.map((i) => wet[i])],
      edges: [...edges, normal],
      normals: [normal, ...edges.map((edge) => cross(edge, normal))],
    };
  });
  const corners = [...dry, ...wet];
  const bound = (pick: (...values: number[]) => number): Vec3 => [
    corners.reduce((least, p) => pick(least, p[0]), corners[0][0]),
    corners.reduce((least, p) => pick(least, p[1]), corners[0][1]),
    corners.reduce((least, p) => pick(least, p[2]), corners[0][2]),
  ];
  return { face, thickness, normal, corners, prisms, low: bound(Math.min), high: bound(Math.max) };
};

const overlapOf = (a: Slab, b: Slab): Overlap | undefined => {
  // Most neighbours lie wholly on one side of one another.
  if ([a.normal, b.normal].some((axis) => overlapAlong(axis, a.corners, b.corners) <= LEAST_SHARED)) return undefined;
  const places: { readonly depth: number; readonly point: Vec3 }[] = [];
  for (const p of a.prisms) {
    for (const q of b.prisms) {
      const depth = depthOf(p, q);
      if (depth !== undefined) places.push({ depth, point: middleOf(p, q) });
    }
  }
  if (places.length === 0) return undefined;
  const { depth, point } = places.reduce((most, each) => (each.depth > most.depth ? each : most));
  return { depth, point, places: places.map((each) => each.point) };
};

/** Least overlap along all axes that could part two convex bodies; undefined where that is next to nothing. */
const depthOf = (p: Prism, q: Prism): number | undefined => {
  let least = Infinity;
  const isClear = (axis: Vec3): boolean => {
    const length = lengthOf(axis);
    if (length < NO_AXIS) return false;
    least = Math.min(least, overlapAlong(scale(axis, 1 / length), p.corners, q.corners));
    return least <= LEAST_SHARED;
  };
  if (p.normals.some(isClear) || q.normals.some(isClear)) return undefined;
  for (const edge of p.edges) for (const other of q.edges) if (isClear(cross(edge, other))) return undefined;
  return least;
};

const overlapAlong = (axis: Vec3, p: readonly Vec3[], q: readonly Vec3[]): number => {
  const [a, b] = [spanOf(axis, p), spanOf(axis, q)];
  return Math.min(a[1], b[1]) - Math.max(a[0], b[0]);
};

const spanOf = (axis: Vec3, points: readonly Vec3[]): readonly [number, number] => {
  let [low, high] = [Infinity, -Infinity];
  for (const point of points) {
    const at = dot(axis, point);
    if (at < low) low = at;
    if (at > high) high = at;
  }
  return [low, high];
};

/** Of the box that both are in. */
const middleOf = (p: Prism, q: Prism): Vec3 => {
  const middle = (axis: Vec3): number => {
    const [a, b] = [spanOf(axis, p.corners), spanOf(axis, q.corners)];
    return (Math.max(a[0], b[0]) + Math.min(a[1], b[1])) / 2;
  };
  return [middle([1, 0, 0]), middle([0, 1, 0]), middle([0, 0, 1])];
};
