/** Metal that takes the same room: panels, and legs of clips and tabs. */
import { boxesOfPolygons, indexBoxes } from '../geometry/box-index.js';
import { pointToSegment } from '../geometry/gap-between.js';
import { SAME_POINT } from '../geometry/tolerance.js';
import { distance, type Vec3 } from '../geometry/vec.js';
import { memoBy } from '../cache/memo.js';
import type { FoldedPart } from '../fold/flat-pattern.js';
import { seamFastenersOf, type SeamFastener } from '../join/fasteners/seam-fasteners.js';
import type { SeamJoint } from '../join/seam-joint.js';
import type { Tub } from '../model/tub.js';
import { faultsOfKind } from '../shape/faults-of-kind.js';
import type { FaceIndex, Shape } from '../shape/shape.js';
import { fastenerBodies } from './fastener-bodies.js';
import { legsOf, type Legs } from './fastened-legs.js';
import { bodiesOf, depthOf, overlapAlong, spanOf, type Body, type Prism } from './prisms.js';

/** A panel, or the clips, tabs, or rivets or screws of a seam (index into `Tub.seams`). */
export type RoomTaker =
  | { readonly kind: 'panel'; readonly face: FaceIndex }
  | { readonly kind: 'clips' | 'tabs' | 'fasteners'; readonly seam: number };

export interface SharedRoom {
  readonly takers: readonly [RoomTaker, RoomTaker];
  /** How far one would have to move to be clear of the other where they overlap most, mm. */
  readonly depth: number;
  /** In the middle of what they share there. */
  readonly point: Vec3;
}

/** mm. Metal that overlaps by less gives way when it is bent and joined. Common practice, no source. */
const LEAST_SHARED = 0.1;

export interface RoomQuestion {
  readonly tub: Tub;
  readonly shape: Shape;
  readonly folded: readonly (FoldedPart | undefined)[];
  readonly seams: readonly SeamJoint[];
}

/**
 * Pairs of panels that share room, as they are folded, and of panels with legs of clips and tabs that hold others; each pair once.
 * Where two panels meet along an edge, what becomes of their metal within a few thicknesses of it is the business of their bend
 * or seam. Cost: O(n log n) in panels and rows, and the triangles of those whose boxes overlap.
 */
export function* sharedRoomOf({ tub, shape, folded, seams }: RoomQuestion): Generator<void, readonly SharedRoom[]> {
  const slabs: Slab[] = [];
  for (const part of folded) {
    if (part) slabs.push(...slabsOf(part));
    yield;
  }
  const panels = slabs.length;
  for (const { runs } of seams) for (const run of runs) slabs.push(...legsOf(tub, run).map(slabOfLegs));
  for (const each of seamFastenersOf(tub, { seams })) slabs.push(...slabsOfFastener(each));
  if (slabs.length < 2) return [];
  const search = indexBoxes(boxesOfPolygons(slabs.map(({ body }) => body.corners)));
  const isUnsure = turnedInsideOut(shape);
  const found: SharedRoom[] = [];
  for (const [i, slab] of slabs.entries()) {
    yield;
    const { low, high } = slab.body;
    const near = search(
      low[0],
      low[1],
      high[0],
      high[1],
      (j) => j > i && slabs[j].body.low[2] < high[2] && slabs[j].body.high[2] > low[2],
    );
    for (const j of near) {
      const other = slabs[j];
      const overlap = j < panels ? panelsShare(shape, [slab, other], isUnsure) : legsShare(slab, other);
      if (overlap) found.push({ takers: [takerOf(slab), takerOf(other)], depth: overlap.depth, point: overlap.point });
    }
  }
  return oncePerSeam(found);
}

/** A plate of a panel, or a row of legs. */
interface Slab {
  readonly body: Body;
  readonly face: FaceIndex | undefined;
  readonly legs: Legs | undefined;
  /** A piece of a rivet or screw. */
  readonly fastener?: SeamFastener;
}

const slabsOf = memoBy((part: FoldedPart): readonly Slab[] =>
  bodiesOf(part).flatMap((body) => (body.face === undefined ? [] : [{ body, face: body.face, legs: undefined }])),
);

const slabOfLegs = memoBy((legs: Legs): Slab => ({ body: legs.band, face: undefined, legs }));

const slabsOfFastener = memoBy((fastener: SeamFastener): readonly Slab[] =>
  fastenerBodies(fastener)
    .flatMap(bodiesOf)
    .map((body) => ({ body, face: undefined, legs: undefined, fastener })),
);

