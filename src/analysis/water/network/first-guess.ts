/** Levels to begin with: as the waters would stand with hardly anything running, with the head of all of it on top. */
import { minQueue } from '../../geometry/priority-queue.js';
import type { Link, Network } from './links.js';
import { leastThat } from '../../geometry/numeric/least-that.js';

interface Out {
  /** Level from which a water gets out, mm, and the way that it takes first; undefined: a drain of its own. */
  readonly level: Float64Array;
  readonly by: readonly (Link | undefined)[];
}

/**
 * Each water that anything comes to, at the least level at which it gets out, over all ways the highest that it has to pass; those that this
 * drowns on the way stand at the same level. Which crests are drowned is then as it will be, but where heads decide.
 * Cost: O(n log n).
 */
export const firstGuess = (network: Network, total: number): Float64Array => {
  const near = network.start.map((): Link[] => []);
  for (const link of network.links) for (const node of link.between) if (node >= 0) near[node].push(link);
  const out = waysOut(network, near);
  const levels = Float64Array.from(network.start);
  const queue = network.inflow.flatMap((rate, node) => (rate > 0 ? [node] : []));
  const fed = new Set(queue);
  for (const node of fed) {
    const level = out.level[node];
    if (!Number.isFinite(level)) continue;
    levels[node] = Math.max(levels[node], level + headOf(out.by[node], total));
    for (const next of nextOf(node, near[node], out)) fed.add(next);
  }
  return levels;
};

const waysOut = ({ start, drains }: Network, near: readonly (readonly Link[])[]): Out => {
  const level = new Float64Array(start.length).fill(Infinity);
  const by: (Link | undefined)[] = start.map(() => undefined);
  const queue = minQueue();
  const offer = (node: number, at: number, link: Link | undefined): void => {
    if (at >= level[node]) return;
    [level[node], by[node]] = [at, link];
    queue.push(node, at);
  };
  for (const { node } of drains) offer(node, start[node], undefined);
  near.forEach((links, node) => {
    for (const link of links) if (link.between[1] < 0) offer(node, link.bottom, link);
  });
  const settled = new Uint8Array(start.length);
  for (let node = queue.pop(); node !== undefined; node = queue.pop()) {
    if (settled[node]) continue;
    settled[node] = 1;
    for (const link of near[node])
      for (const other of link.between)
        if (other >= 0 && other !== node) offer(other, Math.max(link.bottom, level[node]), link);
  }
  return { level, by };
};

/** Where its water goes next: over its way out, and to what stands as high over drowned crests. */
const nextOf = (node: number, near: readonly Link[], { level, by }: Out): readonly number[] => {
  const way = by[node];
  const on = way ? way.reaches(way.between[0] === node ? 0 : 1).map(([next]) => next) : [];
  const beside = near.flatMap((link) => (link.bottom < level[node] ? link.between.filter((other) => other >= 0) : []));
  return [...on, ...beside];
};

const headOf = (way: Link | undefined, total: number): number =>
  way ? leastThat(1, (head) => way.flow(way.bottom + head, -Infinity) >= total) : 0;
