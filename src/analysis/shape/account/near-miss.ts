import { indexBoxes } from '../../geometry/box-index.js';
import { heightOver, toPlane } from '../../geometry/frame.js';
import { distanceToSegment, isInside } from '../../geometry/polygon.js';
import { addScaled, distance, dot, lerp, scale, subtract, type Vec3 } from '../../geometry/vec.js';
import { keepBy, memoBy } from '../../cache/memo.js';
import { indexFaces } from '../face-index.js';
import type { Face, FaceIndex, Shape, Stretch } from '../shape.js';
import { SAME_POINT } from '../../geometry/tolerance.js';

/** An edge that another panel passes close by. */
export interface NearMiss {
  readonly face: FaceIndex;
  /** Edge that is missed; undefined: it stands against the panel's face, away from its edges. */
  readonly edge: number | undefined;
  /** The length over which they are near, on the missed edge. */
  readonly start: Vec3;
  readonly end: Vec3;
  /** Least and largest distance over that length, mm. */
  readonly least: number;
  readonly most: number;
}

/** mm. Edges nearer than this were meant to meet: more than any bead bridges, less than a gap is left wide on purpose. */
export const NEARLY_MEETS = 6;

/** Cosine of the largest angle between two edges that still run side by side: 20 deg. */
const SIDE_BY_SIDE = Math.cos((20 * Math.PI) / 180);

/** Misses by the stretch that is passed. */
export type NearMisses = ReadonlyMap<Stretch, NearMiss>;

/**
 * Per face, for each of its stretches that stands alone the edge of another panel that runs alongside within 6 mm without
 * touching.
 *
 * Panels that are joined to the stretch's own panel, or lie on it, are left out: a short flange's edge is always near the panel it is
 * turned from. Of several the nearest is taken. The misses of a face are the same object as in the run before while it and
 * all panels near it are the same. Cost: O(n log n) in stretches.
 */
export const findNearMisses = (shape: Shape): readonly NearMisses[] => {
  const faces = shape.faces.filter((face) => face.usable);
  const misses: NearMisses[] = shape.faces.map(() => NONE);
  if (faces.length === 0) return misses;
  const boxes = faces.map(boxOfFace);
  const search = indexBoxes(Float64Array.from(boxes.flatMap(({ plan }) => plan)));
  faces.forEach((face, of) => {
    const alone = aloneOf(face);
    if (alone.length === 0) return;
    const neighbours = neighboursOf(face);
    const [x0, y0, x1, y1] = boxes[of].plan;
    const mayBeNear = (i: number): boolean =>
      i !== of &&
      !neighbours.has(faces[i].panel) &&
      boxes[of].low - REACH <= boxes[i].high &&
      boxes[i].low - REACH <= boxes[of].high;
    const near = search(x0 - REACH, y0 - REACH, x1 + REACH, y1 + REACH, mayBeNear).map((i) => faces[i]);
    if (near.length > 0) misses[face.panel] = missesFor(face, near, () => missesAmong(alone, near));
  });
  return misses;
};

const NONE: NearMisses = new Map();

/** mm. A little more than what counts as near, so that rounding leaves nothing out. */
const REACH = NEARLY_MEETS + SAME_POINT;

const missesFor = keepBy<Face, NearMisses>();

const aloneOf = memoBy((face: Face): readonly Stretch[] =>
  face.stretches.flatMap((list) =>
    list.filter(
      (s) => s.bend === undefined && s.seams.length === 0 && s.mates.length === 0 && s.rim === undefined && !s.isLaid,
    ),
  ),
);

const neighboursOf = memoBy(
  (face: Face): ReadonlySet<FaceIndex> =>
    new Set([
      ...face.stretches.flatMap((list) => list.flatMap((s) => s.mates.map((mate) => mate.face))),
      ...(face.laidOn ?? []),
    ]),
);

interface FaceBox {
  readonly plan: readonly [number, number, number, number];
  readonly low: number;
  readonly high: number;
}

const boxOfFace = memoBy((face: Face): FaceBox => {
  const min = [Infinity, Infinity, Infinity];
  const max = [-Infinity, -Infinity, -Infinity];
  const grow = (point: Vec3): void => {
    for (let axis = 0; axis < 3; axis++) {
      min[axis] = Math.min(min[axis], point[axis]);
      max[axis] = Math.max(max[axis], point[axis]);
    }
  };
  face.corners.forEach(grow);
  for (const list of face.stretches) {
    for (const { start, end } of list) {
      grow(start);
      grow(end);
    }
  }
  return { plan: [min[0], min[1], max[0], max[1]], low: min[2], high: max[2] };
});

const missesAmong = (alone: readonly Stretch[], near: readonly Face[]): NearMisses => {
  const found = new Map<Stretch, NearMiss>();
  const all = near.flatMap((face) => face.stretches.flat());
  const search = indexBoxes(Float64Array.from(all.flatMap((s) => boxOf(s, 0))));
  const faces = indexFaces(near);
  const faceOf = new Map(near.map((face) => [face.panel, face]));
  for (const stretch of alone) {
    let miss: NearMiss | undefined;
    for (const i of search(...boxOf(stretch, NEARLY_MEETS), (other) => overlapsInHeight(stretch, all[other]))) {
      const candidate = missOf(stretch, all[i]);
      if (candidate && !(miss && miss.least <= candidate.least)) miss = candidate;
    }
    if (!miss) {
      const middle = lerp(stretch.start, stretch.end, 0.5);
      miss = againstFace(
        faces.near(middle, NEARLY_MEETS).map((panel) => faceOf.get(panel)!),
        stretch,
      );
    }
    if (miss) found.set(stretch, miss);
  }
  return found;
};