const takerOf = ({ face, legs, fastener }: Slab): RoomTaker =>
  fastener
    ? { kind: 'fasteners', seam: fastener.index }
    : legs
      ? { kind: legs.row.tabs.on === 'loose' ? 'clips' : 'tabs', seam: legs.seam }
      : { kind: 'panel', face: face! };

/** Thicknesses around a common corner or edge within which metal is that of the corner, which bends, reliefs and seams see to. */
const CORNER_REACH = 3;

const panelsShare = (
  shape: Shape,
  [a, b]: readonly [Slab, Slab],
  isUnsure: (face: FaceIndex) => boolean,
): Overlap | undefined => {
  const [one, other] = [a.face!, b.face!];
  if (one === other) return undefined;
  const overlap = platesShare(a)(b);
  if (!overlap) return undefined;
  const edges = edgesBetween(shape, one, other);
  if (edges.length > 0 && isUnsure(one)) return undefined;
  const reach = CORNER_REACH * (a.body.thickness + b.body.thickness);
  const corners = shape.faces[one].corners.filter((p) =>
    shape.faces[other].corners.some((q) => distance(p, q) <= SAME_POINT),
  );
  const isAtJoin = (point: Vec3): boolean =>
    corners.some((corner) => distance(point, corner) <= reach) ||
    edges.some(([start, end]) => pointToSegment(point, start, end) <= reach);
  return overlap.places.every(isAtJoin) ? undefined : overlap;
};

const edgesBetween = (shape: Shape, face: FaceIndex, other: FaceIndex): readonly (readonly [Vec3, Vec3])[] =>
  shape.faces[face].stretches.flatMap((list) =>
    list.flatMap(({ mates, start, end }): (readonly [Vec3, Vec3])[] =>
      mates.some((mate) => mate.face === other) ? [[start, end]] : [],
    ),
  );

/** Faces that hang together with some whose wet sides cannot meet: on which side their metal lies is not known. */
const turnedInsideOut = (shape: Shape): ((face: FaceIndex) => boolean) => {
  const unsure = new Set(faultsOfKind(shape, 'wet-side-conflict').flatMap(({ panels }) => panels));
  for (const face of unsure) {
    for (const list of shape.faces[face].stretches)
      for (const { mates } of list) for (const mate of mates) unsure.add(mate.face);
  }
  return (face) => unsure.has(face);
};

/** Legs, rivets and screws belong to both panels that they join; all of one seam are kept off one another where they are laid out. */
const isHeldBy = ({ face, legs, fastener: own }: Slab, { legs: row, fastener }: Slab): boolean => {
  if (face !== undefined) return (fastener ?? row)!.faces.includes(face);
  const seam = fastener?.index ?? row!.seam;
  return (own?.index ?? legs!.seam) === seam;
};

const legsShare = (a: Slab, b: Slab): Overlap | undefined => (isHeldBy(a, b) ? undefined : eachShares(a)(b));

/** Kept for every pair, as long as both are the same objects. */
const platesShare = memoBy((a: Slab) => memoBy((b: Slab) => overlapOf(a.body, b.body)));

const eachShares = memoBy((a: Slab) =>
  memoBy((b: Slab): Overlap | undefined => {
    if (!overlapOf(a.body, b.body)) return undefined;
    const all = (a.legs?.each() ?? [a.body]).flatMap((one) =>
      (b.legs?.each() ?? [b.body]).flatMap((other) => overlapOf(one, other) ?? []),
    );
    return all.length === 0 ? undefined : all.reduce((most, each) => (each.depth > most.depth ? each : most));
  }),
);

/** Of each pair of takers the deepest. */
const oncePerSeam = (found: readonly SharedRoom[]): readonly SharedRoom[] => {
  const deepest = new Map<string, SharedRoom>();
  for (const each of found) {
    const key = each.takers.map((taker) => (taker.kind === 'panel' ? taker.face : `seam ${taker.seam}`)).join();
    const known = deepest.get(key);
    if (!known || each.depth > known.depth) deepest.set(key, each);
  }
  return [...deepest.values()];
};

interface Overlap extends Pick<SharedRoom, 'depth' | 'point'> {
  /** Middles of all that prisms of both share. */
  readonly places: readonly Vec3[];
}

const overlapOf = (a: Body, b: Body): Overlap | undefined => {
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
