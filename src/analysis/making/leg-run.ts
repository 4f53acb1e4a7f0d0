/** How much flat metal stands beside a bend. */
import type { FlatBend, FlatPattern } from '../fold/flat-pattern.js';
import type { Contour } from '../geometry/contour.js';
import { flattenContour } from '../geometry/contour.js';
import { ROUND_OFF } from '../geometry/tolerance.js';
import { memoBy } from '../cache/memo.js';
import { dot2, left2, subtract2, unit2, type Vec2 } from '../geometry/vec.js';

/** mm. Fineness with which round edges are measured. */
const ROUND_EDGE = 0.05;
/** Cross lines on which a leg is measured: a change of width at an odd place is found to 1/32 of the bend. */
const CROSS_LINES = 32;

/** Each panel is asked for once from every bend around it. */
const flattened = memoBy((region: Contour): readonly Vec2[] => flattenContour(region, ROUND_EDGE));

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
  const left = left2(along);
  const towardsChild = towardsChildOf(flat, bend, left);
  const sign = (towardsChild >= 0 ? 1 : -1) * (side === 1 ? 1 : -1);
  const toLeg = (p: Vec2): Vec2 => {
    const offset = subtract2(p, from);
    return [dot2(offset, left) * sign, dot2(offset, along)];
  };
  return commonRunOf([flattened(panel.region).map(toLeg)], [[0, dot2(subtract2(to, from), along)]]);
};

/** Positive: the child lies on the side of `left`. Without an angle both tangent lines are one, and its corners tell. */
export const towardsChildOf = (flat: FlatPattern, bend: FlatBend, left: Vec2): number => {
  const zone = dot2(left, subtract2(bend.tangents[1][0], bend.tangents[0][0]));
  if (Math.abs(zone) > ROUND_OFF) return zone;
  return flattened(flat.panels[bend.child].region).reduce((sum, p) => sum + dot2(left, subtract2(p, bend.start)), 0);
};

/** mm. Pieces of one sheet that lie this near to each other run on into one another. */
const JOINT = 0.01;

/**
 * The same over several pieces that together are the flat metal beside a line, as polygons in (distance, station along
 * the line): runs on from the piece nearest to the line as long as the next one joins on. Measured over the given spans
 * of stations, ascending. Of each piece the first stretch inside counts. Cost: linear in corners and cross lines.
 */
export const commonRunOf = (
  pieces: readonly (readonly Vec2[])[],
  spans: readonly (readonly [number, number])[],
): number => {
  const stations = stationsIn(spans);
  const insides = pieces.map((corners) => firstInside(corners, stations));
  const runs = stations.map((_, i) => runAt(insides, i));
  runs.sort();
  return runs[Math.floor(runs.length / 2)];
};

/** CROSS_LINES stations spread evenly over the spans. */
const stationsIn = (spans: readonly (readonly [number, number])[]): Float64Array => {
  const stations = new Float64Array(CROSS_LINES);
  const total = spans.reduce((sum, [from, to]) => sum + to - from, 0);
  let span = 0;
  let before = 0;
  for (let i = 0; i < CROSS_LINES; i++) {
    const along = (total * (i + 0.5)) / CROSS_LINES;
    while (span + 1 < spans.length && along > before + spans[span][1] - spans[span][0]) {
      before += spans[span][1] - spans[span][0];
      span++;
    }
    stations[i] = spans[span][0] + along - before;
  }
  return stations;
};

/** Per station, where the cross line first enters the polygon and first leaves it; infinite where it does not meet it. */
interface Inside {
  readonly enters: Float64Array;
  readonly leaves: Float64Array;
}

const firstInside = (corners: readonly Vec2[], stations: Float64Array): Inside => {
  const enters = new Float64Array(stations.length).fill(Infinity);
  const leaves = new Float64Array(stations.length).fill(Infinity);
  for (let i = 0, j = corners.length - 1; i < corners.length; j = i++) {
    const [d0, s0] = corners[j];
    const [d1, s1] = corners[i];
    const [low, high] = s0 < s1 ? [s0, s1] : [s1, s0];
    for (let k = firstFrom(stations, low); k < stations.length && stations[k] < high; k++) {
      const station = stations[k];
      const distance = d0 + ((d1 - d0) * (station - s0)) / (s1 - s0);
      if (distance < enters[k]) {
        leaves[k] = enters[k];
        enters[k] = distance;
      } else if (distance < leaves[k]) leaves[k] = distance;
    }
  }
  return { enters, leaves };
};

/** Index of the first station that is not before `low`. */
const firstFrom = (stations: Float64Array, low: number): number => {
  let [from, to] = [0, stations.length];
  while (from < to) {
    const middle = (from + to) >> 1;
    if (stations[middle] < low) from = middle + 1;
    else to = middle;
  }
  return from;
};

const runAt = (insides: readonly Inside[], station: number): number => {
  if (insides.length === 1) return finite(insides[0].leaves[station]);
  const met = insides.filter(({ leaves }) => leaves[station] < Infinity);
  met.sort((a, b) => a.enters[station] - b.enters[station]);
  let end: number | undefined;
  for (const { enters, leaves } of met) {
    if (end !== undefined && enters[station] > end + JOINT) break;
    end = Math.max(end ?? 0, leaves[station]);
  }
  return end ?? 0;
};

const finite = (value: number): number => (value < Infinity ? Math.max(0, value) : 0);