const boxOf = ({ start, end }: Stretch, by: number): [number, number, number, number] => [
  Math.min(start[0], end[0]) - by,
  Math.min(start[1], end[1]) - by,
  Math.max(start[0], end[0]) + by,
  Math.max(start[1], end[1]) + by,
];

const overlapsInHeight = (a: Stretch, b: Stretch): boolean =>
  Math.min(a.start[2], a.end[2]) - NEARLY_MEETS <= Math.max(b.start[2], b.end[2]) &&
  Math.min(b.start[2], b.end[2]) - NEARLY_MEETS <= Math.max(a.start[2], a.end[2]);

const PROBES = [0.05, 0.25, 0.5, 0.75, 0.95];

/** The stretch stands all along against the face of another panel: it butts onto sheet, not onto an edge. */
const againstFace = (near: readonly Face[], { start, end }: Stretch): NearMiss | undefined => {
  for (const face of near) {
    // The height over the plane alone leaves out nearly all of them.
    if (PROBES.some((t) => Math.abs(heightOver(face.frame, lerp(start, end, t))) > NEARLY_MEETS)) continue;
    const gaps = PROBES.map((t) => distanceToFace(face, lerp(start, end, t)));
    if (Math.max(...gaps) > NEARLY_MEETS) continue;
    return { face: face.panel, edge: undefined, start, end, least: Math.min(...gaps), most: Math.max(...gaps) };
  }
  return undefined;
};

const distanceToFace = (face: Face, point: Vec3): number => {
  const at = toPlane(face.frame, point);
  const height = heightOver(face.frame, point);
  const n = face.outline.length;
  const aside = isInside(at, face.outline)
    ? 0
    : Math.min(...face.outline.map((corner, i) => distanceToSegment(at, corner, face.outline[(i + 1) % n])));
  return Math.hypot(aside, height);
};

/** How the other stretch misses this one; undefined when it runs elsewhere or too far off. */
const missOf = (stretch: Stretch, other: Stretch): NearMiss | undefined => {
  const length = distance(stretch.start, stretch.end);
  const otherLength = distance(other.start, other.end);
  if (length <= SAME_POINT || otherLength <= SAME_POINT) return undefined;
  const along = scale(subtract(stretch.end, stretch.start), 1 / length);
  const slope = dot(subtract(other.end, other.start), along) / otherLength;
  if (Math.abs(slope) < SIDE_BY_SIDE) return undefined;
  const t0 = dot(subtract(other.start, stretch.start), along);
  const t1 = dot(subtract(other.end, stretch.start), along);
  const from = Math.max(0, Math.min(t0, t1));
  const to = Math.min(length, Math.max(t0, t1));
  if (to - from <= NEARLY_MEETS) return undefined;
  const own = (t: number): Vec3 => addScaled(stretch.start, along, t);
  const gapAt = (t: number): number => distance(own(t), lerp(other.start, other.end, (t - t0) / (t1 - t0)));
  const near = nearPart(gapAt, from, to);
  if (!near) return undefined;
  return {
    face: other.face,
    edge: other.edge,
    start: own(near.from),
    end: own(near.to),
    least: near.least,
    most: near.most,
  };
};

/** The part of from..to within NEARLY_MEETS. The gap between two lines is convex along them, so halving finds its ends. */
const nearPart = (
  gapAt: (t: number) => number,
  from: number,
  to: number,
): { readonly from: number; readonly to: number; readonly least: number; readonly most: number } | undefined => {
  const lowest = lowestOf(gapAt, from, to);
  const least = gapAt(lowest);
  if (least > NEARLY_MEETS || (least <= SAME_POINT && gapAt(from) <= SAME_POINT && gapAt(to) <= SAME_POINT))
    return undefined;
  const start = gapAt(from) <= NEARLY_MEETS ? from : crossing(gapAt, lowest, from);
  const end = gapAt(to) <= NEARLY_MEETS ? to : crossing(gapAt, lowest, to);
  if (end - start <= NEARLY_MEETS) return undefined;
  return { from: start, to: end, least, most: Math.max(gapAt(start), gapAt(end)) };
};

const HALVINGS = 50;

const lowestOf = (gapAt: (t: number) => number, from: number, to: number): number => {
  let [low, high] = [from, to];
  for (let i = 0; i < HALVINGS; i++) {
    const [a, b] = [low + (high - low) / 3, high - (high - low) / 3];
    if (gapAt(a) <= gapAt(b)) high = b;
    else low = a;
  }
  return (low + high) / 2;
};

const crossing = (gapAt: (t: number) => number, inside: number, outside: number): number => {
  let [near, far] = [inside, outside];
  for (let i = 0; i < HALVINGS; i++) {
    const middle = (near + far) / 2;
    if (gapAt(middle) <= NEARLY_MEETS) near = middle;
    else far = middle;
  }
  return near;
};
