/** Panels whose metal takes the same room. */
import { boxesOfPolygons, indexBoxes } from '../geometry/box-index.js';
import { SAME_POINT } from '../geometry/tolerance.js';
import { distance, type Vec3 } from '../geometry/vec.js';
import { keepBy, memoBy } from '../cache/memo.js';
import type { FoldedPart } from '../fold/flat-pattern.js';
import type { FaceIndex, Shape } from '../shape/shape.js';
import { bodiesOf, depthOf, overlapAlong, spanOf, type Body, type Prism } from './prisms.js';

export interface SharedRoom {
  readonly faces: readonly [FaceIndex, FaceIndex];
  /** How far one would have to move to be clear of the other where they overlap most, mm. */
  readonly depth: number;
  /** In the middle of what they share there. */
  readonly point: Vec3;
}

/** mm. Metal that overlaps by less gives way when it is bent and joined. Common practice, no source. */
const LEAST_SHARED = 0.1;

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

interface Overlap extends Pick<SharedRoom, 'depth' | 'point'> {
  /** Middles of all that prisms of both share. */
  readonly places: readonly Vec3[];
}

const overlapFor = keepBy<Slab, Overlap | undefined>();

/** A plate of a panel. */
type Slab = Body & { readonly face: FaceIndex };

const slabsOf = memoBy((part: FoldedPart): readonly Slab[] =>
  bodiesOf(part).flatMap((body) => (body.face === undefined ? [] : [{ ...body, face: body.face }])),
);

const overlapOf = (a: Slab, b: Slab): Overlap | undefined => {
  // Most neighbours lie wholly on one side of one another.
  if ([...a.faces, ...b.faces].some((axis) => overlapAlong(axis, a.corners, b.corners) <= LEAST_SHARED))
    return undefined;
  const places: { readonly depth: number; readonly point: Vec3 }[] = [];
  for (const p of a.prisms) {
    for (const q of b.prisms) {
      const depth = depthOf(p, q, LEAST_SHARED);
      if (depth > LEAST_SHARED) places.push({ depth, point: middleOf(p, q) });
    }
  }
  if (places.length === 0) return undefined;
  const { depth, point } = places.reduce((most, each) => (each.depth > most.depth ? each : most));
  return { depth, point, places: places.map((each) => each.point) };
};

/** Of the box that both are in. */
const middleOf = (p: Prism, q: Prism): Vec3 => {
  const middle = (axis: Vec3): number => {
    const [a, b] = [spanOf(axis, p.corners), spanOf(axis, q.corners)];
    return (Math.max(a[0], b[0]) + Math.min(a[1], b[1])) / 2;
  };
  return [middle([1, 0, 0]), middle([0, 1, 0]), middle([0, 0, 1])];
};
