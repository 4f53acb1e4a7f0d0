/** The water of a tub while the inflows run, as one network: hollows with a level each, and all ways between them and out. */
import type { Routed } from '../flow/route/routing.js';
import { ROUND_OFF } from '../../geometry/tolerance.js';
import { disjointSets } from '../../geometry/disjoint-sets.js';
import type { OutletIndex, Tub } from '../../model/tub.js';
import { followInflows, type InflowFlow } from '../flow/inflows.js';
import type { Routing } from '../flow/route/routing.js';
import { BALANCED } from '../../model/tolerance.js';
import { mouthOf } from '../outlet/outlets.js';
import { fallenFrom } from '../outlet/spout.js';
import type { Mouth } from './mouths.js';
import { ratesByMouth } from './rates-by-mouth.js';
import type { Regions } from './regions.js';
import { settle, type Solved } from './settle.js';
import { groundOf, siteOf, stopsOf, type Ground, type Site, type Way } from './site.js';
import { takeBy } from './spill.js';
import type { WorkInput } from './work-input.js';

/** One water at work. */
export interface NodeAtWork {
  /** Its lowest point, of the surface of the net. */
  readonly lowest: number;
  /** mm; Infinity where nothing leads out. */
  readonly level: number;
  /** What comes to it, mm3/s. */
  readonly rateMm3S: number;
  /** Does any water come to it? */
  readonly isFed: boolean;
  /** Least of those that it is one water with, over drowned crests. */
  readonly group: number;
}

/** What one outlet takes; from each chamber beside it, where a divider stands over it. */
export interface OutletAtWork {
  readonly outlet: OutletIndex;
  readonly rateMm3S: number;
  /** With its part of what runs over the rim for want of outlets. */
  readonly comesMm3S: number;
  /** Level of the water that it takes from; undefined where water runs to it and none stands over it. */
  readonly level: number | undefined;
  /** That it lies in, by its place in `nodes`. */
  readonly node: number;
  readonly group: number;
}

export interface WaterAtWork {
  readonly ground: Ground;
  readonly flows: readonly InflowFlow[];
  /** What runs until it first stands: the same whatever strainers let through. */
  readonly arrived: readonly Routed[];
  /** How the waters part: where that is the same, so are the flows. */
  readonly parting: string;
  readonly regions: Regions;
  readonly nodes: readonly NodeAtWork[];
  readonly outlets: readonly OutletAtWork[];
  readonly screens: readonly ScreenAtWork[];
}

/** An opening with a strainer between two waters; levels in mm, undefined where none stands. */
export interface ScreenAtWork {
  readonly opening: number;
  readonly before: number;
  readonly behind: number | undefined;
  readonly rateMm3S: number;
}

/** The same water with other strainers: what is alike is taken from it. */
export type Before = Pick<WaterAtWork, 'ground' | 'arrived' | 'parting' | 'flows'>;

/** Solves the network and follows every inflow through it. Cost: O(n log n), and some rounds over the hollows. */
export const waterAtWork = (
  input: WorkInput & { readonly before?: Before | undefined; readonly ground?: Ground | undefined },
): WaterAtWork => {
  const { tub, drainage, before } = input;
  const ground = before?.ground ?? input.ground ?? groundOf(input);
  const site = siteOf(input, ground);
  const arrived =
    before?.arrived ?? followInflows(tub, drainage.net, stopsOf(site, undefined)).flatMap(({ routed }) => routed ?? []);
  const total = tub.inflows.reduce((sum, { rateMm3S }) => sum + rateMm3S, 0);
  const solved = settle(site, arrived);
  const still = { ...site, ...solved, least: 10 * BALANCED * total };
  const spilling = { ...still, leaves: leavingOf(still) };
  const groups = groupsOf(spilling);
  const overfull = overfullEdges(spilling, groups);
  const parting = partingOf(spilling, overfull.edges);
  const followed =
    before?.parting === parting
      ? before.flows
      : followInflows(
          tub,
          drainage.net,
          stopsOf(site, (state, node, flux) => goOn(spilling, state, node, flux)),
          overfull.edges,
        );
  const nodes = site.regions.lowest.map((lowest, node) =>
    nodeAtWork(spilling, followed, { lowest, node, group: groups(node) }),
  );
  return {
    ground,
    flows: followed,
    arrived,
    parting,
    regions: site.regions,
    nodes,
    outlets: [
      ...outletsIn(tub, spilling, followed, { groupOf: groups, over: overfull.over }),
      ...shutIn(input, nodes, site),
    ],
    screens: screensIn(input, spilling),
  };
};

