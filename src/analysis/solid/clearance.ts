/** How near metal comes to metal. */
import { boxesOfPolygons, indexBoxesByNearness } from '../geometry/box-index.js';
import { hullDistance } from '../geometry/hulls/hull-distance.js';
import { lengthOf, type Vec3 } from '../geometry/vec.js';
import type { FoldedPart } from '../fold/flat-pattern.js';
import { bodiesOf, boxedPrisms, depthOf, type Body, type Box } from './prisms.js';

/**
 * Least distance between the metal of some parts and that of others, mm; where they take the same room, less than 0 by how far
 * one would have to move to be clear where they overlap most. Undefined where one side has no metal. Rounds are taken as
 * chords. Cost: O(n log n) in plates and rolls, and the triangles of those that are near.
 */
export const clearanceBetween = (ones: readonly FoldedPart[], others: readonly FoldedPart[]): number | undefined =>
  clearanceOfBodies(ones.flatMap(bodiesOf), others.flatMap(bodiesOf));

/** The same of bodies. */
export const clearanceOfBodies = (own: readonly Body[], theirs: readonly Body[]): number | undefined => {
  if (own.length === 0 || theirs.length === 0) return undefined;
  const { within, nearest } = indexBoxesByNearness(boxesOfPolygons(theirs.map(({ corners }) => corners)));
  const { low, high } = own[0];
  let least = gapOf(own[0], theirs[nearest((low[0] + high[0]) / 2, (low[1] + high[1]) / 2)], Infinity);
  for (const body of own) {
    const reach = Math.max(0, least);
    const [from, to] = [body.low, body.high];
    for (const i of within(from[0] - reach, from[1] - reach, to[0] + reach, to[1] + reach))
      least = Math.min(least, gapOf(body, theirs[i], least));
  }
  return least;
};

/** As far as it is less than what is known already. */
const gapOf = (a: Body, b: Body, known: number): number => {
  let least = known;
  if (boxGap(a, b) > Math.max(0, least)) return least;
  for (const p of boxedPrisms(a)) {
    if (boxGap(p, b) > Math.max(0, least)) continue;
    for (const q of boxedPrisms(b)) {
      if (boxGap(p, q) > Math.max(0, least)) continue;
      const depth = depthOf(p, q, 0);
      least = Math.min(least, depth > 0 ? -depth : hullDistance(p.corners, q.corners));
    }
  }
  return least;
};

const boxGap = (a: Box, b: Box): number =>
  lengthOf([0, 1, 2].map((i) => Math.max(0, a.low[i] - b.high[i], b.low[i] - a.high[i])) as unknown as Vec3);
