/** Free room on a flat pattern: where lettering hits no cut, no bend, no mark and no other lettering. */
import { boxesOfPolygons, indexBoxes } from '../../geometry/box-index.js';
import type { Contour } from '../../geometry/contour.js';
import { flattenContour } from '../../geometry/contour.js';
import { isInside, segmentsCross } from '../../geometry/polygon.js';
import type { Vec2 } from '../../geometry/vec.js';

/** Corners of a rectangle, any turn, counter-clockwise. */
export type Rectangle = readonly [Vec2, Vec2, Vec2, Vec2];

export interface Clearance {
  /** No line crosses the rectangle or ends in it, and it does not lie in a hole. */
  readonly isFree: (rectangle: Rectangle) => boolean;
  /** From now on the rectangle is in use. */
  readonly take: (rectangle: Rectangle) => void;
}

type Segment = readonly [Vec2, Vec2];

/** mm. Arcs are taken as chords for lettering only; the drawn lines keep their arcs. */
const CHORD_ERROR = 0.05;

/** mm. Lettering is some tens of mm long: a few cells each. */
const CELL = 25;

export interface Obstacles {
  readonly closed: readonly Contour[];
  readonly holes: readonly Contour[];
  readonly open: readonly (readonly Vec2[])[];
}

/** Looks up in O(log n) of the obstacles; building is O(n log n). */
export const createClearance = ({ closed, holes, open }: Obstacles): Clearance => {
  const holePolygons = holes.map((hole) => flattenContour(hole, CHORD_ERROR));
  const rings = [...closed.map((contour) => flattenContour(contour, CHORD_ERROR)), ...holePolygons];
  const segments: Segment[] = [
    ...rings.flatMap((ring) => ring.map((from, i): Segment => [from, ring[(i + 1) % ring.length]])),
    ...open.flatMap((line) => line.slice(1).map((to, i): Segment => [line[i], to])),
  ];
  const lines = indexOf(segments);
  const holeIndex = indexOf(holePolygons);
  const cells = new Map<string, Rectangle[]>();

  const isFree = (rectangle: Rectangle): boolean => {
    const box = boxOf(rectangle);
    const middle: Vec2 = [(rectangle[0][0] + rectangle[2][0]) / 2, (rectangle[0][1] + rectangle[2][1]) / 2];
    if (lines.search(...box).some((i) => touches(segments[i], rectangle))) return false;
    if (holeIndex.search(...box).some((i) => isInside(middle, holePolygons[i]))) return false;
    return !cellsOf(box).some((cell) => cells.get(cell)?.some((other) => overlap(other, rectangle)));
  };
  const take = (rectangle: Rectangle): void => {
    for (const cell of cellsOf(boxOf(rectangle))) cells.set(cell, [...(cells.get(cell) ?? []), rectangle]);
  };
  return { isFree, take };
};

type Box = readonly [number, number, number, number];

const boxOf = (points: readonly Vec2[]): Box => {
  const box: [number, number, number, number] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const [x, y] of points) {
    box[0] = Math.min(box[0], x);
    box[1] = Math.min(box[1], y);
    box[2] = Math.max(box[2], x);
    box[3] = Math.max(box[3], y);
  }
  return box;
};

const indexOf = (items: readonly (readonly Vec2[])[]): { search: (...box: Box) => number[] } => {
  const search = indexBoxes(boxesOfPolygons(items));
  return { search: (...box) => search(...box) };
};

const cellsOf = ([x0, y0, x1, y1]: Box): string[] => {
  const cells: string[] = [];
  for (let x = Math.floor(x0 / CELL); x <= Math.floor(x1 / CELL); x++) {
    for (let y = Math.floor(y0 / CELL); y <= Math.floor(y1 / CELL); y++) cells.push(`${x} ${y}`);
  }
  return cells;
};

const sidesOf = (rectangle: Rectangle): Segment[] => rectangle.map((from, i) => [from, rectangle[(i + 1) % 4]]);

const touches = ([a, b]: Segment, rectangle: Rectangle): boolean =>
  isInside(a, rectangle) || isInside(b, rectangle) || sidesOf(rectangle).some(([c, d]) => segmentsCross(a, b, c, d));

const overlap = (one: Rectangle, other: Rectangle): boolean =>
  isInside(other[0], one) || sidesOf(one).some((side) => touches(side, other));
