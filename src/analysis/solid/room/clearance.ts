/** How near metal comes to metal. */
import { boxesOfPolygons, indexBoxesByNearness } from '../../geometry/box-index.js';
import { hullDistance, hullGap } from '../../geometry/hulls/hull-distance.js';
import { NOISE } from '../../geometry/tolerance.js';
import { lengthOf, type Vec3 } from '../../geometry/vec.js';
import type { FoldedPart } from '../../fold/flat-pattern.js';
import { leastMoveApart, middleOfShared } from './parting.js';
import {
  bodiesOf,
  CLOSE_FINENESS,
  closePrisms,
  depthOf,
  spanOf,
  type Body,
  type Box,
  type Prism,
} from '../bodies/prisms.js';

export interface Nearness {
  /** mm; where they take the same room, less than 0 by how far one of the two bodies that share most must go to be clear of the other. */
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
export const nearestOfBodies = (own: readonly Body[], theirs: readonly Body[]): NearBodies | undefined => {
  const nearest = nearestPair(own, theirs);
  if (!nearest) return undefined;
  const { gap, points, bodies, at } = nearest;
  const isDeep = gap < 0 && !at.some(({ isFlat }) => isFlat);
  return { gap: isDeep ? -leastMoveApart(...bodies, at) : gap, points, bodies };
};

/** And which of the bodies come nearest. */
export interface NearBodies extends Nearness {
  readonly bodies: readonly [Body, Body];
}

/** Of two convex pieces, and of which bodies. */
interface NearPair extends NearBodies {
  readonly at: readonly [Prism, Prism];
}

/** Of all pairs whose boxes come within what is known. */
const nearestPair = (own: readonly Body[], theirs: readonly Body[]): NearPair | undefined => {
  if (own.length === 0 || theirs.length === 0) return undefined;
  const { within, nearest } = indexBoxesByNearness(boxesOfPolygons(theirs.map(({ corners }) => corners)));
  const { low, high } = own[0];
  let known = nearer(own[0], theirs[nearest((low[0] + high[0]) / 2, (low[1] + high[1]) / 2)], undefined);
  for (const body of own) {
    const reach = Math.max(0, known?.gap ?? Infinity);
    const [from, to] = [body.low, body.high];
    for (const i of within(from[0] - reach, from[1] - reach, to[0] + reach, to[1] + reach))
      known = nearer(body, theirs[i], known);
  }
  return known;
};

/** What is nearer than what is known already, if anything is. */
const nearer = (a: Body, b: Body, known: NearPair | undefined): NearPair | undefined => {
  let best = known;
  // Boxes that meet say nothing of how deep what is in them does.
  const isNoNearer = (least: number): boolean => best !== undefined && least > 0 && least >= best.gap - NOISE;
  // Sheets that lie beside one another are as far apart along their normals as anywhere.
  const axes = [...a.faces, ...b.faces];
  const isFar = (p: Corners & Box, q: Corners & Box, coarse: number): boolean =>
    isNoNearer(boxGap(p, q) - coarse) ||
    axes.some((axis) => isNoNearer(apartAlong(axis, p.corners, q.corners) - coarse));
  // Most bodies that are near one another by their boxes are not by their hulls.
  if (best && (isFar(a, b, CLOSE_FINENESS) || isNoNearer(hullDistance(a.corners, b.corners) - CLOSE_FINENESS)))
    return best;
  for (const p of closePrisms(a)) {
    if (isFar(p, b, CLOSE_FINENESS)) continue;
    for (const q of closePrisms(b)) {
      if (isFar(p, q, 0)) continue;
      const near = nearnessOf(p, q);
      if (near.gap < (best?.gap ?? Infinity)) best = { ...near, bodies: [a, b], at: [p, q] };
    }
  }
  return best;
};

type Corners = Pick<Prism, 'corners'>;

/** Between the extents of both on an axis, mm; less than 0 where they overlap. */
const apartAlong = (axis: Vec3, p: readonly Vec3[], q: readonly Vec3[]): number => {
  const [a, b] = [spanOf(axis, p), spanOf(axis, q)];
  return Math.max(b[0] - a[1], a[0] - b[1]);
};

/** How near two convex pieces come; of such as share room the least extent of what they share, less than 0. */
export const nearnessOf = (p: Prism & Box, q: Prism & Box): Nearness => {
  const depth = depthOf(p, q, 0);
  if (depth <= 0) {
    const { distance, points } = hullGap(p.corners, q.corners);
    return { gap: distance, points };
  }
  const middle = middleOfShared(p, q);
  return { gap: -depth, points: [middle, middle] };
};

/** Between two boxes, mm. */
export const boxGap = (a: Box, b: Box): number =>
  lengthOf([0, 1, 2].map((i) => Math.max(0, a.low[i] - b.high[i], b.low[i] - a.high[i])) as unknown as Vec3);
