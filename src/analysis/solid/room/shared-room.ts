/** Metal that takes the same room. */
import { boxesOfPolygons, indexBoxes } from '../../geometry/box-index.js';
import { pointToSegment } from '../../geometry/gap-between.js';
import { areaVector } from '../../geometry/polygon.js';
import { SAME_DIRECTION, SAME_POINT } from '../../geometry/tolerance.js';
import { dot, scale, subtract, type Vec3 } from '../../geometry/vec.js';
import { memoBy } from '../../cache/memo.js';
import type { FlatPattern, FoldedPart } from '../../fold/flat-pattern.js';
import type { FaceContact } from '../../join/faces/face-contact.js';
import { allFastenersOf } from '../../join/frame-fasteners.js';
import type { StrainerFrame } from '../../join/fasteners/strainer-frame.js';
import type { SeamJoint } from '../../join/seam-joint.js';
import type { Tub } from '../../model/tub.js';
import { faultsOfKind } from '../../shape/faults-of-kind.js';
import { laidTogether } from '../../shape/laid/laid-together.js';
import type { Face, FaceIndex, Shape } from '../../shape/shape.js';
import { clearanceOfBodies } from './clearance.js';
import { isItsOwnHole } from './own-hole.js';
import { mayShare, overlapOf, type Overlap, type SharedPlace } from './overlap.js';
import { leastMoveOutOf } from './out-of-thing.js';
import { bodyOfPrisms, boundsOf, type Body } from '../bodies/prisms.js';
import { bodiesOfThing, isWithinThing } from '../bodies/thing-bodies.js';
import {
  metalOfFastener,
  metalOfOutlets,
  metalOfPart,
  metalOfRun,
  metalOfThing,
  type Metal,
  type RoomTaker,
} from './room-takers.js';

export interface SharedRoom extends Pick<Overlap, 'point'> {
  /** How far one must go to be clear of the other, mm; of a thing of another file how far it is in, at least. */
  readonly depth: number;
  readonly takers: readonly [RoomTaker, RoomTaker];
  /** The panels that each is of; none of what joins them. */
  readonly panels: readonly [readonly FaceIndex[], readonly FaceIndex[]];
}

export interface RoomQuestion {
  readonly tub: Tub;
  readonly shape: Shape;
  readonly flats: readonly (FlatPattern | undefined)[];
  /** Those of the flats, and then slabs that have none. */
  readonly folded: readonly (FoldedPart | undefined)[];
  readonly seams: readonly SeamJoint[];
  readonly faces: readonly FaceContact[];
  readonly frames: readonly StrainerFrame[];
}

/**
 * Pairs that share room: panels, bends and hems as they are folded, and these with clips, tabs, rivets and screws that hold others; each pair once,
 * and a bend or a hem only where its panels are not told already. Where two panels meet along an edge, what becomes of their metal
 * within a few thicknesses of it is settled when it is joined. Cost: O(n log n) in panels and rows, and the triangles of
 * those whose boxes overlap.
 */
export function* sharedRoomOf({
  tub,
  shape,
  flats,
  folded,
  seams,
  faces,
  frames,
}: RoomQuestion): Generator<void, readonly SharedRoom[]> {
  const metals: Metal[] = [];
  for (const [i, part] of folded.entries()) {
    if (part) metals.push(...metalOfPart(part, flats[i]));
    yield;
  }
  for (const [i, { mesh }] of (tub.things ?? []).entries()) metals.push(...metalOfThing(mesh, i));
  for (const { runs } of seams) for (const run of runs) metals.push(...metalOfRun(tub, run));
  // Of a frame that reaches past its panel that is told.
  const lying = frames.filter(({ room }) => room >= 0);
  metals.push(...metalOfOutlets(tub, shape, lying));
  for (const each of allFastenersOf(tub, shape, { seams, faces, frames: lying })) metals.push(...metalOfFastener(each));
  if (metals.length < 2) return [];
  const search = indexBoxes(boxesOfPolygons(metals.map(({ body }) => [body.low, body.high])));
  const isUnsure = turnedInsideOut(shape);
  const found: Found[] = [];
  for (const [i, one] of metals.entries()) {
    yield;
    const { low, high } = one.body;
    const near = search(
      low[0],
      low[1],
      high[0],
      high[1],
      (j) => j > i && metals[j].body.low[2] <= high[2] && metals[j].body.high[2] >= low[2],
    );
    for (const j of near) {
      const other = metals[j];
      const overlap =
        'seam' in other.taker ? joinersShare(one, other) : sheetsShare({ tub, shape }, [one, other], isUnsure);
      if (!overlap || isItsOwnHole({ tub, shape }, [one, other], overlap)) continue;
      const { least, point } = overlap;
      const depth = depthIn(tub, one, other) ?? overlap.depth;
      found.push({ takers: [one.taker, other.taker], panels: [panelsOf(one), panelsOf(other)], least, depth, point });
    }
  }
  found.push(...swallowed(tub, metals, found));
  return oncePerPair(found);
}

