import { boxesOfSides, indexBoxes } from '../geometry/box-index.js';
import { segmentOf, flattenContour } from '../geometry/contour.js';
import { distanceToSegment, lineMeeting, segmentsCross } from '../geometry/polygon.js';
import { cross2, distance2, subtract2, type Vec2 } from '../geometry/vec.js';
import type { FaceIndex } from '../shape/shape.js';
import { ROUND_OFF, SAME_POINT } from '../geometry/tolerance.js';
import { SECTION_ERROR } from '../model/tolerance.js';
import type { Contour, ContourVertex } from '../geometry/contour.js';

/** mm. Arcs are tested as chords this close to them: far below what two panels would have to overlap to matter. */
const ARC_FINENESS = 0.01;
/** mm. Metal that lies over metal by less goes away with the cut: a tenth of a narrow kerf. */
const LEAST_OVERLAP = 0.02;
/** mm. How far beside a touching corner it is looked for a second layer. */
const PROBE = 5 * LEAST_OVERLAP;
/** mm. Directions of shorter edges say nothing about which side of a touching outline the metal lies on. */
const LEAST_EDGE = 10 * LEAST_OVERLAP;
/** rad. Outlines that touch and part by less lie beside one another. */
const LEAST_SHARED_ANGLE = 0.05;

interface Segment {
  readonly from: Vec2;
  readonly to: Vec2;
  readonly face: FaceIndex;
}

/**
 * Two faces whose flats lie over one another by more than LEAST_OVERLAP; undefined when there are none. A closed outline that
 * covers a place twice crosses itself, or touches itself with the metal of both on one side (flats that lie exactly over one
 * another). Edges that touch with the metal on either side (a slit) do not count. Cost: O(n log n).
 */
export const findOverlap = (
  outline: readonly (ContourVertex & { readonly face: FaceIndex })[],
): readonly [FaceIndex, FaceIndex] | undefined => {
  const segments = outline.flatMap((vertex, i): Segment[] => {
    const next = outline[(i + 1) % outline.length];
    const points = vertex.bulge === 0 ? [[vertex.x, vertex.y] as Vec2] : arcPoints(vertex, next);
    return points.map((from, k) => ({ from, to: points[k + 1] ?? [next.x, next.y], face: vertex.face }));
  });
  const boxes = boxesOfSides(segments.map(({ from }) => from));
  const search = indexBoxes(boxes);
  const d = LEAST_OVERLAP;
  for (let i = 0; i < segments.length; i++) {
    const k = 4 * i;
    const isOther = (j: number): boolean => !followsOn(segments.length, i, j);
    const near = search(boxes[k] - d, boxes[k + 1] - d, boxes[k + 2] + d, boxes[k + 3] + d, isOther);
    if (near.length === 0) continue;
    const hit = near.find((j) => j > i + 1 && cross(segments[i], segments[j]));
    if (hit !== undefined) return [segments[i].face, segments[hit].face];
    const touched = near.find((j) => coversAt(segments, i, j));
    if (touched !== undefined) return [segments[touched].face, segments[i].face];
  }
  return undefined;
};

/** Is it the segment itself, or the one before or after? They meet in a corner and never cross. */
const followsOn = (count: number, i: number, j: number): boolean => {
  const steps = Math.abs(i - j);
  return steps <= 1 || steps === count - 1;
};

/** Does the metal at the start of segment `i` lie over that beside segment `j`, which it touches? */
const coversAt = (segments: readonly Segment[], i: number, j: number): boolean => {
  const count = segments.length;
  const before = (k: number): number => (k + count - 1) % count;
  if ([i, before(i), (i + 1) % count, before(before(i))].includes(j)) return false;
  const corner = segments[i].from;
  if (distanceToSegment(corner, segments[j].from, segments[j].to) > LEAST_OVERLAP) return false;
  const at = [j, (j + 1) % count].find((k) => distance2(segments[k].from, corner) <= LEAST_OVERLAP);
  const here = sectorAt(segments[before(i)], segments[i]);
  const there = at === undefined ? sectorAt(segments[j], segments[j]) : sectorAt(segments[before(at)], segments[at]);
  const way = here && there && sharedWay(here, there);
  if (way === undefined) return false;
  const within: Vec2 = [corner[0] + PROBE * Math.cos(way), corner[1] + PROBE * Math.sin(way)];
  return turnsAround(segments, within) > 1;
};

