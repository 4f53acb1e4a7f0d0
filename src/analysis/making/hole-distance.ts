/** Holes beside bends, on the flat. Lengths mm. */
import { ROUND_OFF, SAME_POINT } from '../geometry/tolerance.js';
import { boxesOfPolygons, indexBoxes } from '../geometry/box-index.js';
import type { FlatBend, FlatHole, FlatPattern } from '../fold/flat-pattern.js';
import { flattenContour } from '../geometry/contour.js';
import { dot2, subtract2, unit2, type Vec2 } from '../geometry/vec.js';
import { memoBy } from '../cache/memo.js';

export interface NearHole {
  readonly hole: FlatHole;
  readonly bend: FlatBend;
  /** From the hole's edge to the nearer tangent line. */
  readonly distance: number;
  readonly needs: number;
}

/** mm. A hole longer than this along the bend counts as a slot: the strip of metal beside it is weaker. Common practice. */
const LONG_HOLE = 25;
/** mm. Fineness with which round holes are measured. */
const FINENESS = 0.02;

/**
 * Least distance from a hole's edge to the tangent line: two thicknesses, three for a hole that is longer than 25 mm
 * along the bend. Common practice, no source (the trade says: two thicknesses and the radius from the inside of the bend).
 */
export const holeDistanceNeeded = (thickness: number, lengthAlong: number): number =>
  (lengthAlong > LONG_HOLE ? 3 : 2) * thickness;

/** Holes that are nearer to a bend than they should be; one that reaches into a bend is told elsewhere. O(n log n). */
export const holesNearBends = memoBy((flat: FlatPattern): readonly NearHole[] => {
  const { bends, holes, thickness } = flat;
  if (bends.length === 0 || holes.length === 0) return [];
  const around = holeDistanceNeeded(thickness, Infinity);
  const search = indexBoxes(boxesOfPolygons(bends.map(({ tangents }) => tangents.flat())));
  return holes.flatMap((hole) => {
    // Reliefs and slots of tabs belong beside their bends.
    if (hole.opening === undefined) return [];
    const corners = flattenContour(hole.contour, FINENESS);
    const [x0, y0, x1, y1] = boxesOfPolygons([corners]);
    const found = search(x0 - around, y0 - around, x1 + around, y1 + around);
    return found.flatMap((i) => nearnessOf(hole, corners, bends[i], thickness) ?? []);
  });
});

const nearnessOf = (
  hole: FlatHole,
  corners: readonly Vec2[],
  bend: FlatBend,
  thickness: number,
): NearHole | undefined => {
  const along = unit2(subtract2(bend.end, bend.start));
  const stations = corners.map((p) => dot2(subtract2(p, bend.start), along));
  const [from, to] = [Math.min(...stations), Math.max(...stations)];
  const length = dot2(subtract2(bend.end, bend.start), along);
  if (to < 0 || from > length) return undefined;
  const across = corners.map((p) => (p[0] - bend.start[0]) * along[1] - (p[1] - bend.start[1]) * along[0]);
  const [least, most] = [Math.min(...across), Math.max(...across)];
  // One that stands on both sides of the line, or on it, is across the bend whatever its corners' distances are.
  const clear = least > 0 ? least : -most;
  const distance = Math.max(0, clear - bend.allowance / 2);
  const needs = holeDistanceNeeded(thickness, to - from);
  const isInBend = clear < bend.allowance / 2 - SAME_POINT;
  return distance < needs - ROUND_OFF && !isInBend ? { hole, bend, distance, needs } : undefined;
};