interface Found extends Omit<SharedRoom, 'depth'>, Pick<Overlap, 'least' | 'depth'> {}

/** Of metal in a thing of another file; undefined: neither is one. */
const depthIn = ({ things = [] }: Tub, one: Metal, other: Metal): (() => number) | undefined => {
  const [thing, metal] = one.taker.kind === 'thing' ? [one.taker, other] : [other.taker, one];
  if (thing.kind !== 'thing') return undefined;
  return () => leastMoveOutOf(metal.body, things[thing.thing].mesh);
};

/** Metal that lies wholly within a closed thing, so that it meets none of its triangles. */
const swallowed = (tub: Tub, metals: readonly Metal[], found: readonly Found[]): readonly Found[] =>
  (tub.things ?? []).flatMap(({ mesh }, thing): Found[] => {
    if (!mesh.isClosed) return [];
    const { low, high } = boundsOf(mesh.positions);
    const taker: RoomTaker = { kind: 'thing', thing };
    const told = new Set(
      found.flatMap(({ takers }) => (takers.some((each) => keyOf(each) === keyOf(taker)) ? takers.map(keyOf) : [])),
    );
    return metals.flatMap((one): Found[] => {
      const { body } = one;
      const isInBox = [0, 1, 2].every((k) => body.low[k] >= low[k] && body.high[k] <= high[k]);
      if (one.taker.kind === 'thing' || told.has(keyOf(one.taker)) || !isInBox) return [];
      const [point] = body.corners;
      if (!isWithinThing(mesh, point)) return [];
      const least = Math.abs(clearanceOfBodies([body], bodiesOfThing(mesh)) ?? 0);
      const depth = (): number => leastMoveOutOf(body, mesh);
      return [{ takers: [one.taker, taker], panels: [panelsOf(one), []], least, depth, point }];
    });
  });

const panelsOf = ({ taker, faces }: Metal): readonly FaceIndex[] => ('seam' in taker ? [] : faces);

/** Thicknesses around an open edge along which panels meet: what becomes of their metal there is settled when they are joined. */
const EDGE_REACH = 3;

const sheetsShare = (
  { tub, shape }: Pick<RoomQuestion, 'tub' | 'shape'>,
  pair: readonly [Metal, Metal],
  isUnsure: (face: FaceIndex) => boolean,
): Overlap | undefined => {
  const [a, b] = pair;
  if (
    a.taker.kind === 'panel'
      ? b.faces.includes(a.taker.face)
      : b.taker.kind === 'panel' && a.faces.includes(b.taker.face)
  )
    return undefined;
  if (a.taker.kind === 'thing' && b.taker.kind === 'thing') return undefined;
  if (keyOf(a.taker) === keyOf(b.taker)) return undefined;
  const overlap = isTheSame(tub, shape, pair) ? overlapOf(a.body, turnedOver(b)) : bothShare(a, b);
  if (!overlap) return undefined;
  if (a.faces.some(isUnsure) && b.faces.some(isUnsure)) return undefined;
  const open = openEdgesBetween(shape, pair);
  const reach = EDGE_REACH * (a.body.thickness + b.body.thickness) + sharpCornerOf(shape, a) + sharpCornerOf(shape, b);
  const toEdge = (point: Vec3): number =>
    open.reduce((least, [start, end]) => Math.min(least, pointToSegment(point, start, end)), Infinity);
  const isAtEdge = ({ about, within, exact }: SharedPlace): boolean => {
    const far = toEdge(about);
    return far + within <= reach || (far - within <= reach && toEdge(exact()) <= reach);
  };
  return overlap.places.every(isAtEdge) ? undefined : overlap;
};

/** Is one the other over again? Their edges meet, so that their wet sides were turned to one another, though they are stated alike. */
const isTheSame = (tub: Tub, shape: Shape, [a, b]: readonly [Metal, Metal]): boolean => {
  if (a.taker.kind !== 'panel' || b.taker.kind !== 'panel') return false;
  if (laidTogether(tub)(a.taker.face, b.taker.face)) return false;
  const { panels } = tub;
  const [one, other] = [a.taker.face, b.taker.face].map((face) => shape.faces[face]);
  if (!faceOneAnother(one, other) || edgesBetween(shape, one.panel, other.panel).length === 0) return false;
  const isBent = one.stretches
    .flat()
    .some(({ bend }) => bend !== undefined && shape.bends[bend].faces.includes(other.panel));
  // A panel by points is taken as its corners run.
  const [way, otherWay] = [one, other].map(({ panel }) => panels[panel].facing ?? areaVector(panels[panel].corners));
  return !isBent && dot(way, otherWay) > 0;
};

