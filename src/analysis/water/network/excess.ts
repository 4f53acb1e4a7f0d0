/** What comes to waters at some levels, less what leaves them. */
import { LEAST_MOVE } from '../../geometry/tolerance.js';
import { flowBetween, type Link, type Network } from './links.js';

/** What runs over a link: positive from its first water to its second. */
export const flowOver = (link: Link, levels: Float64Array): number =>
  flowBetween(link, levels[link.between[0]], levelAt(levels, link.between[1]));

/** Beyond the last water nothing stands. */
export const levelAt = (levels: Float64Array, node: number): number => (node < 0 ? -Infinity : levels[node]);

/** By node, what comes to it less what leaves it. */
export const excessAt = ({ inflow, links, drains }: Network, levels: Float64Array): Float64Array => {
  const excess = Float64Array.from(inflow);
  for (const link of links) {
    const flow = flowOver(link, levels);
    if (flow === 0) continue;
    const end = flow > 0 ? 0 : 1;
    excess[link.between[end]] -= Math.abs(flow);
    for (const [to, share] of link.reaches(end)) excess[to] += Math.abs(flow) * share;
  }
  for (const { node, takes } of drains) excess[node] -= takes(levels[node]);
  return excess;
};

/** How much is off in all, mm3/s; Infinity where that cannot be told. */
export const offBy = (network: Network, levels: Float64Array): number => {
  const off = excessAt(network, levels).reduce((sum, value) => sum + Math.abs(value), 0);
  return Number.isNaN(off) ? Infinity : off;
};

/** How a value grows with a level. */
export const slopeOf = (value: (level: number) => number, at: number): number => {
  const step = LEAST_MOVE * Math.max(1, Math.abs(at));
  return (value(at + step) - value(at - step)) / (2 * step);
};