interface Spilling extends Site, Solved {
  /** mm3/s. Flows below it are what is off in the levels. */
  readonly least: number;
  readonly leaves: readonly Leaving[];
}

const levelOf = ({ levels }: Solved, node: number): number => (node < 0 ? -Infinity : levels[node]);

/** What leaves a node by a way, mm3/s. */
const leaving = (spilling: Omit<Spilling, 'leaves'>, { between, flow }: Way, node: number): number => {
  const other = between[0] === node ? between[1] : between[0];
  const [own, beyond] = [levelOf(spilling, node), levelOf(spilling, other)];
  const flux = between.includes(node) && own > beyond && own < Infinity ? flow(own, beyond) : 0;
  return flux > spilling.least ? flux : 0;
};

/** What a mouth takes of standing water, mm3/s. */
const taken = ({ levels, early, least }: Omit<Spilling, 'leaves'>, { node, takes }: Mouth, index: number): number => {
  const flux = levels[node] < Infinity ? Math.max(0, takes(levels[node]) - early[index]) : 0;
  return flux > least ? flux : 0;
};

/** What leaves a node: by each of its ways and into each of its mouths, by their index, mm3/s, and all of it. */
interface Leaving {
  readonly over: readonly (readonly [way: number, flux: number])[];
  readonly into: readonly (readonly [mouth: number, flux: number])[];
  readonly all: number;
}

/** By node; what does not flow is left out. O(n). */
const leavingOf = (spilling: Omit<Spilling, 'leaves'>): readonly Leaving[] => {
  const found = spilling.regions.lowest.map(() => ({
    over: [] as (readonly [number, number])[],
    into: [] as (readonly [number, number])[],
    all: 0,
  }));
  spilling.ways.forEach((way, i) => {
    for (const node of new Set(way.between)) {
      const flux = node < 0 ? 0 : leaving(spilling, way, node);
      if (flux <= 0) continue;
      found[node].over.push([i, flux]);
      found[node].all += flux;
    }
  });
  spilling.mouths.forEach((mouth, i) => {
    const flux = taken(spilling, mouth, i);
    if (flux <= 0) return;
    found[mouth.node].into.push([i, flux]);
    found[mouth.node].all += flux;
  });
  return found;
};

/** All that the way of the water depends on: the shares by which each node parts it, the levels between which it spills, the rims. */
const partingOf = (spilling: Spilling, overfull: ReadonlySet<number>): string =>
  [
    ...spilling.leaves.map(({ over, into, all }) => {
      const spills = over.flatMap(([i, flux]) => [
        i,
        flux / all,
        ...spilling.ways[i].between.map((end) => levelOf(spilling, end)),
      ]);
      return [all > 0, ...spills, '', ...into.flatMap(([i, flux]) => [i, flux / all])].join(' ');
    }),
    [...overfull].join(' '),
  ].join(';');

/** Lets what comes to a node leave it by all of its ways, as they take it. */
const goOn = (spilling: Spilling, state: Routing, node: number, flux: number): void => {
  const { ways, mouths, net, regions } = spilling;
  const { over, into, all } = spilling.leaves[node];
  if (all <= 0) {
    const flatArea = net.flatAreaOfPoint[regions.lowest[node]];
    return flatArea >= 0 ? state.out.flatArea(flatArea, flux) : state.out.unresolved(flux);
  }
  for (const [i, part] of over) {
    const way = ways[i];
    const end = way.between[0] === node ? 0 : 1;
    const other = way.between[end === 0 ? 1 : 0];
    way.spill(state, end, (flux * part) / all, [levelOf(spilling, node), levelOf(spilling, other)]);
  }
  for (const [i, part] of into) takeBy(state, mouths[i], (flux * part) / all);
};

/** Waters that are one over a drowned crest or opening: the least of them for each. */
const groupsOf = ({ ways, levels }: Spilling): ((node: number) => number) => {
  const { rootOf, join } = disjointSets(levels.length);
  for (const {
    between: [a, b],
    bottom,
  } of ways)
    if (b >= 0 && levels[a] > bottom + ROUND_OFF && levels[b] > bottom + ROUND_OFF) join(a, b);
  return rootOf;
};

interface Overfull {
  /** Free edges over which water leaves for want of outlets. */
  readonly edges: ReadonlySet<number>;
  /** By group, what does, mm3/s. */
  readonly over: ReadonlyMap<number, number>;
}

