/** Where the screws of a face joint stand, in the plane of the faces. */
import { insetRing, type RegionPiece, type Ring } from '../../geometry/region.js';
import { distanceToSegment } from '../../geometry/polygon.js';
import {
  add2,
  cross2,
  distance2,
  dot2,
  left2,
  lerp2,
  scale2,
  subtract2,
  unit2,
  type Vec2,
} from '../../geometry/vec.js';
import { fastenerCount } from '../fasteners/fastener-places.js';

/** A row, evenly spaced. */
export interface FaceRow {
  readonly places: readonly Vec2[];
  /** Between neighbours. */
  readonly share: number;
  /** Of the band of contact that it runs in the middle of. */
  readonly width: number;
  readonly length: number;
}

/** Along the middle of a piece of contact; around the middle of one that is a ring. */
export const rowOn = (piece: RegionPiece, every: number): FaceRow =>
  piece.holes.length > 0 ? rowAround(piece, every) : rowAlong(piece.outer, every);

/** Sine of the turn of a corner that bends a band round it rather than being out of true: 6 deg. */
const TURNS_BACK = 0.1;

/** Sine of the angle within which a band is parted from one corner to the other, as a frame is mitred: 12 deg. */
const TO_CORNER = 0.2;

/**
 * A piece of contact that runs round corners as one band for each way: parted at every corner that turns back, halving its angle.
 * A ring is left whole, and runs round by itself. Cost: O(n^2) in corners.
 */
export const bandsOf = (piece: RegionPiece): readonly RegionPiece[] =>
  piece.holes.length > 0 ? [piece] : convexParts(piece.outer).map((outer) => ({ outer, holes: [] }));

const convexParts = (ring: Ring): readonly Ring[] => {
  const n = ring.length;
  for (let i = 0; i < n; i++) {
    const before = unit2(subtract2(ring[i], ring[(i + n - 1) % n]));
    const after = unit2(subtract2(ring[(i + 1) % n], ring[i]));
    if (cross2(before, after) > -TURNS_BACK) continue;
    const cut = cutFrom(ring, i, unit2(subtract2(before, after)));
    if (cut) return cut.flatMap(convexParts);
  }
  return [ring];
};

/** Both parts of a ring that is cut from a corner that turns back, that way or to a corner near it. */
const cutFrom = (ring: Ring, corner: number, way: Vec2): readonly [Ring, Ring] | undefined => {
  const n = ring.length;
  const from = ring[corner];
  let nearest: { readonly edge: number; readonly at: Vec2; readonly far: number } | undefined;
  for (let k = 1; k < n - 1; k++) {
    const edge = (corner + k) % n;
    const [a, b] = [ring[edge], ring[(edge + 1) % n]];
    const [left, right] = [cross2(way, subtract2(a, from)), cross2(way, subtract2(b, from))];
    if (left > 0 === right > 0) continue;
    const at = lerp2(a, b, left / (left - right));
    const far = dot2(way, subtract2(at, from));
    if (far > 0 && (!nearest || far < nearest.far)) nearest = { edge, at, far };
  }
  if (!nearest) return undefined;
  const { edge, at, far } = nearest;
  const isNear = (end: number): boolean => end !== corner && distance2(ring[end], at) <= TO_CORNER * far;
  const to = [edge, (edge + 1) % n].find(isNear);
  const [last, first, joint] =
    to === undefined ? [edge, (edge + 1) % n, [at]] : [(to + n - 1) % n, (to + 1) % n, [ring[to]]];
  return [
    [...round(ring, corner, last), ...joint],
    [...joint, ...round(ring, first, corner)],
  ];
};

const round = (ring: Ring, from: number, to: number): Ring => {
  const count = ((to - from + ring.length) % ring.length) + 1;
  return Array.from({ length: count }, (_, i) => ring[(from + i) % ring.length]);
};

