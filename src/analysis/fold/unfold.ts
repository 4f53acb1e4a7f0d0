import { addScaled, scale, subtract2, type Vec2 } from '../geometry/vec.js';
import { toPlane, type Frame } from '../geometry/frame.js';
import { mapContour, reverseLine, straightContour } from '../geometry/contour.js';
import type { Tub } from '../model/tub.js';
import type { Face, FaceIndex, Shape } from '../shape/shape.js';
import type { FlatBend, FlatHole, FlatPanel, FlatPattern, Part } from './flat-pattern.js';
import type { ContourVertex } from '../geometry/contour.js';
import { clearTips } from './trim/clear-tips.js';
import { cutNotches } from './trim/cut-notches.js';
import { crossingsOf, type LaidZone, type ZoneCrossing } from './zone/cross-zone.js';
import { hemPieces } from './hem-pieces.js';
import { layOpenings } from './lay-openings.js';
import { findOverlap } from './overlap.js';
import { regionOf, trimFace, type BendItem, type LoopItem } from './trim/trim-face.js';
import type { FlatFault, FlatPlacement, Unfolded } from './unfolded.js';

/** A rigid placement of a face's frame in the flat, both seen from the wet side. */
interface Placement {
  readonly turn: number;
  readonly origin: Vec2;
}

interface OutlineVertex extends ContourVertex {
  readonly face: FaceIndex;
}

/**
 * Lays one part flat.
 *
 * The root panel lies where its own frame has it; each child follows, turned about its sharp edge and drawn in by the bend
 * deduction. The outline runs once around the whole tree and crosses each bend zone from tangent point to tangent point: along
 * the section of the panel that closes the strip there, else straight. All of it is then turned over, dry side up. `flat` is
 * undefined when a leg is too short to exist.
 * Cost: O(n log n) in corners (the overlap test). Accuracy: double precision, about 1e-13 of the part's size per bend.
 */
export const unfoldPart = (tub: Tub, shape: Shape, part: Part): Unfolded => {
  const trimmed = new Map(part.faces.map((face) => [face, trimFace(tub, shape, shape.faces[face])]));
  const faults: FlatFault[] = [...trimmed.values()].flatMap((face) => face.faults);
  const reliefs = [...trimmed.values()].flatMap((face) => face.reliefs);
  const placements = placeFaces(shape, part);
  const toFlat = new Map([...placements].map(([face, placement]) => [face, dryView(placement)]));
  if (faults.length > 0) return { flat: undefined, faults, reliefs, toFlat };

  const lay = (face: FaceIndex, point: Vec2): Vec2 => applyPlacement(placements.get(face)!, point);
  const back = (face: FaceIndex, point: Vec2): Vec2 => undoPlacement(placements.get(face)!, point);
  const cleared = clearTips(shape, trimmed, { put: lay, back });
  const notched = new Map(part.faces.map((face) => [face, cutNotches(shape.faces[face], cleared.get(face)!)]));
  const items = new Map([...notched].map(([face, each]) => [face, each.items]));
  const pieces = outlineOf(shape, part, items, lay);
  const holes = part.faces.map((face) =>
    layOpenings(shape.faces[face], notched.get(face)!, (p) => turnOver(lay(face, p))),
  );
  faults.push(...holes.flatMap((found) => found.faults));
  const overlap = findOverlap(pieces.outline);
  if (overlap) faults.push({ kind: 'overlap', faces: overlap });
  const flat: FlatPattern = {
    name: part.name,
    part: part.index,
    sheet: part.sheet,
    thickness: part.thickness,
    quantity: 1,
    outline: mapContour(
      pieces.outline.map(({ x, y, bulge }) => ({ x, y, bulge })),
      turnOver,
    ),
    holes: holes.flatMap((found): readonly FlatHole[] => found.holes),
    bends: pieces.bends,
    panels: pieces.panels,
    marks: [],
    place: dryFrame(shape.faces[part.faces[0]], part.thickness),
    ...(shape.lean && { lean: shape.lean }),
  };
  return { flat, faults, reliefs, toFlat };
};

const turnOver = ([x, y]: Vec2): Vec2 => [-x, y];

/** Frame of the root's dry face whose coordinates are those of the flat. */
const dryFrame = ({ frame }: Face, thickness: number): Frame => ({
  origin: addScaled(frame.origin, frame.normal, -thickness),
  u: scale(frame.u, -1),
  v: frame.v,
  normal: scale(frame.normal, -1),
});