/** What runs over the rim from waters that outlets take from; where one is a spout it does not run over, but out. */
const overfullEdges = (spilling: Spilling, groupOf: (node: number) => number): Overfull => {
  const { mouths, early } = spilling;
  const groupsWith = (isOne: (mouth: Mouth, index: number) => boolean): ReadonlySet<number> =>
    new Set(mouths.filter(isOne).map(({ node }) => groupOf(node)));
  const taking = groupsWith((mouth, i) => mouth.outlet !== undefined && taken(spilling, mouth, i) + early[i] > 0);
  const spouting = groupsWith(({ opening }) => opening === undefined);
  const edges = new Set<number>();
  const over = new Map<number, number>();
  for (const way of spilling.ways) {
    const [node, to] = way.between;
    const flux = to < 0 ? leaving(spilling, way, node) : 0;
    if (flux <= 0 || !taking.has(groupOf(node)) || spouting.has(groupOf(node))) continue;
    for (const edge of way.edges) edges.add(edge);
    over.set(groupOf(node), (over.get(groupOf(node)) ?? 0) + flux);
  }
  return { edges, over };
};

const screensIn = ({ tub }: WorkInput, spilling: Spilling): readonly ScreenAtWork[] =>
  spilling.ways.flatMap((way): readonly ScreenAtWork[] => {
    if (way.opening === undefined || !tub.openings[way.opening].strainer) return [];
    const levels = way.between.map((node) => levelOf(spilling, node));
    const [before, behind] = levels[0] >= levels[1] ? levels : [levels[1], levels[0]];
    const rateMm3S = leaving(spilling, way, way.between[levels[0] >= levels[1] ? 0 : 1]);
    if (rateMm3S <= 0) return [];
    return [{ opening: way.opening, before, behind: Number.isFinite(behind) ? behind : undefined, rateMm3S }];
  });

const nodeAtWork = (
  { levels, start }: Spilling,
  flows: readonly InflowFlow[],
  { lowest, node, group }: { readonly lowest: number; readonly node: number; readonly group: number },
): NodeAtWork => {
  const rateMm3S = flows.reduce((sum, { routed }) => sum + (routed?.stopped.get(node) ?? 0), 0);
  const level = levels[node];
  return { lowest, level, rateMm3S, isFed: rateMm3S > 0 || level > start[node] + ROUND_OFF, group };
};

/** Outlets that are shut, with the water over them. */
const shutIn = (
  { tub, drainage, liquid }: WorkInput,
  nodes: readonly NodeAtWork[],
  { regions }: Site,
): readonly OutletAtWork[] =>
  tub.outlets.flatMap(({ shut }, outlet): readonly OutletAtWork[] => {
    const mouth = shut ? mouthOf({ tub, surface: drainage.net.surface, liquid }, outlet) : undefined;
    const node = mouth ? regions.ofPoint[mouth.low] : -1;
    if (node < 0 || !nodes[node].isFed) return [];
    const { level, group } = nodes[node];
    return [{ outlet, rateMm3S: 0, comesMm3S: 0, level, node, group }];
  });

const outletsIn = (
  tub: Tub,
  spilling: Spilling,
  flows: readonly InflowFlow[],
  { groupOf, over }: { readonly groupOf: (node: number) => number; readonly over: Overfull['over'] },
): readonly OutletAtWork[] => {
  const rates = tub.outlets.map((_, outlet) => fallenFrom({ tub, net: spilling.net, flows }, outlet));
  for (const end of flows.flatMap((flow) => flow.ends)) if (end.kind === 'outlet') rates[end.outlet] += end.rateMm3S;
  const took = spilling.mouths.map((mouth, i) => taken(spilling, mouth, i) + spilling.early[i]);
  const byMouth = ratesByMouth(spilling.mouths, took, rates);
  const inGroup = new Map<number, number>();
  spilling.mouths.forEach(({ outlet, node }, i) => {
    const group = groupOf(node);
    if (outlet !== undefined) inGroup.set(group, (inGroup.get(group) ?? 0) + byMouth[i]);
  });
  return spilling.mouths.flatMap((mouth, i): readonly OutletAtWork[] => {
    const { outlet, node, isAbove } = mouth;
    if (outlet === undefined) return [];
    const rateMm3S = byMouth[i];
    const group = groupOf(node);
    const level = isAbove && taken(spilling, mouth, i) <= 0 ? undefined : spilling.levels[node];
    const whole = inGroup.get(group) ?? 0;
    const extra = whole > 0 ? ((over.get(group) ?? 0) * rateMm3S) / whole : 0;
    return [{ outlet, rateMm3S, comesMm3S: rateMm3S + extra, level, node, group }];
  });
};