/** In one plane, wet side on wet side. */
const faceOneAnother = ({ frame }: Face, { frame: other }: Face): boolean =>
  dot(frame.normal, other.normal) <= -1 + SAME_DIRECTION &&
  Math.abs(dot(frame.normal, subtract(other.origin, frame.origin))) <= SAME_POINT;

/** With its metal on the other side of its wet face. */
const turnedOver = ({ body }: Metal): Body => {
  const over = scale(body.faces[0], body.thickness);
  const prisms = body.prisms.map((prism) => ({
    ...prism,
    corners: prism.corners.map((corner) => subtract(corner, over)),
  }));
  return bodyOfPrisms(prisms, body.faces, body.thickness);
};

type Line = readonly [Vec3, Vec3];

/** The edges along which the panels that both are of meet, but for those that a bend or seam joins: these are cut to fit. */
const openEdgesBetween = (shape: Shape, [a, b]: readonly [Metal, Metal]): readonly Line[] =>
  a.faces.flatMap((one) => b.faces.flatMap((other) => (one === other ? [] : edgesBetween(shape, one, other))));

const edgesBetween = ({ faces, bends }: Shape, face: FaceIndex, other: FaceIndex): readonly Line[] =>
  faces[face].stretches.flatMap((list) =>
    list.flatMap(({ mates, bend, seams, start, end }): Line[] => {
      if (bend !== undefined && bends[bend].faces.includes(other)) return [];
      const mate = mates.find((each) => each.face === other);
      if (!mate) return [];
      const theirs = faces[other].stretches[mate.edge][mate.stretch].seams;
      return seams.some((seam) => theirs.includes(seam)) ? [] : [[start, end]];
    }),
  );

/** From the sharp corner of a bend to its metal, mm. */
const sharpCornerOf = (shape: Shape, { taker }: Metal): number => {
  if (taker.kind !== 'bend') return 0;
  const { radius, thickness, angle } = shape.bends[taker.bend];
  return (radius + thickness) * (1 / Math.cos(angle / 2) - 1);
};

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
const isHeldBy = ({ taker, faces }: Metal, other: Metal): boolean =>
  'seam' in taker
    ? 'seam' in other.taker && taker.seam === other.taker.seam
    : taker.kind === 'panel' && other.faces.includes(faces[0]);

const joinersShare = (a: Metal, b: Metal): Overlap | undefined =>
  isHeldBy(a, b) || !mayShare(a.body, b.body) ? undefined : eachShares(a)(b);

/** Kept for every pair, as long as both are the same objects. */
const bothShare = (a: Metal, b: Metal): Overlap | undefined =>
  mayShare(a.body, b.body) ? overlapKept(a)(b) : undefined;

const overlapKept = memoBy((a: Metal) => memoBy((b: Metal) => overlapOf(a.body, b.body)));

const eachShares = memoBy((a: Metal) =>
  memoBy((b: Metal): Overlap | undefined => {
    if (!overlapOf(a.body, b.body)) return undefined;
    const all = (a.legs?.each() ?? [a.body]).flatMap((one) =>
      (b.legs?.each() ?? [b.body]).flatMap((other) => overlapOf(one, other) ?? []),
    );
    return all.length === 0 ? undefined : all.reduce((most, each) => (each.least > most.least ? each : most));
  }),
);

/** Of each pair of takers the deepest; of bends and hems only where no panels of both are told. */
const oncePerPair = (found: readonly Found[]): readonly SharedRoom[] => {
  const deepest = new Map<string, Found>();
  for (const each of found) {
    const key = each.takers.map(keyOf).join();
    const known = deepest.get(key);
    if (!known || each.least > known.least) deepest.set(key, each);
  }
  const told = [...deepest.values()].filter(({ takers, panels }) => {
    if (!takers.some(({ kind }) => kind === 'bend' || kind === 'hem')) return true;
    const [ones, others] = takers.map((taker, i) =>
      'seam' in taker ? [keyOf(taker)] : panels[i].map((face) => keyOf({ kind: 'panel', face })),
    );
    return !ones.some((one) =>
      others.some((other) => deepest.has(`${one},${other}`) || deepest.has(`${other},${one}`)),
    );
  });
  return told.map(({ takers, panels, point, depth }) => ({ takers, panels, point, depth: depth() }));
};

const keyOf = (taker: RoomTaker): string => {
  switch (taker.kind) {
    case 'panel':
      return `panel ${taker.face}`;
    case 'bend':
      return `bend ${taker.bend}`;
    case 'hem':
      return `hem ${taker.rim}`;
    case 'thing':
      return `thing ${taker.thing}`;
    case 'lip':
    case 'frame':
      return `${taker.kind} ${taker.outlet}`;
    default:
      return `seam ${taker.seam}`;
  }
};
