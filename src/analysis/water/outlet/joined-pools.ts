import { listOf, otherEnd } from '../surface/mesh.js';
import type { Surface } from '../surface/surface.js';

/** Outlets whose water comes together when it stands above a level; a lone outlet is joined from below everything. */
export interface Joined {
  /** Height of the sill between the parts, mm. */
  readonly sill: number;
  readonly parts: readonly Joined[];
  /** Those of all parts, by their place in the list that was asked about. */
  readonly outlets: readonly number[];
}

/**
 * How the water over several places comes together as it rises: the highest sill on the lowest way between them.
 * `members`: the points of the hollow they lie in; `places`: a point of each. Returns one tree, several where no way
 * within the hollow leads from one to the other. Cost: O(n log n) in the hollow's points.
 */
export const joinedPools = (
  surface: Surface,
  members: readonly number[],
  places: readonly number[],
): readonly Joined[] => {
  const rising = [...members].sort((p, q) => surface.points[p][2] - surface.points[q][2] || p - q);
  const at = new Map<number, number[]>();
  places.forEach((point, outlet) => at.set(point, [...(at.get(point) ?? []), outlet]));
  const parent = new Map<number, number>();
  const up = (point: number): number => parent.get(point) ?? point;
  const rootOf = (point: number): number => {
    let root = point;
    while (up(root) !== root) {
      parent.set(root, up(up(root)));
      root = up(root);
    }
    return root;
  };
  const pools = new Map<number, Joined>();
  for (const point of rising) {
    parent.set(point, point);
    for (const outlet of at.get(point) ?? []) join(pools, point, alone(outlet), surface.points[point][2]);
    for (const edge of listOf(surface.mesh.edgesAt, point)) {
      const other = otherEnd(surface.mesh, edge, point);
      if (!parent.has(other)) continue;
      const [from, to] = [rootOf(other), rootOf(point)];
      if (from === to) continue;
      parent.set(from, to);
      const pool = pools.get(from);
      pools.delete(from);
      if (pool) join(pools, to, pool, surface.points[point][2]);
    }
  }
  return [...pools.values()];
};

const alone = (outlet: number): Joined => ({ sill: -Infinity, parts: [], outlets: [outlet] });

const join = (pools: Map<number, Joined>, root: number, pool: Joined, sill: number): void => {
  const known = pools.get(root);
  if (!known) pools.set(root, pool);
  else pools.set(root, { sill, parts: [known, pool], outlets: [...known.outlets, ...pool.outlets] });
};
