import { NOISE, NO_CROSS } from '../geometry/tolerance.js';
import { boxesOfPolygons, indexBoxes } from '../geometry/box-index.js';
import { add2, addScaled2, distance2, dot2, left2, scale2, subtract2, unit2, type Vec2 } from '../geometry/vec.js';
import { distanceToSegment, isInside, segmentsCross, signedArea } from '../geometry/polygon.js';
import type { Face, FaceOpening } from './shape.js';

/** Sides of the polygon that stands for a round opening, a multiple of four; fewer where a panel has many openings. */
const SIDES = 32;
const FEW_SIDES = 8;
const MANY_OPENINGS = 100;

/** mm. An opening this near to the edge of its panel, or to another, touches it: ten times the point tolerance. */
export const TOUCHES = 0.01;

export interface OpeningOutline {
  /** Index into `Tub.openings`. */
  readonly opening: number;
  /** In the face's frame, counter-clockwise. */
  readonly corners: readonly Vec2[];
}

/** Downhill in the face's frame; its length is the sine of the inclination. */
export const downhillOn = (face: Face): Vec2 => [-face.frame.u[2], -face.frame.v[2]];

/**
 * The openings of a face as polygons.
 *
 * Rounds are inscribed 32-gons, octagons where there are many, whose corners include the lowest, the highest and the two
 * outermost points across the fall, so the lowest rim point and the width that catches water are exact; the area is
 * 0.64 % (10 %) under the true one, which no volume depends on (a plugged hole is filled by the same triangles). Slots
 * likewise at both ends.
 */
export const openingOutlines = (face: Face): readonly OpeningOutline[] => {
  const downhill = unit2(downhillOn(face));
  const start: Vec2 = downhill[0] === 0 && downhill[1] === 0 ? [1, 0] : downhill;
  const sides = face.openings.length > MANY_OPENINGS ? FEW_SIDES : SIDES;
  const around = directions(start, sides);
  const rough = face.openings.map(({ opening, shape, edge }) => ({
    opening,
    corners: polygonOf(edge === undefined ? shape : overTheEdge(shape), around),
  }));
  return rough.filter(({ corners }) => signedArea(corners) > TOUCHES * TOUCHES);
};

const polygonOf = (shape: FaceOpening['shape'], around: readonly Vec2[]): readonly Vec2[] => {
  if (shape.kind === 'round') return circle(shape.center, shape.radius, around);
  if (shape.kind === 'slot') {
    const along = unit2(subtract2(shape.to, shape.from));
    if (along[0] === 0 && along[1] === 0) return circle(shape.from, shape.radius, around);
    return stadium(shape.from, shape.to, along, shape.radius, around);
  }
  return signedArea(shape.corners) > 0 ? shape.corners : [...shape.corners].reverse();
};

/** mm. */
const OVER = 1;

/** An opening that is open to an edge, drawn a little over it, so that it is cut off exactly there. */
const overTheEdge = (shape: FaceOpening['shape']): FaceOpening['shape'] => {
  if (shape.kind !== 'polygon') return shape;
  const { corners } = shape;
  const last = corners.length - 1;
  const drawn = (end: Vec2, from: Vec2): Vec2 => addScaled2(end, unit2(subtract2(end, from)), OVER);
  return {
    kind: 'polygon',
    corners: [drawn(corners[0], corners[1]), ...corners.slice(1, last), drawn(corners[last], corners[last - 1])],
  };
};

const circle = (center: Vec2, radius: number, around: readonly Vec2[]): readonly Vec2[] =>
  around.map((d) => addScaled2(center, d, radius));

/** Unit vectors counter-clockwise from `from`; quarter turns are exact. */
const directions = (from: Vec2, sides: number): readonly Vec2[] => {
  const side = left2(from);
  return Array.from({ length: sides }, (_, i): Vec2 => {
    const quarter = sides / 4;
    const turn = ((i % quarter) * 2 * Math.PI) / sides;
    const [c, s] = [Math.cos(turn), Math.sin(turn)];
    const inFirst = add2(scale2(from, c), scale2(side, s));
    return [inFirst, left2(inFirst), scale2(inFirst, -1), scale2(left2(inFirst), -1)][Math.floor(i / quarter)];
  });
};

const stadium = (from: Vec2, to: Vec2, along: Vec2, radius: number, directed: readonly Vec2[]): readonly Vec2[] => {
  const side = left2(along);
  const ends = [scale2(side, 1), scale2(side, -1)];
  const around = [...directed, ...ends].map((d) => ({
    d,
    angle: Math.atan2(dot2(d, side), dot2(d, along)),
  }));
  const ahead = around.filter(({ d }) => dot2(d, along) >= -NO_CROSS).sort((p, q) => p.angle - q.angle);
  const behind = around
    .filter(({ d }) => dot2(d, along) <= NO_CROSS)
    .map(({ d, angle }) => ({ d, angle: angle < 0 ? angle + 2 * Math.PI : angle }))
    .sort((p, q) => p.angle - q.angle);
  const corners = [
    ...ahead.map(({ d }) => addScaled2(to, d, radius)),
    ...behind.map(({ d }) => addScaled2(from, d, radius)),
  ];
  return corners.filter((corner, i) => distance2(corner, corners[(i + 1) % corners.length]) > NOISE);
};

/** Do all openings lie inside the face, clear of its edge and of each other? Cost: O(n log n), and the pairs that come near. */
export const areApart = (openings: readonly OpeningOutline[], outline: readonly Vec2[]): boolean => {
  const near = nearOpenings(openings);
  return openings.every(
    ({ corners }, i) =>
      isInside(corners[0], outline) &&
      clearOf(corners, outline) &&
      near(i).every((j) => j < i || isClearAndOutside(corners, openings[j].corners)),
  );
};

/** Which others come as near to an opening as touches it, or could. */
export const nearOpenings = (openings: readonly OpeningOutline[]): ((index: number) => readonly number[]) => {
  const boxes = boxesOfPolygons(openings.map(({ corners }) => corners));
  const search = indexBoxes(boxes);
  return (i) => {
    const [x0, y0, x1, y1] = boxes.subarray(4 * i, 4 * i + 4);
    return search(x0 - TOUCHES, y0 - TOUCHES, x1 + TOUCHES, y1 + TOUCHES, (j) => j !== i);
  };
};

const isClearAndOutside = (a: readonly Vec2[], b: readonly Vec2[]): boolean =>
  !isInside(a[0], b) && !isInside(b[0], a) && clearOf(a, b);

const clearOf = (a: readonly Vec2[], b: readonly Vec2[]): boolean =>
  a.every((p, i) =>
    b.every((q, j) => {
      const p2 = a[(i + 1) % a.length];
      const q2 = b[(j + 1) % b.length];
      return (
        distanceToSegment(p, q, q2) >= TOUCHES && distanceToSegment(q, p, p2) >= TOUCHES && !segmentsCross(p, p2, q, q2)
      );
    }),
  );
