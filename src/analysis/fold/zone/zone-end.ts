/** Reading the end of a bend zone: how far along the axis the metal goes at each share of the turn. */
import { bulgeOver, segmentOf, type ContourSegment } from '../../geometry/contour.js';
import type { Vec2 } from '../../geometry/vec.js';
import type { ZoneEnd } from '../flat-pattern.js';
import type { ContourVertex } from '../../geometry/contour.js';

/** At the parent's tangent line, and at the child's. mm along the axis */
export const endLevels = (end: ZoneEnd): readonly [number, number] => [end[0].y, end[end.length - 1].y];

/** mm along the axis at a share of the turn, 0 to 1. Cost: linear in the vertices of the end, which are few. */
export const levelAt = (end: ZoneEnd, share: number): number => {
  const x = share * end[end.length - 1].x;
  const { from, to, sweep, radius, center } = pieceAt(end, x);
  if (!center) return from[1] + (to[1] - from[1]) * ((x - from[0]) / (to[0] - from[0]));
  const offset = x - center[0];
  return center[1] - Math.sign(sweep) * Math.sqrt(Math.max(0, radius * radius - offset * offset));
};

/** Shares of the turn at which an end goes over from one line or arc to the next. */
export const breaksOf = (end: ZoneEnd): number[] => end.slice(1, -1).map(({ x }) => x / end[end.length - 1].x);

/** The part of an end between two shares of the turn, which it passes in one line or arc. */
export const partOfEnd = (end: ZoneEnd, from: number, to: number): ZoneEnd => {
  const width = end[end.length - 1].x;
  const [first, middle, last] = [from, (from + to) / 2, to].map((share): Vec2 => [share * width, levelAt(end, share)]);
  const isArc = pieceAt(end, middle[0]).center !== undefined;
  return [
    { x: 0, y: first[1], bulge: isArc ? bulgeOver(first, middle, last) : 0 },
    { x: last[0] - first[0], y: last[1], bulge: 0 },
  ];
};

/** Mean of the level over the turn, mm; exact, arcs included. */
export const meanLevel = (end: ZoneEnd): number => {
  let area = 0;
  for (let i = 1; i < end.length; i++) {
    const { from, to, sweep, radius } = pieceBetween(end[i - 1], end[i]);
    area += ((to[0] - from[0]) * (from[1] + to[1])) / 2 - (radius * radius * (sweep - Math.sin(sweep))) / 2;
  }
  return area / end[end.length - 1].x;
};

const pieceAt = (end: ZoneEnd, x: number): ContourSegment => {
  const next = end.findIndex((vertex, k) => k > 0 && x <= vertex.x);
  const i = next < 0 ? end.length - 1 : next;
  return pieceBetween(end[i - 1], end[i]);
};

const pieceBetween = (a: ContourVertex, b: ContourVertex): ContourSegment => segmentOf([a.x, a.y], [b.x, b.y], a.bulge);
