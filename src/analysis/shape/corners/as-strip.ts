import { NOISE, ROUND_OFF } from '../../geometry/tolerance.js';
import { distance, dot, lengthOf, scale, subtract, type Vec3 } from '../../geometry/vec.js';
import { legDirection, type LegTravel, type StripStart } from './strip.js';

/** A flat face by its corners; `normal` points to its wet side. */
export interface FaceOfRow {
  readonly corners: readonly Vec3[];
  readonly normal: Vec3;
}

/** An edge across the row: index of a face that has it, and of its corners; `left` has the smaller x or y. */
export interface FoldOfRow {
  readonly face: number;
  readonly left: number;
  readonly right: number;
}

export interface RowAsStrip extends StripStart {
  readonly legs: readonly LegTravel[];
  /** Where each leg begins, and last where the last one ends. */
  readonly folds: readonly FoldOfRow[];
}

const AXES: readonly (0 | 1)[] = [0, 1];
const UNITS: readonly Vec3[] = [
  [1, 0, 0],
  [0, 1, 0],
];

/**
 * The strip that a row of faces is, each joined to the one before along a whole edge: upright to those edges, which are level, of
 * one width and run along x or y. Undefined where it is none, or where a leg would run straight back. Corners agree to
 * `ROUND_OFF`. O(n) in faces.
 */
export const asStrip = (faces: readonly FaceOfRow[]): RowAsStrip | undefined => {
  for (const axis of AXES) {
    const found = alongAxis(faces, axis);
    if (found) return found;
  }
  return undefined;
};

/** The edge of a face that lies as a whole along x (0) or y (1) on one of another; undefined where there is none, or more. */
export const commonFold = (a: readonly Vec3[], b: readonly Vec3[], axis: 0 | 1): number | undefined => {
  const found = foldsOf(a, axis).filter((edge) => {
    const [start, end] = edgeOf(a, edge);
    return foldsOf(b, axis).some((other) => {
      const [from, to] = edgeOf(b, other);
      return (isAt(start, to) && isAt(end, from)) || (isAt(start, from) && isAt(end, to));
    });
  });
  return found.length === 1 ? found[0] : undefined;
};

const alongAxis = (faces: readonly FaceOfRow[], axis: 0 | 1): RowAsStrip | undefined => {
  const starts = startEdges(faces, axis);
  const last = faces.length - 1;
  if (!starts) return undefined;
  const edges = [...starts.map((edge, face) => ({ face, edge })), { face: last, edge: (starts[last] + 2) % 4 }];
  const folds = edges.map(({ face, edge }): FoldOfRow => {
    const [start, end] = edgeOf(faces[face].corners, edge);
    const next = (edge + 1) % 4;
    return start[axis] < end[axis] ? { face, left: edge, right: next } : { face, left: next, right: edge };
  });
  const places = folds.map(({ face, left }) => faces[face].corners[left]);
  const widths = edges.map(({ face, edge }) => distance(...edgeOf(faces[face].corners, edge)));
  const isEven = places.every(
    (place, i) => Math.abs(place[axis] - places[0][axis]) <= ROUND_OFF && Math.abs(widths[i] - widths[0]) <= ROUND_OFF,
  );
  if (!isEven) return undefined;
  for (const sign of [1, -1]) {
    const heading = scale(UNITS[1 - axis], sign);
    const legs = faces.map((_, i) => travelOf(places[i], places[i + 1], heading));
    const isMeant = legs.every(
      ({ rise }, i) =>
        Math.abs(rise) < Math.PI - NOISE && dot(legDirection(heading, rise + Math.PI / 2), faces[i].normal) > 0,
    );
    if (isMeant) return { from: places[0], heading, across: UNITS[axis], width: widths[0], legs, folds };
  }
  return undefined;
};

/** Per face the edge that it begins with; undefined where one is not joined to the next by the edge opposite. */
const startEdges = (faces: readonly FaceOfRow[], axis: 0 | 1): readonly number[] | undefined => {
  const starts: number[] = [];
  for (let i = 0; i < faces.length; i++) {
    const { corners } = faces[i];
    if (corners.length !== 4) return undefined;
    const end = i + 1 < faces.length ? commonFold(corners, faces[i + 1].corners, axis) : undefined;
    const start =
      i > 0 ? commonFold(corners, faces[i - 1].corners, axis) : end === undefined ? undefined : (end + 2) % 4;
    if (start === undefined || (i + 1 < faces.length && end !== (start + 2) % 4)) return undefined;
    if (foldsOf(corners, axis).length !== 2) return undefined;
    starts.push(start);
  }
  return starts;
};

const travelOf = (from: Vec3, to: Vec3, heading: Vec3): LegTravel => {
  const way = subtract(to, from);
  return { length: lengthOf(way), rise: Math.atan2(way[2], dot(way, heading)) };
};

/** The edges of a four-cornered face that run along x or y, and have a length. */
const foldsOf = (corners: readonly Vec3[], axis: 0 | 1): readonly number[] =>
  corners.flatMap((_, edge) => {
    const [start, end] = edgeOf(corners, edge);
    const way = subtract(end, start);
    const isAlong = way.every((each, i) => i === axis || Math.abs(each) <= ROUND_OFF);
    return isAlong && Math.abs(way[axis]) > ROUND_OFF ? [edge] : [];
  });

const edgeOf = (corners: readonly Vec3[], edge: number): readonly [Vec3, Vec3] => [
  corners[edge],
  corners[(edge + 1) % corners.length],
];

const isAt = (a: Vec3, b: Vec3): boolean => distance(a, b) <= ROUND_OFF;
