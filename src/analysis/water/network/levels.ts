/** Levels of waters that run into one another, at which what comes to each of them leaves it. */
import { zeroFrom } from '../../geometry/numeric/zero-of.js';
import { solveSparse, type SparseRow } from '../../geometry/numeric/sparse-solve.js';
import { disjointSets } from '../../geometry/disjoint-sets.js';
import { NOISE } from '../../geometry/tolerance.js';
import { excessAt, flowOver, levelAt, offBy, slopeOf } from './excess.js';
import { filled } from './filling.js';
import { firstGuess } from './first-guess.js';
import { flowBetween, type Drain, type Link, type Network, type Share } from './links.js';
import { BALANCED } from '../../model/tolerance.js';

/**
 * Level of each water, mm; Infinity where nothing leads out of what it joins; its start where nothing comes to it.
 *
 * What leaves a water never falls with its own level and never grows with another one's, so that there is one answer. Where every
 * water leaves by one way the first guess is it. Else Newton's method from there finds it in a few steps, each halved until the sum of what
 * is off has gone down. Else each by itself, those upstream first, by halving: a cascade that runs freely is done then. Waters that hang together over
 * drowned crests are raised as one; they are finished by Newton's method again. Where many do so
 * over one another, as they fill.
 */
export const levelsOf = (whole: Network): Float64Array => {
  const levels = Float64Array.from(whole.start);
  const total = whole.inflow.reduce((sum, rate) => sum + rate, 0);
  if (total <= 0) return levels;
  const fed = fedIn(whole);
  const network = {
    ...whole,
    links: whole.links.filter(({ between }) => between.some((node) => fed.has(node))),
    drains: whole.drains.filter(({ node }) => fed.has(node)),
  };
  const near = neighbours(network);
  const closed = closedIn(network, fed);
  if (closed.size > 0)
    return levelsOf(withoutClosed(network, closed)).map((level, i) => (closed.has(i) ? Infinity : level));
  // What is off by the rounding of the levels adds up over long chains.
  const least = BALANCED * total * levels.length;
  const guess = firstGuess(network);
  const guessed = newton(network, guess, least);
  if (offBy(network, guessed) <= least) return guessed;
  const nodes = [...fed].sort((p, q) => p - q);
  for (let sweep = 0; sweep < SWEEPS; sweep++) {
    for (const node of [...nodes, ...[...nodes].reverse()])
      levels[node] = ownLevel(network, near, levels, { node, least });
    if (offBy(network, levels) <= least) return levels;
    raiseTogether(network, near, levels, least);
    levels.set(newton(network, levels, least));
    if (offBy(network, levels) <= least) return levels;
  }
  const full = filled(network, guess, { total, least });
  return offBy(network, full) < offBy(network, levels) ? full : levels;
};

/** More of them would cost the square of how many waters there are. */
const SWEEPS = 20;
const NEWTON_STEPS = 30;
const HALVINGS = 12;

interface Near {
  /** By node: links that end there, links that lead to it from elsewhere, and drains. */
  readonly links: readonly (readonly Link[])[];
  readonly leading: readonly (readonly Link[])[];
  readonly drains: readonly (readonly Drain[])[];
}

const neighbours = ({ inflow, links, drains }: Network): Near => {
  const near = {
    links: inflow.map((): Link[] => []),
    leading: inflow.map((): Link[] => []),
    drains: inflow.map((): Drain[] => []),
  };
  for (const link of links) {
    for (const node of link.between) if (node >= 0) near.links[node].push(link);
    const reached = new Set([...link.reaches(0), ...link.reaches(1)].map(([node]) => node));
    for (const node of reached) if (!link.between.includes(node)) near.leading[node].push(link);
  }
  for (const drain of drains) near.drains[drain.node].push(drain);
  return near;
};

/** What comes to a node over a link, less what leaves it there. */
const gainOf = (link: Link, node: number, levels: Float64Array): number => {
  const flow = flowOver(link, levels);
  if (flow === 0) return 0;
  const end = flow > 0 ? 0 : 1;
  const left = link.between[end] === node ? 1 : 0;
  const reached = link.reaches(end).reduce((sum, [to, share]) => sum + (to === node ? share : 0), 0);
  return Math.abs(flow) * (reached - left);
};

/** Waters that anything may come to: those that hang together with one, and those that what leaves them runs to. */
const fedIn = ({ inflow, links }: Network): ReadonlySet<number> => {
  const near = inflow.map((): Link[] => []);
  for (const link of links) for (const node of link.between) if (node >= 0) near[node].push(link);
  const fed = new Set(inflow.flatMap((rate, node) => (rate > 0 ? [node] : [])));
  for (const node of fed) {
    for (const { between, reaches } of near[node]) {
      for (const other of between) if (other >= 0) fed.add(other);
      for (const [to] of reaches(between[0] === node ? 0 : 1)) fed.add(to);
    }
  }
  return fed;
};

/** Waters that nothing leads out of, alone or together. */
const closedIn = ({ inflow, links, drains }: Network, fed: ReadonlySet<number>): ReadonlySet<number> => {
  const open = new Set(drains.map(({ node }) => node));
  for (const { between, reaches } of links) {
    if (between[1] < 0 || leaks(reaches(0))) open.add(between[0]);
    if (between[1] >= 0 && leaks(reaches(1))) open.add(between[1]);
  }
  const beside = inflow.map((): number[] => []);
  for (const {
    between: [a, b],
  } of links) {
    if (b < 0) continue;
    beside[a].push(b);
    beside[b].push(a);
  }
  for (const node of open) for (const other of beside[node]) open.add(other);
  return new Set([...fed].filter((node) => !open.has(node)));
};

