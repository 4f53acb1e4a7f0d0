/** How near metal comes to metal. */
import { boxesOfPolygons, indexBoxesByNearness } from '../geometry/box-index.js';
import { hullGap } from '../geometry/hulls/hull-distance.js';
import { addScaled, lengthOf, subtract, type Vec3 } from '../geometry/vec.js';
import { NOISE } from '../geometry/tolerance.js';
import type { FoldedPart } from '../fold/flat-pattern.js';
import type { Piece } from './body-pieces.js';
import { bodiesOf, closePrisms, depthOf, type Body, type Box, type Prism } from './prisms.js';
import type { Slack } from './slack.js';

export interface Nearness {
  /** mm; where they take the same room, less than 0 by how far one would have to move to be clear where they overlap most. */
  readonly gap: number;
  /** Where they come nearest, on either. */
  readonly points: readonly [Vec3, Vec3];
}

/**
 * Least distance between the metal of some parts and that of others, mm; less than 0 where they take the same room. Undefined where
 * one side has no metal. Rounds are taken as chords that lie outside of their arcs by at most 0.005 mm. Cost: O(n log n) in plates and rolls, and the triangles of those that are near.
 */
export const clearanceBetween = (ones: readonly FoldedPart[], others: readonly FoldedPart[]): number | undefined =>
  nearestOfBodies(ones.flatMap(bodiesOf), others.flatMap(bodiesOf))?.gap;

/** The same of bodies. */
export const clearanceOfBodies = (own: readonly Body[], theirs: readonly Body[]): number | undefined =>
  nearestOfBodies(own, theirs)?.gap;

/** The same, with where they come nearest. */
export const nearestOfBodies = (own: readonly Body[], theirs: readonly Body[]): Nearness | undefined =>
  nearestPair(own, theirs, 0, (a, b, known) => nearer(a, b, known));

/**
 * The same with all metal as far off as it may be, each place in the worst way: looked at where two pieces come nearest and at all of
 * their corners, between which the movements are linear.
 */
export const worstOfPieces = (own: readonly Piece[], theirs: readonly Piece[], slack: Slack): Nearness | undefined => {
  const [mostOwn, mostTheirs] = [own, theirs].map((pieces) =>
    pieces.map(({ face, body }) => slack.most(face, body.corners)),
  );
  const faces = new Map<Body, Piece['face']>([...own, ...theirs].map(({ body, face }) => [body, face]));
  const margin = Math.max(0, ...mostOwn) + Math.max(0, ...mostTheirs);
  return nearestPair(
    own.map(({ body }) => body),
    theirs.map(({ body }) => body),
    margin,
    (a, b, known) =>
      nearer(a, b, known, margin, (at) => {
        const way = wayBetween(at.points);
        return at.gap - slack.along(faces.get(a), at.points[0], way) - slack.along(faces.get(b), at.points[1], way);
      }),
  );
};

/** The unit way from one point to another; any where they are one. */
const wayBetween = ([from, to]: Nearness['points']): Vec3 => {
  const between = subtract(to, from);
  const length = lengthOf(between);
  return length > NOISE ? addScaled([0, 0, 0], between, 1 / length) : [0, 0, 1];
};

type Nearer = (a: Body, b: Body, known: Nearness | undefined) => Nearness | undefined;

/** Of all pairs whose boxes come within what is known, and a margin. */
const nearestPair = (
  own: readonly Body[],
  theirs: readonly Body[],
  margin: number,
  compare: Nearer,
): Nearness | undefined => {
  if (own.length === 0 || theirs.length === 0) return undefined;
  const { within, nearest } = indexBoxesByNearness(boxesOfPolygons(theirs.map(({ corners }) => corners)));
  const { low, high } = own[0];
  let known = compare(own[0], theirs[nearest((low[0] + high[0]) / 2, (low[1] + high[1]) / 2)], undefined);
  for (const body of own) {
    const reach = Math.max(0, known?.gap ?? Infinity) + margin;
    const [from, to] = [body.low, body.high];
    for (const i of within(from[0] - reach, from[1] - reach, to[0] + reach, to[1] + reach))
      known = compare(body, theirs[i], known);
  }
  return known;
};

/** What is nearer than what is known already, if anything is; `gapAt`: what a distance counts for, less by the margin at most. */
const nearer = (
  a: Body,
  b: Body,
  known: Nearness | undefined,
  margin = 0,
  gapAt: ((at: Nearness) => number) | undefined = undefined,
): Nearness | undefined => {
  let best = known;
  const reach = (): number => Math.max(0, best?.gap ?? Infinity) + margin;
  if (boxGap(a, b) > reach()) return best;
  for (const p of closePrisms(a)) {
    if (boxGap(p, b) > reach()) continue;
    for (const q of closePrisms(b)) {
      if (boxGap(p, q) > reach()) continue;
      for (const at of gapAt ? placesOf(p, q) : [nearnessOf(p, q)]) {
        const gap = gapAt ? gapAt(at) : at.gap;
        if (gap < (best?.gap ?? Infinity)) best = { gap, points: at.points };
      }
    }
  }
  return best;
};

const nearnessOf = (p: Prism & Box, q: Prism & Box): Nearness => {
  const depth = depthOf(p, q, 0);
  if (depth <= 0) {
    const { distance, points } = hullGap(p.corners, q.corners);
    return { gap: distance, points };
  }
  const middle = [0, 1, 2].map(
    (k) => (Math.max(p.low[k], q.low[k]) + Math.min(p.high[k], q.high[k])) / 2,
  ) as unknown as Vec3;
  return { gap: -depth, points: [middle, middle] };
};

/** Where they come nearest, and each corner of one with what is nearest to it of the other. */
const placesOf = (p: Prism & Box, q: Prism & Box): readonly Nearness[] => {
  const nearest = nearnessOf(p, q);
  if (nearest.gap <= 0) return [nearest];
  const fromCorner = (corner: Vec3, to: readonly Vec3[], isFirst: boolean): Nearness => {
    const { distance, points } = hullGap([corner], to);
    return { gap: distance, points: isFirst ? points : [points[1], points[0]] };
  };
  return [
    nearest,
    ...p.corners.map((corner) => fromCorner(corner, q.corners, true)),
    ...q.corners.map((corner) => fromCorner(corner, p.corners, false)),
  ];
};

const boxGap = (a: Box, b: Box): number =>
  lengthOf([0, 1, 2].map((i) => Math.max(0, a.low[i] - b.high[i], b.low[i] - a.high[i])) as unknown as Vec3);