const applyPlacement = ({ turn, origin }: Placement, [x, y]: Vec2): Vec2 => {
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  return [origin[0] + c * x - s * y, origin[1] + s * x + c * y];
};

const undoPlacement = ({ turn, origin }: Placement, point: Vec2): Vec2 => {
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  const [x, y] = subtract2(point, origin);
  return [c * x + s * y, c * y - s * x];
};

const dryView = (placement: Placement): FlatPlacement => {
  const origin = turnOver(applyPlacement(placement, [0, 0]));
  const axis = (tip: Vec2): Vec2 => subtract2(turnOver(applyPlacement(placement, tip)), origin);
  return { origin, u: axis([1, 0]), v: axis([0, 1]) };
};

const placeFaces = (shape: Shape, part: Part): Map<FaceIndex, Placement> => {
  const placements = new Map<FaceIndex, Placement>([[part.faces[0], { turn: 0, origin: [0, 0] }]]);
  part.bends.forEach((index, i) => {
    const bend = shape.bends[index];
    const child = part.faces[i + 1];
    const parent = bend.faces[0] === child ? bend.faces[1] : bend.faces[0];
    const [start, end] = parent === bend.faces[0] ? [bend.start, bend.end] : [bend.end, bend.start];
    const at = placements.get(parent)!;
    const inParent = [start, end].map((p) => applyPlacement(at, toPlane(shape.faces[parent].frame, p)));
    const inChild = [start, end].map((p) => toPlane(shape.faces[child].frame, p));
    const heading = directionOf(inParent[0], inParent[1]);
    const turn = heading - directionOf(inChild[0], inChild[1]);
    // The parent's metal lies to the left; the child is drawn that way by the deduction.
    const inward: Vec2 = [-Math.sin(heading) * bend.deduction, Math.cos(heading) * bend.deduction];
    const turned = applyPlacement({ turn, origin: [0, 0] }, inChild[0]);
    placements.set(child, {
      turn,
      origin: [inParent[0][0] + inward[0] - turned[0], inParent[0][1] + inward[1] - turned[1]],
    });
  });
  return placements;
};

const directionOf = (from: Vec2, to: Vec2): number => Math.atan2(to[1] - from[1], to[0] - from[0]);

interface OutlinePieces {
  readonly outline: readonly OutlineVertex[];
  readonly bends: readonly FlatBend[];
  readonly panels: readonly FlatPanel[];
}

/** A walk around the tree of faces, and what it has made so far. */
interface Walk {
  readonly shape: Shape;
  readonly itemsOf: ItemsOf;
  readonly lay: (face: FaceIndex, point: Vec2) => Vec2;
  readonly panelOf: ReadonlyMap<FaceIndex, number>;
  readonly outline: OutlineVertex[];
  readonly bends: FlatBend[];
  readonly panels: FlatPanel[];
  readonly visits: Visit[];
}

/** One walk around the tree of faces; no recursion, as a strip may have thousands of legs. */
const outlineOf = (shape: Shape, part: Part, itemsOf: ItemsOf, lay: Walk['lay']): OutlinePieces => {
  const panels = part.faces.map((face): FlatPanel => ({
    name: shape.faces[face].name,
    face,
    isSeamed: shape.faces[face].stretches.some((edge) => edge.some(({ seams }) => seams.length > 0)),
    region: mapContour(regionOf(itemsOf.get(face)!), (p) => turnOver(lay(face, p))),
  }));
  const panelOf = new Map(part.faces.map((face, i) => [face, i]));
  const root: Visit = { face: part.faces[0], entry: -1, back: undefined, done: 0 };
  const walk: Walk = { shape, itemsOf, lay, panelOf, outline: [], bends: [], panels, visits: [root] };
  while (walk.visits.length > 0) goOn(walk, walk.visits[walk.visits.length - 1]);
  return walk;
};

/** The next item of the face, or back to where it was reached from. */
const goOn = (walk: Walk, visit: Visit): void => {
  const items = walk.itemsOf.get(visit.face)!;
  const count = visit.entry < 0 ? items.length : items.length - 1;
  if (visit.done === count) {
    walk.visits.pop();
    if (visit.back) putCrossing(walk, visit.face, visit.back.to, visit.back.vertices);
    return;
  }
  const item = items[placeIn(visit, items.length)];
  visit.done++;
  if (item.kind === 'vertex') put(walk, visit.face, [item.vertex.x, item.vertex.y], item.vertex.bulge);
  else if (item.kind === 'hem') putHem(walk, visit.face, item);
  else crossBend(walk, visit.face, item);
};