const leaks = (shares: readonly Share[]): boolean => shares.reduce((sum, [, share]) => sum + share, 0) < 1 - NOISE;

const withoutClosed = ({ inflow, start, links, drains }: Network, closed: ReadonlySet<number>): Network => ({
  inflow: inflow.map((rate, node) => (closed.has(node) ? 0 : rate)),
  start,
  links: links.filter(({ between }) => !closed.has(between[0])),
  drains: [...drains, ...[...closed].map((node) => ({ node, takes: () => 0 }))],
});

interface OwnNode {
  readonly node: number;
  /** mm3/s. What is off by less is in balance. */
  readonly least: number;
}

/** The level at which a node is in balance, those of all others as they are. */
const ownLevel = (network: Network, near: Near, levels: Float64Array, { node, least }: OwnNode): number => {
  const fixed = network.inflow[node] + near.leading[node].reduce((sum, link) => sum + gainOf(link, node, levels), 0);
  const before = levels[node];
  const excess = (level: number): number => {
    levels[node] = level;
    const gained = near.links[node].reduce((sum, link) => sum + gainOf(link, node, levels), fixed);
    return near.drains[node].reduce((sum, drain) => sum - drain.takes(level), gained);
  };
  const now = excess(before);
  const isBalanced = Math.abs(now) <= least / levels.length;
  const level = isBalanced ? before : zeroFrom(excess, now > 0 ? before : network.start[node]);
  levels[node] = before;
  return level;
};

/** Waters over both sides of a crest that together get more than leaves them, to the one level at which they do not. */
const raiseTogether = (network: Network, near: Near, levels: Float64Array, least: number): void => {
  const { rootOf, join } = disjointSets(levels.length);
  for (const { between, bottom } of network.links) {
    const [a, b] = between;
    if (b >= 0 && levels[a] > bottom && levels[b] > bottom) join(a, b);
  }
  const groups = new Map<number, number[]>();
  for (const node of levels.keys()) {
    const known = groups.get(rootOf(node));
    if (known) known.push(node);
    else groups.set(rootOf(node), [node]);
  }
  for (const group of groups.values()) {
    if (group.length < 2) continue;
    const own = networkOf(network, near, group);
    const sum = (): number => {
      const all = excessAt(own, levels);
      return group.reduce((gained, node) => gained + all[node], 0);
    };
    if (sum() <= least) continue;
    const excess = (level: number): number => {
      for (const node of group) levels[node] = level;
      return sum();
    };
    const level = zeroFrom(excess, Math.max(...group.map((node) => levels[node])));
    for (const node of group) levels[node] = level;
  }
};

/** What bears on the balance of some nodes. */
const networkOf = ({ inflow, start }: Network, near: Near, nodes: readonly number[]): Network => ({
  inflow,
  start,
  links: [...new Set(nodes.flatMap((node) => [...near.links[node], ...near.leading[node]]))],
  drains: nodes.flatMap((node) => near.drains[node]),
});

const newton = (network: Network, from: Float64Array, least: number): Float64Array => {
  let levels = from;
  let off = offBy(network, levels);
  for (let step = 0; step < NEWTON_STEPS && off > least; step++) {
    const move = solveSparse(slopesAt(network, levels), [...excessAt(network, levels)]);
    let next: Float64Array | undefined;
    for (let i = 0, part = 1; i < HALVINGS && !next; i++, part /= 2) {
      const tried = levels.map((level, node) => Math.max(network.start[node], level + part * move[node]));
      const left = offBy(network, tried);
      if (left < off) [next, off] = [tried, left];
    }
    if (!next) return levels;
    levels = next;
  }
  return levels;
};

/** How what leaves each node grows with each level: rows by what leaves, columns by level. */
const slopesAt = ({ inflow, links, drains }: Network, levels: Float64Array): readonly SparseRow[] => {
  const rows = inflow.map((_, node): SparseRow => new Map([[node, Number.MIN_VALUE]]));
  const grow = (row: number, column: number, value: number): void => {
    rows[row].set(column, (rows[row].get(column) ?? 0) + value);
  };
  for (const link of links) {
    for (const node of link.between) {
      if (node < 0) continue;
      const slope = slopeOf((level) => {
        const [p, q] = [levelAt(levels, link.between[0]), levelAt(levels, link.between[1])];
        return node === link.between[0] ? flowBetween(link, level, q) : flowBetween(link, p, level);
      }, levels[node]);
      if (slope === 0) continue;
      const end = flowOver(link, levels) >= 0 ? 0 : 1;
      const sign = end === 0 ? 1 : -1;
      grow(link.between[end], node, sign * slope);
      for (const [to, share] of link.reaches(end)) grow(to, node, -sign * slope * share);
    }
  }
  for (const { node, takes } of drains) grow(node, node, slopeOf(takes, levels[node]));
  for (const [node, row] of rows.entries()) if ((row.get(node) ?? 0) <= Number.MIN_VALUE) row.set(node, STILL);
  return rows;
};

/** mm2/s, for a water that nothing leaves: its level stays. */
const STILL = 1;
