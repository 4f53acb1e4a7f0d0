import { boxesOfPolygons, indexBoxes } from '../geometry/box-index.js';
import { distanceToSegment } from '../geometry/polygon.js';
import { distance2, dot2, left2, subtract2, unit2, type Vec2 } from '../geometry/vec.js';
import type { Face, FaceOpening } from './shape.js';

/** An opening as the points of a convex core, and how far it reaches around them. */
interface Core {
  readonly points: readonly Vec2[];
  readonly radius: number;
}

export interface OpeningPair {
  /** In text order. */
  readonly openings: readonly [FaceOpening, FaceOpening];
  /** How far one would have to be moved for them to touch no more, mm. */
  readonly overlap: number;
}

/** Openings of one face that run into one another. Cost: O(n log n) in openings, and the pairs found. */
export const overlappingOpenings = ({ openings }: Face): readonly OpeningPair[] => {
  if (openings.length < 2) return [];
  const cores = openings.map(coreOf);
  const boxes = boxesOfPolygons(cores.map(({ points }) => points));
  cores.forEach(({ radius }, i) => {
    for (const side of [0, 1, 2, 3]) boxes[4 * i + side] += side < 2 ? -radius : radius;
  });
  const search = indexBoxes(boxes);
  return openings.flatMap((opening, i) => {
    const [x0, y0, x1, y1] = boxes.subarray(4 * i, 4 * i + 4);
    return search(x0, y0, x1, y1, (other) => other > i).flatMap((j): readonly OpeningPair[] => {
      const overlap = -gapBetween(cores[i], cores[j]);
      return overlap > 0 ? [{ openings: [opening, openings[j]], overlap }] : [];
    });
  });
};

const coreOf = ({ shape }: FaceOpening): Core => {
  if (shape.kind === 'round') return { points: [shape.center], radius: shape.radius };
  if (shape.kind === 'slot') return { points: [shape.from, shape.to], radius: shape.radius };
  return { points: shape.corners, radius: 0 };
};

/**
 * Between two rounded convex shapes, mm; negative: the shortest move that parts them. Exact: cores that meet are parted
 * most shortly square to one of their sides, others are nearest at a corner of one.
 */
const gapBetween = (a: Core, b: Core): number => {
  const overlaps = [...axesOf(a), ...axesOf(b)].map((axis) => overlapAlong(axis, a, b));
  const depth = Math.min(...overlaps);
  const apart = depth >= 0 && overlaps.length > 0 ? -depth : distanceBetween(a, b);
  return apart - a.radius - b.radius;
};

const sidesOf = ({ points }: Core): readonly (readonly [Vec2, Vec2])[] =>
  points.map((point, i) => [point, points[(i + 1) % points.length]] as const);

/** Square to each side and along it: a slot's core has no width. */
const axesOf = (core: Core): readonly Vec2[] =>
  sidesOf(core)
    .filter(([from, to]) => distance2(from, to) > 0)
    .flatMap(([from, to]) => {
      const along = unit2(subtract2(to, from));
      return [left2(along), along];
    });

const overlapAlong = (axis: Vec2, a: Core, b: Core): number => {
  const [p, q] = [a, b].map(({ points }) => points.map((point) => dot2(point, axis)));
  return Math.min(Math.max(...p) - Math.min(...q), Math.max(...q) - Math.min(...p));
};

const distanceBetween = (a: Core, b: Core): number =>
  Math.min(
    ...a.points.flatMap((point) => sidesOf(b).map(([from, to]) => distanceToSegment(point, from, to))),
    ...b.points.flatMap((point) => sidesOf(a).map(([from, to]) => distanceToSegment(point, from, to))),
  );