/** How often the outline runs counter-clockwise around a point: the number of layers there. Cost: O(n). */
const turnsAround = (segments: readonly Segment[], [x, y]: Vec2): number => {
  let turns = 0;
  for (const { from, to } of segments) {
    if (from[1] <= y === to[1] <= y) continue;
    const crossing = from[0] + ((y - from[1]) / (to[1] - from[1])) * (to[0] - from[0]);
    if (crossing > x) turns += to[1] > from[1] ? 1 : -1;
  }
  return turns;
};

/** Directions in which the metal lies at a corner: from `start` on by `span`, counter-clockwise, rad. */
interface Sector {
  readonly start: number;
  readonly span: number;
}

const sectorAt = (arriving: Segment, leaving: Segment): Sector | undefined => {
  const [back, on] = [subtract2(arriving.from, arriving.to), subtract2(leaving.to, leaving.from)];
  if (Math.min(Math.hypot(...back), Math.hypot(...on)) < LEAST_EDGE) return undefined;
  const start = Math.atan2(on[1], on[0]);
  return { start, span: fullTurn(Math.atan2(back[1], back[0]) - start) };
};

const fullTurn = (angle: number): number => ((angle % (2 * Math.PI)) + 2 * Math.PI) % (2 * Math.PI);

/** The middle of the directions that two sectors share; undefined when they share next to none. */
const sharedWay = (p: Sector, q: Sector): number | undefined => {
  const lead = fullTurn(q.start - p.start);
  const first = [lead, Math.min(p.span, lead + q.span)] as const;
  // `q` may also reach round to the start of `p`.
  const second = [0, Math.min(p.span, lead + q.span - 2 * Math.PI)] as const;
  const [low, high] = first[1] - first[0] > second[1] - second[0] ? first : second;
  return high - low > LEAST_SHARED_ANGLE ? p.start + (low + high) / 2 : undefined;
};

/**
 * Where a closed outline crosses itself by more than round-off, however little; undefined for one that can be cut. Edges that touch
 * do not count. Cost: O(n log n).
 */
export const selfCrossingOf = (outline: Contour): Vec2 | undefined => {
  const points = flattenContour(outline, SECTION_ERROR);
  const lines = points.map((from, i): Line => ({ from, to: points[(i + 1) % points.length] }));
  const boxes = boxesOfSides(points);
  const search = indexBoxes(boxes);
  for (let i = 0; i < lines.length; i++) {
    const k = 4 * i;
    const isLater = (j: number): boolean => j > i && !followsOn(lines.length, i, j);
    const near = search(boxes[k], boxes[k + 1], boxes[k + 2], boxes[k + 3], isLater);
    const hit = near.find((j) => cross(lines[i], lines[j], ROUND_OFF));
    if (hit !== undefined) return lineMeeting(lines[i].from, lines[i].to, lines[hit].from, lines[hit].to);
  }
  return undefined;
};

const arcPoints = (vertex: ContourVertex, next: ContourVertex): Vec2[] => {
  const piece = segmentOf([vertex.x, vertex.y], [next.x, next.y], vertex.bulge);
  return flattenContour([vertex, { ...next, bulge: 0 }], ARC_FINENESS).slice(0, piece.center ? -1 : 1);
};

/** A crossing by more than that: every end lies that far to its side of the other segment. */
const cross = (p: Line, q: Line, deeper = LEAST_OVERLAP): boolean =>
  segmentsCross(p.from, p.to, q.from, q.to) &&
  Math.min(offLine(p, q.from), offLine(p, q.to), offLine(q, p.from), offLine(q, p.to)) > deeper;

type Line = Pick<Segment, 'from' | 'to'>;

const offLine = ({ from, to }: Line, point: Vec2): number =>
  Math.abs(cross2(subtract2(to, from), subtract2(point, from))) / Math.max(distance2(from, to), SAME_POINT);
