/** Where the screws of a face joint stand, in the plane of the faces. */
import { insetRing, type RegionPiece, type Ring } from '../../geometry/region.js';
import { distanceToSegment } from '../../geometry/polygon.js';
import { add2, distance2, dot2, left2, lerp2, scale2, subtract2, unit2, type Vec2 } from '../../geometry/vec.js';
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

const rowAlong = (ring: Ring, every: number): FaceRow => {
  const along = longestWay(ring);
  const across = left2(along);
  const heights = ring.map((corner) => dot2(corner, across));
  const [low, high] = [Math.min(...heights), Math.max(...heights)];
  const middle = (low + high) / 2;
  const [from, to] = longestCrossing(ring, along, across, middle);
  const count = fastenerCount(to - from, every);
  const share = (to - from) / count;
  const place = (at: number): Vec2 => add2(scale2(along, at), scale2(across, middle));
  return {
    places: Array.from({ length: count }, (_, i) => place(from + (i + 0.5) * share)),
    share,
    width: high - low,
    length: to - from,
  };
};

const longestWay = (ring: Ring): Vec2 => {
  const edges = ring.map((from, i) => subtract2(ring[(i + 1) % ring.length], from));
  const longest = edges.reduce((most, edge) => (Math.hypot(...edge) > Math.hypot(...most) ? edge : most));
  return unit2(longest);
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
