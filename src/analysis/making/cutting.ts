/** Pieces against the cutters of the shop. Lengths mm. */
import type { FlatPattern } from '../fold/flat-pattern.js';
import type { Contour } from '../geometry/contour.js';
import { boxesOfSides, indexBoxes } from '../geometry/box-index.js';
import { flattenContour } from '../geometry/contour.js';
import { SAME_POINT } from '../geometry/tolerance.js';
import { distance2, type Vec2 } from '../geometry/vec.js';
import { memoBy } from '../cache/memo.js';
import { hullOf } from '../geometry/hulls/convex.js';

/** mm. Fineness with which round edges are measured. */
const FINENESS = 0.02;

const flattened = memoBy((contour: Contour): readonly Vec2[] => flattenContour(contour, FINENESS));

/** Smallest rectangle around the flat, long side first: one of its sides lies along an edge of the hull. */
export const smallestBlank = memoBy((flat: FlatPattern): readonly [number, number] => {
  const hull = hullOf(flattened(flat.outline).flat());
  let best: readonly [number, number] = [Infinity, Infinity];
  for (let i = 0; i < hull.length; i += 2) {
    const j = (i + 2) % hull.length;
    const length = Math.hypot(hull[j] - hull[i], hull[j + 1] - hull[i + 1]);
    const [ux, uy] = [(hull[j] - hull[i]) / length, (hull[j + 1] - hull[i + 1]) / length];
    const along = spanOf(hull, ux, uy);
    const across = spanOf(hull, -uy, ux);
    if (along * across < best[0] * best[1]) best = [Math.max(along, across), Math.min(along, across)];
  }
  return best;
});

const spanOf = (points: Float64Array, ux: number, uy: number): number => {
  let [low, high] = [Infinity, -Infinity];
  for (let i = 0; i < points.length; i += 2) {
    const at = points[i] * ux + points[i + 1] * uy;
    low = Math.min(low, at);
    high = Math.max(high, at);
  }
  return high - low;
};

/** Width of a hole at its narrowest, between parallel lines; the diameter of a round one. */
export const widthOfHole = (contour: Contour): number => {
  const hull = hullOf(flattenContour(contour, FINENESS).flat());
  let least = Infinity;
  for (let i = 0; i < hull.length; i += 2) {
    const j = (i + 2) % hull.length;
    const length = Math.hypot(hull[j] - hull[i], hull[j + 1] - hull[i + 1]);
    if (length === 0) continue;
    least = Math.min(least, spanOf(hull, -(hull[j + 1] - hull[i + 1]) / length, (hull[j] - hull[i]) / length));
  }
  return least;
};

export interface Notch {
  readonly width: number;
  readonly at: Vec2;
}

/** A place is a notch when the way round it along the outline is so many times as long as the way across. */
const AROUND = 3;

/**
 * The narrowest place, below `atMost`, of a notch in the outline: from a corner straight across the open to another edge.
 * Steps and blunt corners are none. Undefined when there is none so narrow. O(n log n).
 */
export const narrowestNotch = (outline: Contour, atMost: number): Notch | undefined => {
  const known = notchesOf(outline);
  if (!known.has(atMost)) known.set(atMost, findNarrowestNotch(outline, atMost));
  return known.get(atMost);
};

/** Found already, by the width looked for. */
const notchesOf = memoBy((_outline: Contour) => new Map<number, Notch | undefined>());

const findNarrowestNotch = (outline: Contour, atMost: number): Notch | undefined => {
  const corners = flattened(outline);
  const n = corners.length;
  const stations = stationsOf(corners);
  const search = indexBoxes(boxesOfSides(corners));
  let narrowest: Notch | undefined;
  corners.forEach((corner, i) => {
    const [x, y] = corner;
    const meetsHere = (edge: number): boolean => edge === i || (edge + 1) % n === i;
    for (const edge of search(x - atMost, y - atMost, x + atMost, y + atMost, (side) => !meetsHere(side))) {
      const foot = nearestOn(corner, corners[edge], corners[(edge + 1) % n]);
      const width = distance2(corner, foot);
      if (width >= (narrowest?.width ?? atMost - SAME_POINT)) continue;
      const along = Math.abs(stations[edge] + distance2(corners[edge], foot) - stations[i]);
      if (Math.min(along, stations[n] - along) < AROUND * width || !leavesMetal(corners, i, foot)) continue;
      narrowest = { width, at: corner };
    }
  });
  return narrowest;
};

/** Length of the outline up to each corner, and its whole length. */
const stationsOf = (corners: readonly Vec2[]): readonly number[] => {
  const stations = [0];
  corners.forEach((corner, i) => stations.push(stations[i] + distance2(corner, corners[(i + 1) % corners.length])));
  return stations;
};

const nearestOn = (p: Vec2, a: Vec2, b: Vec2): Vec2 => {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const squared = dx * dx + dy * dy;
  const t = squared > 0 ? Math.min(1, Math.max(0, ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / squared)) : 0;
  return [a[0] + dx * t, a[1] + dy * t];
};

/** Does the way from a corner of a counter-clockwise outline to a point start out of the metal? */
const leavesMetal = (corners: readonly Vec2[], i: number, to: Vec2): boolean => {
  const n = corners.length;
  const here = corners[i];
  const cross = (a: Vec2, b: Vec2): number => (a[0] - here[0]) * (b[1] - here[1]) - (a[1] - here[1]) * (b[0] - here[0]);
  const [before, after] = [corners[(i + n - 1) % n], corners[(i + 1) % n]];
  const inAfter = cross(after, to) > 0;
  const inBefore = cross(to, before) > 0;
  const isInMetal = cross(after, before) > 0 ? inAfter && inBefore : inAfter || inBefore;
  return !isInMetal && distance2(here, to) > FINENESS;
};
