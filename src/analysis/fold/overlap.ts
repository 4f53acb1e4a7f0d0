import Flatbush from 'flatbush';
import { pieceOf, flattenContour } from '../geometry/contour.js';
import { segmentsCross } from '../geometry/polygon.js';
import { cross2, distance2, subtract2, type Vec2 } from '../geometry/vec.js';
import type { FaceIndex } from '../shape/shape.js';
import { SAME_POINT } from '../tolerance.js';
import type { ContourVertex } from './flat-pattern.js';

/** mm. Arcs are tested as chords this close to them: far below what two panels would have to overlap to matter. */
const ARC_FINENESS = 0.01;

interface Segment {
  readonly from: Vec2;
  readonly to: Vec2;
  readonly face: FaceIndex;
}

/**
 * Two faces whose flats lie over one another; undefined when the outline crosses itself nowhere. A closed outline that covers
 * a place twice crosses itself, so crossings are all there is to look for. Edges that only touch (a slit) do not count.
 * Cost: O(n log n).
 */
export const findOverlap = (
  outline: readonly (ContourVertex & { readonly face: FaceIndex })[],
): readonly [FaceIndex, FaceIndex] | undefined => {
  const segments = outline.flatMap((vertex, i): Segment[] => {
    const next = outline[(i + 1) % outline.length];
    const points = vertex.bulge === 0 ? [[vertex.x, vertex.y] as Vec2] : arcPoints(vertex, next);
    return points.map((from, k) => ({ from, to: points[k + 1] ?? [next.x, next.y], face: vertex.face }));
  });
  const index = new Flatbush(segments.length);
  const boxes = segments.map(boxOf);
  for (const box of boxes) index.add(...box);
  index.finish();
  for (let i = 0; i < segments.length; i++) {
    const hit = index.search(...boxes[i], (j) => j > i + 1 && cross(segments[i], segments[j]));
    if (hit.length > 0) return [segments[i].face, segments[Math.min(...hit)].face];
  }
  return undefined;
};

const arcPoints = (vertex: ContourVertex, next: ContourVertex): Vec2[] => {
  const piece = pieceOf([vertex.x, vertex.y], [next.x, next.y], vertex.bulge);
  return flattenContour([vertex, { ...next, bulge: 0 }], ARC_FINENESS).slice(0, piece.center ? -1 : 1);
};

const boxOf = ({ from, to }: Segment): [number, number, number, number] => [
  Math.min(from[0], to[0]),
  Math.min(from[1], to[1]),
  Math.max(from[0], to[0]),
  Math.max(from[1], to[1]),
];

/** A crossing by more than SAME_POINT: every end lies that far to its side of the other segment. */
const cross = (p: Segment, q: Segment): boolean =>
  segmentsCross(p.from, p.to, q.from, q.to) &&
  Math.min(offLine(p, q.from), offLine(p, q.to), offLine(q, p.from), offLine(q, p.to)) > SAME_POINT;

const offLine = ({ from, to }: Segment, point: Vec2): number =>
  Math.abs(cross2(subtract2(to, from), subtract2(point, from))) / Math.max(distance2(from, to), SAME_POINT);
