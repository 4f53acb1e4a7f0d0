/** How much flat metal stands beside a bend. */
import type { FlatBend, FlatPattern } from '../fold/flat-pattern.js';
import { flattenContour } from '../geometry/contour.js';
import { dot2, left2, subtract2, unit2, type Vec2 } from '../geometry/vec.js';

/** mm. Fineness with which round edges are measured. */
const ROUND_EDGE = 0.05;
/** Cross lines on which a leg is measured: a change of width at an odd place is found to 1/32 of the bend. */
const CROSS_LINES = 32;

/** Which side of the bend line: towards the parent panel or the child panel. */
export type BendSide = 0 | 1;

/**
 * Flat length in mm from the bend's tangent line to the panel's far edge, square to the bend: the depth that at least
 * half of the bend's length has. Mitred ends slip into a die without harm, so they do not count (common practice, no
 * source). 0 when the panel does not touch the bend.
 */
export const legRunOf = (flat: FlatPattern, bend: FlatBend, side: BendSide): number => {
  const panel = flat.panels[side === 0 ? bend.parent : bend.child];
  const [from, to] = bend.tangents[side];
  const along = unit2(subtract2(bend.end, bend.start));
  const towardsChild = subtract2(bend.tangents[1][0], bend.tangents[0][0]);
  const left = left2(along);
  const sign = (dot2(left, towardsChild) >= 0 ? 1 : -1) * (side === 1 ? 1 : -1);
  const toLeg = (p: Vec2): Vec2 => {
    const offset = subtract2(p, from);
    return [dot2(offset, left) * sign, dot2(offset, along)];
  };
  return commonRunOf([flattenContour(panel.region, ROUND_EDGE).map(toLeg)], [[0, dot2(subtract2(to, from), along)]]);
};

/** mm. Pieces of one sheet that lie this near to each other run on into one another. */
const JOINT = 0.01;

/**
 * The same over several pieces that together are the flat metal beside a line, as polygons in (distance, station along
 * the line): runs on from the piece nearest to the line as long as the next one joins on. Measured over the given spans
 * of stations.
 */
export const commonRunOf = (
  pieces: readonly (readonly Vec2[])[],
  spans: readonly (readonly [number, number])[],
): number => {
  const runs = stationsIn(spans).map((station) => runAt(pieces, station));
  return runs.sort((a, b) => b - a)[Math.ceil(runs.length / 2) - 1];
};

/** CROSS_LINES stations spread evenly over the spans. */
const stationsIn = (spans: readonly (readonly [number, number])[]): number[] => {
  const total = spans.reduce((sum, [from, to]) => sum + to - from, 0);
  return Array.from({ length: CROSS_LINES }, (_, i) => {
    let along = (total * (i + 0.5)) / CROSS_LINES;
    for (const [from, to] of spans) {
      if (along <= to - from) return from + along;
      along -= to - from;
    }
    return spans[spans.length - 1][1];
  });
};

const runAt = (pieces: readonly (readonly Vec2[])[], station: number): number => {
  const lengths = pieces.flatMap((corners) => intervalsAt(corners, station)).sort((a, b) => a[0] - b[0]);
  let end: number | undefined;
  for (const [from, to] of lengths) {
    if (end !== undefined && from > end + JOINT) break;
    end = Math.max(end ?? 0, to);
  }
  return end ?? 0;
};

/** Where the cross line at that station runs inside the polygon. */
const intervalsAt = (corners: readonly Vec2[], station: number): readonly (readonly [number, number])[] => {
  const crossings: number[] = [];
  for (let i = 0, j = corners.length - 1; i < corners.length; j = i++) {
    const [d0, s0] = corners[j];
    const [d1, s1] = corners[i];
    if (s0 > station !== s1 > station) crossings.push(d0 + ((d1 - d0) * (station - s0)) / (s1 - s0));
  }
  crossings.sort((a, b) => a - b);
  const intervals: (readonly [number, number])[] = [];
  for (let i = 0; i + 1 < crossings.length; i += 2) intervals.push([crossings[i], crossings[i + 1]]);
  return intervals;
};
