/** How much room two bodies share. */
import { memo } from '../../cache/memo.js';
import type { Vec3 } from '../../geometry/vec.js';
import { leastMoveApart, middleOfBoxes, middleOfShared } from './parting.js';
import { boxedPrisms, depthOf, overlapAlong, type Body, type Box, type Prism } from '../bodies/prisms.js';

export interface Overlap {
  /** Least extent of what they share where that is most, along all axes that could part them there, mm. */
  readonly least: number;
  /** How far one must go, straight, to be clear of the other, mm; of a thing of another file how far it is in, at least. */
  readonly depth: () => number;
  /** Within both, where they share most. */
  readonly point: Vec3;
  /** What each two prisms of both share. */
  readonly places: readonly SharedPlace[];
}

/** `exact` is within both, and costs: it lies no farther than `within`, mm, from `about`, the middle of the room of both boxes. */
export interface SharedPlace {
  readonly about: Vec3;
  readonly within: number;
  readonly exact: () => Vec3;
}

/** mm. Metal that overlaps by less gives way when it is bent and joined. Common practice, no source. */
const LEAST_SHARED = 0.1;

/** Most neighbours lie wholly on one side of one another. */
export const mayShare = (a: Body, b: Body): boolean => {
  const isApart = (axis: Vec3): boolean => overlapAlong(axis, a.corners, b.corners) <= LEAST_SHARED;
  return !a.faces.some(isApart) && !b.faces.some(isApart);
};

/** Cost: the pairs of their prisms whose boxes meet. */
export const overlapOf = (a: Body, b: Body): Overlap | undefined => {
  if (!mayShare(a, b)) return undefined;
  const shared: Shared[] = [];
  const near = boxedPrisms(b).filter((q) => boxesMeet(q, a));
  for (const p of near.length > 0 ? boxedPrisms(a) : []) {
    if (!boxesMeet(p, b)) continue;
    for (const q of near) {
      if (!boxesMeet(p, q)) continue;
      const depth = depthOf(p, q, LEAST_SHARED);
      if (depth > LEAST_SHARED) shared.push({ depth, at: [p, q] });
    }
  }
  if (shared.length === 0) return undefined;
  const { depth, at } = shared.reduce((most, each) => (each.depth > most.depth ? each : most));
  const isOpen = at.some(({ isFlat }) => isFlat);
  return {
    least: depth,
    depth: memo(() => (isOpen ? depth : leastMoveApart(a, b, at))),
    point: middleOfShared(...at),
    places: shared.map((each) => placeOf(...each.at)),
  };
};

interface Shared {
  readonly depth: number;
  readonly at: readonly [Prism & Box, Prism & Box];
}

const placeOf = (p: Prism & Box, q: Prism & Box): SharedPlace => {
  const sizes = [0, 1, 2].map((k) => Math.min(p.high[k], q.high[k]) - Math.max(p.low[k], q.low[k]));
  return { about: middleOfBoxes(p, q), within: Math.hypot(...sizes) / 2, exact: () => middleOfShared(p, q) };
};

/** A flat one may lie within the other's box. */
const boxesMeet = (p: Box, q: Box): boolean =>
  [0, 1, 2].every((k) => Math.min(p.high[k], q.high[k]) >= Math.max(p.low[k], q.low[k]));