const put = ({ lay, outline }: Walk, face: FaceIndex, point: Vec2, bulge = 0): void => {
  const [x, y] = lay(face, point);
  outline.push({ x, y, bulge, face });
};

const putCrossing = ({ outline }: Walk, from: FaceIndex, to: FaceIndex, vertices: readonly ContourVertex[]): void => {
  vertices.forEach(({ x, y, bulge }, i) => {
    outline.push({ x, y, bulge, face: i === vertices.length - 1 ? to : from });
  });
};

const putHem = (walk: Walk, face: FaceIndex, item: Extract<LoopItem, { kind: 'hem' }>): void => {
  const { shape, lay, panels, panelOf, bends } = walk;
  const hem = hemPieces(item, shape.faces[face].name, panels.length, panelOf.get(face)!);
  for (const corner of hem.outline) put(walk, face, corner);
  const toFlat = (p: Vec2): Vec2 => turnOver(lay(face, p));
  panels.push({ ...hem.panel, region: mapContour(straightContour(hem.lip), toFlat) });
  bends.push(mapBend(hem.bend, toFlat));
};

/** Over a bend to the face beyond it, which is walked around next. */
const crossBend = (walk: Walk, face: FaceIndex, item: BendItem): void => {
  const { shape, itemsOf, lay, panelOf, bends, visits } = walk;
  const [a, b] = shape.bends[item.bend].faces;
  const child = a === face ? b : a;
  const entry = itemsOf.get(child)!.findIndex((i) => i.kind === 'bend' && i.bend === item.bend);
  const inChild = itemsOf.get(child)![entry] as BendItem;
  const zone = {
    parent: [lay(face, item.from), lay(face, item.to)],
    child: [lay(child, inChild.to), lay(child, inChild.from)],
  } as const;
  const ends = crossingsOf(shape, face, item, inChild, zone);
  putCrossing(walk, face, child, ends[0].vertices);
  bends.push({ ...flatBendOf(shape, item.bend, zone, ends), parent: panelOf.get(face)!, child: panelOf.get(child)! });
  visits.push({ face: child, entry, back: { to: face, vertices: reverseLine(ends[1].vertices) }, done: 0 });
};

type ItemsOf = ReadonlyMap<FaceIndex, readonly LoopItem[]>;

/** A face on the way around: `entry` is the item by which it was reached, `done` how many after it are done. */
interface Visit {
  readonly face: FaceIndex;
  readonly entry: number;
  /** The way back over the bend by which it was reached; undefined for the root. */
  readonly back: { readonly to: FaceIndex; readonly vertices: readonly ContourVertex[] } | undefined;
  done: number;
}

const placeIn = ({ entry, done }: Visit, count: number): number => (entry + 1 + done) % count;

const flatBendOf = (
  shape: Shape,
  index: number,
  laid: LaidZone,
  ends: readonly [ZoneCrossing, ZoneCrossing],
): Omit<FlatBend, 'parent' | 'child'> => {
  const bend = shape.bends[index];
  // Turned over, the walk runs clockwise: swap the ends to keep the parent's metal to the left.
  const [p0, p1] = [turnOver(laid.parent[1]), turnOver(laid.parent[0])];
  const [c0, c1] = [turnOver(laid.child[1]), turnOver(laid.child[0])];
  return {
    bend: index,
    name: bend.name,
    start: turnOver(ends[1].middle),
    end: turnOver(ends[0].middle),
    tangents: [
      [p0, p1],
      [c0, c1],
    ],
    allowance: bend.allowance,
    angle: bend.angle,
    // Seen from the dry side, a bend with the wet face outside comes up.
    direction: bend.wet === 'outside' ? 'up' : 'down',
    radius: bend.radius,
    kFactor: bend.kFactor,
  };
};

/** A hem's bend from its face's frame to the flat, ends swapped as above. */
const mapBend = (bend: FlatBend, map: (point: Vec2) => Vec2): FlatBend => ({
  ...bend,
  start: map(bend.end),
  end: map(bend.start),
  tangents: [
    [map(bend.tangents[0][1]), map(bend.tangents[0][0])],
    [map(bend.tangents[1][1]), map(bend.tangents[1][0])],
  ],
});