const rowAlong = (ring: Ring, every: number): FaceRow => {
  const { along, middle, widthAt } = midlineOf(ring);
  const across = left2(along);
  const height = dot2(middle, across);
  const [from, to] = longestCrossing(ring, along, across, height);
  const count = fastenerCount(to - from, every);
  const share = (to - from) / count;
  const place = (at: number): Vec2 => add2(scale2(along, at), scale2(across, height));
  return {
    places: Array.from({ length: count }, (_, i) => place(from + (i + 0.5) * share)),
    share,
    width: Math.min(widthAt(from), widthAt(to)),
    length: to - from,
  };
};

interface Midline {
  readonly along: Vec2;
  /** A place on it. */
  readonly middle: Vec2;
  /** Of the band, by the place along it. */
  readonly widthAt: (at: number) => number;
}

/** Cosine between both long sides of a band that tapers: 26 deg. */
const OPPOSITE = -0.9;

/** Halfway between the longest side and the longest that runs back, halving the angle between them; without such a one, through the middle of the height. */
const midlineOf = (ring: Ring): Midline => {
  const sides = ring
    .map((from, i) => ({ from, run: subtract2(ring[(i + 1) % ring.length], from) }))
    .map((side) => ({ ...side, way: unit2(side.run), length: Math.hypot(...side.run) }))
    .sort((a, b) => b.length - a.length);
  const [one] = sides;
  const back = sides.find(({ way }) => dot2(way, one.way) < OPPOSITE);
  if (!back) {
    const heights = ring.map((corner) => dot2(corner, left2(one.way)));
    const [low, high] = [Math.min(...heights), Math.max(...heights)];
    const middle = add2(one.from, scale2(left2(one.way), (low + high) / 2 - dot2(one.from, left2(one.way))));
    return { along: one.way, middle, widthAt: () => high - low };
  }
  const along = unit2(subtract2(one.way, back.way));
  const across = left2(along);
  const heightOf = ({ from, way }: typeof one, at: number): number =>
    dot2(from, across) + ((at - dot2(from, along)) * dot2(way, across)) / dot2(way, along);
  const start = dot2(one.from, along);
  const height = (heightOf(one, start) + heightOf(back, start)) / 2;
  return {
    along,
    middle: add2(scale2(along, start), scale2(across, height)),
    widthAt: (at) => Math.abs(heightOf(one, at) - heightOf(back, at)),
  };
};

/** The longest stretch of a line at that height within the ring. */
const longestCrossing = (ring: Ring, along: Vec2, across: Vec2, height: number): readonly [number, number] => {
  const at = ring
    .flatMap((from, i): number[] => {
      const to = ring[(i + 1) % ring.length];
      const [a, b] = [dot2(from, across) - height, dot2(to, across) - height];
      return a > 0 !== b > 0 ? [dot2(lerp2(from, to, a / (a - b)), along)] : [];
    })
    .sort((a, b) => a - b);
  let best: readonly [number, number] = [0, 0];
  for (let i = 0; i + 1 < at.length; i += 2) if (at[i + 1] - at[i] > best[1] - best[0]) best = [at[i], at[i + 1]];
  return best;
};

const rowAround = ({ outer, holes }: RegionPiece, every: number): FaceRow => {
  const width = Math.min(...holes.flat().map((corner) => distanceToRing(corner, outer)));
  const [line = outer] = insetRing(outer, width / 2);
  const sides = line.map((from, i): readonly [Vec2, Vec2] => [from, line[(i + 1) % line.length]]);
  const counts = sides.map(([from, to]) => fastenerCount(distance2(from, to), every));
  return {
    places: sides.flatMap(([from, to], i) =>
      Array.from({ length: counts[i] }, (_, k) => lerp2(from, to, k / counts[i])),
    ),
    share: Math.max(...sides.map(([from, to], i) => distance2(from, to) / counts[i])),
    width,
    length: sides.reduce((sum, [from, to]) => sum + distance2(from, to), 0),
  };
};

const distanceToRing = (point: Vec2, ring: Ring): number =>
  Math.min(...ring.map((from, i) => distanceToSegment(point, from, ring[(i + 1) % ring.length])));
