/** Closed lines of many short edges, searched for the edges nearest to a point. */
import { boxesOfSides } from '../../geometry/box-index.js';
import { distanceToSegment, sideOf } from '../../geometry/polygon.js';
import type { Vec2 } from '../../geometry/vec.js';
import { ROUND_OFF } from '../../geometry/tolerance.js';

export interface Outline {
  /** Counter-clockwise; edge `i` runs from corner `i` to the next. */
  readonly corners: readonly Vec2[];
  /** Boxes (`minX, minY, maxX, maxY`) around edges that follow one another, then around such groups, up to a single box. */
  readonly levels: readonly Float64Array[];
}

/** So many neighbours share a box. */
const GROUP = 8;

/**
 * Boxes the edges in groups as they follow one another: neighbours along the line are neighbours in the plane, so nothing
 * needs sorting. Cost: O(n).
 */
export const outlineOf = (corners: readonly Vec2[]): Outline => {
  const levels = [boxesAround(boxesOfSides(corners))];
  while (levels[0].length > 4) levels.unshift(boxesAround(levels[0]));
  return { corners, levels: levels.reverse() };
};

const boxesAround = (inner: Float64Array): Float64Array => {
  const boxes = new Float64Array(4 * Math.ceil(inner.length / (4 * GROUP)));
  for (let k = 0; k < boxes.length; k += 4) {
    boxes.set([Infinity, Infinity, -Infinity, -Infinity], k);
    const end = Math.min(inner.length, (k + 4) * GROUP);
    for (let j = k * GROUP; j < end; j += 4) {
      boxes[k] = Math.min(boxes[k], inner[j]);
      boxes[k + 1] = Math.min(boxes[k + 1], inner[j + 1]);
      boxes[k + 2] = Math.max(boxes[k + 2], inner[j + 2]);
      boxes[k + 3] = Math.max(boxes[k + 3], inner[j + 3]);
    }
  }
  return boxes;
};

/** Distance to the outline for a point outside it, mm; 0 inside. The nearest edge tells the side. */
export const distanceOutside = (point: Vec2, outline: Outline): number => {
  const { corners } = outline;
  const nearest = nearestEdges(point, outline);
  if (isOnInnerSide(point, corners, nearest)) return 0;
  return Math.min(...nearest.map((i) => distanceToSegment(point, corners[i], corners[(i + 1) % corners.length])));
};

/** Distance to the outline for a point inside it, mm; negative outside. */
export const distanceWithin = (point: Vec2, outline: Outline): number => {
  const { corners } = outline;
  const nearest = nearestEdges(point, outline);
  const away = Math.min(...nearest.map((i) => distanceToSegment(point, corners[i], corners[(i + 1) % corners.length])));
  return isOnInnerSide(point, corners, nearest) ? away : -away;
};

/** The nearest edge, and those that are as near but for rounding; ascending. Cost: O(log n) where the line does not crowd. */
const nearestEdges = ([x, y]: Vec2, { corners, levels }: Outline): readonly number[] => {
  const found: number[] = [];
  const squares: number[] = [];
  let limit = Infinity;
  const lookAt = (edge: number): void => {
    const square = squareToEdge(x, y, corners[edge], corners[edge + 1 < corners.length ? edge + 1 : 0]);
    if (square > limit) return;
    found.push(edge);
    squares.push(square);
    limit = Math.min(limit, (Math.sqrt(square) + ROUND_OFF) ** 2);
  };
  const lookInto = (level: number, group: number): void => {
    const from = group * GROUP;
    if (level === 0) {
      const end = Math.min(from + GROUP, corners.length);
      for (let edge = from; edge < end; edge++) lookAt(edge);
      return;
    }
    const boxes = levels[level - 1];
    const end = Math.min(from + GROUP, boxes.length / 4);
    // The nearest first: what it finds leaves out most of the others.
    let [first, least] = [from, Infinity];
    for (let inner = from; inner < end; inner++) {
      const square = squareToBox(x, y, boxes, 4 * inner);
      if (square < least) [first, least] = [inner, square];
    }
    if (least > limit) return;
    lookInto(level - 1, first);
    for (let inner = from; inner < end; inner++) {
      if (inner !== first && squareToBox(x, y, boxes, 4 * inner) <= limit) lookInto(level - 1, inner);
    }
  };
  lookInto(levels.length - 1, 0);
  return found.filter((_, i) => squares[i] <= limit).sort((p, q) => p - q);
};

const squareToEdge = (x: number, y: number, a: Vec2, b: Vec2): number => {
  const dx = b[0] - a[0];
  const dy = b[1] - a[1];
  const ax = x - a[0];
  const ay = y - a[1];
  const square = dx * dx + dy * dy;
  const t = square > 0 ? Math.min(1, Math.max(0, (ax * dx + ay * dy) / square)) : 0;
  return (ax - t * dx) ** 2 + (ay - t * dy) ** 2;
};

const squareToBox = (x: number, y: number, boxes: Float64Array, k: number): number => {
  const dx = Math.max(0, boxes[k] - x, x - boxes[k + 2]);
  const dy = Math.max(0, boxes[k + 1] - y, y - boxes[k + 3]);
  return dx * dx + dy * dy;
};

/** Left of the nearest edge; where two share the nearest corner, left of both at a corner that sticks out, of either at one that goes in. */
const isOnInnerSide = (point: Vec2, corners: readonly Vec2[], nearest: readonly number[]): boolean => {
  const n = corners.length;
  const lefts = nearest.map((i) => sideOf(corners[i], corners[(i + 1) % n], point) >= 0);
  if (nearest.length < 2) return lefts[0] ?? false;
  const [first, second] = nearest[0] === (nearest[1] + 1) % n ? [nearest[1], nearest[0]] : [nearest[0], nearest[1]];
  const sticksOut = sideOf(corners[first], corners[second], corners[(second + 1) % n]) > 0;
  return sticksOut ? lefts.every(Boolean) : lefts.some(Boolean);
};
