/** Levels of waters as they fill, step by step, until as much leaves each as comes to it. */
import { solveSparse, type SparseRow } from '../../geometry/numeric/sparse-solve.js';
import { NEARLY_LEVEL } from '../../model/tolerance.js';
import { excessAt, offBy, slopeOf } from './excess.js';
import type { Link, Network } from './links.js';

/** Far more than many hundreds of waters needed that are all drowned. */
const STEPS = 1000;
/** mm. As far as all that runs in raises one water in the first step. */
const FIRST_RISE = 5;
/** Times that a step gets longer when less is off after it, and shorter when a little more is, or much more, which undoes it. */
const LONGER = 2;
const SHORTER = 0.5;
const UNDONE = 0.1;
const MUCH_MORE = 1.5;

/**
 * Steps of time taken backward: each moves the levels to where they would be in balance if every water had as much room to fill as makes the
 * steps small, which get longer as less is off; endless ones are Newton's method. What runs over a drowned crest grows steeply while the
 * levels differ by little, so that its slope there is taken through the point at which they do not differ, which is never too
 * little. `total`: all that runs in, mm3/s; `least`: what is off by less is in balance. Source: C. T. Kelley, D. E. Keyes, "Convergence analysis
 * of pseudo-transient continuation", SIAM Journal on Numerical Analysis 35 (1998), from memory.
 */
export const filled = (
  network: Network,
  from: Float64Array,
  { total, least }: { readonly total: number; readonly least: number },
): Float64Array => {
  let levels = from;
  let off = offBy(network, levels);
  let rise = FIRST_RISE;
  for (let step = 0; step < STEPS && off > least; step++) {
    const rows = steepSlopes(network, levels);
    for (const [node, row] of rows.entries()) row.set(node, (row.get(node) ?? 0) + total / rise);
    const move = solveSparse(rows, [...excessAt(network, levels)]);
    const next = levels.map((level, node) => Math.max(network.start[node], level + move[node]));
    const left = offBy(network, next);
    if (left > MUCH_MORE * off) {
      rise *= UNDONE;
      continue;
    }
    rise *= left < off ? LONGER : SHORTER;
    [levels, off] = [next, left];
  }
  return levels;
};

/** How what leaves each node grows with each level, or a little more: rows by what leaves, columns by level. */
const steepSlopes = ({ inflow, links, drains }: Network, levels: Float64Array): readonly SparseRow[] => {
  const rows = inflow.map((): SparseRow => new Map());
  const grow = (row: number, column: number, value: number): void => {
    rows[row].set(column, (rows[row].get(column) ?? 0) + value);
  };
  for (const link of links) {
    const [first, second] = link.between;
    const isBack = second >= 0 && levels[second] > levels[first];
    const [up, down] = isBack ? [second, first] : [first, second];
    const { withHigh, withLow } = slopesOver(link, levels[up], down < 0 ? -Infinity : levels[down]);
    if (withHigh === 0) continue;
    grow(up, up, withHigh);
    if (withLow > 0) grow(up, down, -withLow);
    for (const [to, share] of link.reaches(isBack ? 1 : 0)) {
      grow(to, up, -withHigh * share);
      if (withLow > 0) grow(to, down, withLow * share);
    }
  }
  for (const { node, takes } of drains) grow(node, node, slopeOf(takes, levels[node]));
  return rows;
};

interface Slopes {
  /** mm2/s, what runs over with the upper level, and less with the lower one. */
  readonly withHigh: number;
  readonly withLow: number;
}

const slopesOver = ({ bottom, flow }: Link, high: number, low: number): Slopes => {
  if (high <= bottom) return { withHigh: 0, withLow: 0 };
  const withHigh = slopeOf((level) => flow(level, low), high);
  if (low <= bottom) return { withHigh, withLow: 0 };
  const nearly = NEARLY_LEVEL * (high - bottom);
  const fall = Math.max(nearly, high - low);
  const withFall = flow(low + fall, low) / fall;
  if (high - low <= nearly) return { withHigh: withFall, withLow: withFall };
  const tangent = -slopeOf((level) => flow(high, level), low);
  const withLow = Math.max(tangent, withFall);
  return { withHigh: withLow + Math.max(0, withHigh - tangent), withLow };
};
