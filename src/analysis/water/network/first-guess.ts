/** Levels to begin with: along the way by which each water first gets out, as if there were no other. */
import { minQueue } from '../../geometry/priority-queue.js';
import { zeroFrom } from '../../geometry/numeric/zero-of.js';
import { flowBetween, type Drain, type Link, type Network } from './links.js';

/** How waters get out: those nearest to the end first, and by node the way that it takes; undefined: by a drain of its own. */
interface Out {
  readonly order: readonly number[];
  readonly by: readonly (Link | undefined)[];
}

/**
 * Each water takes the way on which the highest that it has to pass is least. From those up the way down, what comes to each is summed,
 * then from the end back each stands as high as it has to for that to leave it, over a crest that the next one may drown. Where every
 * water leaves by one way only, that is the answer. Cost: O(n log n).
 */
export const firstGuess = (network: Network): Float64Array => {
  const { start, drains, links } = network;
  const near = start.map((): Link[] => []);
  for (const link of links) for (const node of link.between) if (node >= 0) near[node].push(link);
  const drainsOf = start.map((): Drain[] => []);
  for (const drain of drains) drainsOf[drain.node].push(drain);
  const out = waysOut(network, near);
  const comes = summed(network, out);
  const levels = Float64Array.from(start);
  for (const node of out.order) {
    const way = out.by[node];
    if (!way && comes[node] <= 0) continue;
    const excess = (level: number): number => {
      const gained = drainsOf[node].reduce((sum, drain) => sum - drain.takes(level), comes[node]);
      return way ? gained - leaving(way, node, level, levels) : gained;
    };
    const beyond = way ? levelBeyond(way, node, levels) : -Infinity;
    const least = way && beyond > way.bottom ? Math.max(start[node], beyond) : start[node];
    levels[node] = comes[node] > 0 ? finite(zeroFrom(excess, least), least) : least;
  }
  return levels;
};

const finite = (level: number, otherwise: number): number => (level < Infinity ? level : otherwise);

const levelBeyond = ({ between: [a, b] }: Link, node: number, levels: Float64Array): number => {
  const other = a === node ? b : a;
  return other < 0 ? -Infinity : levels[other];
};

const leaving = (way: Link, node: number, level: number, levels: Float64Array): number => {
  const beyond = levelBeyond(way, node, levels);
  return way.between[0] === node ? flowBetween(way, level, beyond) : -flowBetween(way, beyond, level);
};

/** What comes to each water by itself and from those farther up, mm3/s. */
const summed = ({ inflow }: Network, { order, by }: Out): Float64Array => {
  const comes = Float64Array.from(inflow);
  const rank = new Int32Array(inflow.length).fill(-1);
  order.forEach((node, i) => (rank[node] = i));
  for (let i = order.length - 1; i >= 0; i--) {
    const node = order[i];
    const way = by[node];
    if (!way || comes[node] <= 0) continue;
    for (const [to, share] of way.reaches(way.between[0] === node ? 0 : 1))
      if (rank[to] < i) comes[to] += comes[node] * share;
  }
  return comes;
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
  const order: number[] = [];
  const settled = new Uint8Array(start.length);
  for (let node = queue.pop(); node !== undefined; node = queue.pop()) {
    if (settled[node]) continue;
    settled[node] = 1;
    order.push(node);
    for (const link of near[node])
      for (const other of link.between)
        if (other >= 0 && other !== node) offer(other, Math.max(link.bottom, level[node]), link);
  }
  return { order, by };
};
