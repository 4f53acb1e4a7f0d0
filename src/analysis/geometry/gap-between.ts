import { SAME_DIRECTION } from './tolerance.js';
import { boxesOfPolygons, indexBoxesByNearness } from './box-index.js';
import { addScaled, distance, dot, subtract, type Vec3 } from './vec.js';

/** A closed line in space. */
export interface Outline {
  readonly corners: readonly Vec3[];
}

type Segment = readonly [Vec3, Vec3];

/** With no more pairs of edges than this each is measured. */
const FEW_PAIRS = 1024;

/** Smallest distance between the outlines of two, mm. Cost: O(n log n) in their corners. */
export const gapBetween = (a: Outline, b: Outline): number => gapBetweenAll([a], [b]);

/** Smallest distance between any outline of the ones and any of the others, mm. Cost: O(n log n) in their corners. */
export const gapBetweenAll = (ones: readonly Outline[], others: readonly Outline[]): number => {
  const [own, theirs] = [ones, others].map((outlines) => outlines.flatMap(edgesOf));
  if (own.length * theirs.length <= FEW_PAIRS) {
    return Math.min(...own.map((edge) => Math.min(...theirs.map((other) => segmentGap(...edge, ...other)))));
  }
  const near = nearFinder(theirs);
  let least = Infinity;
  for (const edge of own) {
    for (const other of near(edge, least)) least = Math.min(least, segmentGap(...edge, ...theirs[other]));
  }
  return least;
};

const edgesOf = ({ corners }: Outline): readonly Segment[] =>
  corners.map((corner, i) => [corner, corners[(i + 1) % corners.length]]);

/** Which segments can come nearer to another than `least`: the nearest by its box, then all within reach of it. */
const nearFinder = (segments: readonly Segment[]): ((edge: Segment, least: number) => readonly number[]) => {
  const { within, nearest } = indexBoxesByNearness(boxesOfPolygons(segments));
  return (edge, least) => {
    const [x0, y0, x1, y1] = boxesOfPolygons([edge]);
    const first = nearest((x0 + x1) / 2, (y0 + y1) / 2);
    const reach = Math.min(least, segmentGap(...edge, ...segments[first]));
    return [first, ...within(x0 - reach, y0 - reach, x1 + reach, y1 + reach)];
  };
};

/** Distance from a point to a segment in space, mm. */
export const pointToSegment = (point: Vec3, a: Vec3, b: Vec3): number => {
  const along = subtract(b, a);
  const square = dot(along, along);
  const t = square > 0 ? Math.min(1, Math.max(0, dot(subtract(point, a), along) / square)) : 0;
  return distance(point, addScaled(a, along, t));
};

/** Distance between two segments in space, mm. */
export const segmentGap = (p: Vec3, q: Vec3, r: Vec3, s: Vec3): number => {
  const u = subtract(q, p);
  const v = subtract(s, r);
  const w = subtract(p, r);
  const [a, b, c, d, e] = [dot(u, u), dot(u, v), dot(v, v), dot(u, w), dot(v, w)];
  const denominator = a * c - b * b;
  const ends = Math.min(
    pointToSegment(p, r, s),
    pointToSegment(q, r, s),
    pointToSegment(r, p, q),
    pointToSegment(s, p, q),
  );
  if (denominator <= SAME_DIRECTION ** 2 * a * c) return ends;
  const t1 = (b * e - c * d) / denominator;
  const t2 = (a * e - b * d) / denominator;
  if (t1 < 0 || t1 > 1 || t2 < 0 || t2 > 1) return ends;
  return Math.min(ends, distance(addScaled(p, u, t1), addScaled(r, v, t2)));
};
