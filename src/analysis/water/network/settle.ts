/** Levels of the hollows, and what outlets above them take of the water that runs to them. */
import { NOISE } from '../../geometry/tolerance.js';
import { routeFlow } from '../flow/route/route.js';
import type { Routed, Routing } from '../flow/route/routing.js';
import { flowOver } from './excess.js';
import { levelsOf } from './levels.js';
import type { Link, Network } from './links.js';
import type { Mouth } from './mouths.js';
import { stopsOf, type Site, type Spilt, type Way } from './site.js';
import { takeBy } from './spill.js';

/** Levels, and what each mouth takes before it comes to stand, mm3/s. */
export interface Solved {
  readonly levels: Float64Array;
  readonly early: readonly number[];
}

/** Rounds in which what outlets take of running water, and the levels, come to agree. */
const ROUNDS = 20;

export const settle = (site: Site, arrived: readonly Routed[]): Solved => {
  const ways = [...site.ways, ...site.mouths.flatMap(spoutWay)];
  const spilt = memoSpills(site, ways);
  const inflow = site.regions.lowest.map((_, node) =>
    arrived.reduce((sum, { stopped }) => sum + (stopped.get(node) ?? 0), 0),
  );
  const ran = site.mouths.map((mouth) => arrived.reduce((sum, routed) => sum + ranInto(mouth, routed), 0));
  const links = ways.map(({ between, bottom, flow }, i): Link => ({
    between,
    bottom,
    flow,
    reaches: (end) => spilt(i, end).shares,
  }));
  let early = ran;
  for (let round = 0; ; round++) {
    const network: Network = {
      inflow,
      start: site.start,
      links,
      drains: site.mouths.flatMap(({ node, takes, opening }, i) =>
        opening === undefined ? [] : [{ node, takes: (level) => Math.max(0, takes(level) - early[i]) }],
      ),
    };
    const levels = levelsOf(network);
    if (site.mouths.every(({ isAbove }) => !isAbove) || round === ROUNDS) return { levels, early };
    const next = ran.map((rate, i) =>
      links.reduce((sum, link, way) => {
        const flow = flowOver(link, levels);
        return flow === 0 ? sum : sum + Math.abs(flow) * ranInto(site.mouths[i], spilt(way, flow > 0 ? 0 : 1).routed);
      }, rate),
    );
    if (next.every((rate, i) => Math.abs(rate - early[i]) <= NOISE * rate)) return { levels, early };
    early = next;
  }
};

/** Over the edge of a spout water leaves, and may come down on the tub again. */
const spoutWay = (mouth: Mouth): readonly Way[] =>
  mouth.opening === undefined
    ? [
        {
          between: [mouth.node, -1],
          bottom: mouth.lip,
          flow: mouth.takes,
          edges: [],
          spill: (state, _end, flux) => takeBy(state, mouth, flux),
        },
      ]
    : [];

/** What of a flow runs into a mouth that lies above standing water. */
const ranInto = ({ isAbove, opening }: Mouth, { ends }: Routed): number =>
  isAbove ? ends.reduce((sum, end) => sum + (end.kind === 'opening' && end.opening === opening ? end.flux : 0), 0) : 0;

/** Where what leaves by each way comes to stand, each found when first asked for. */
const memoSpills = (site: Site, ways: readonly Way[]): ((way: number, end: 0 | 1) => Spilt) => {
  const known = site.spilt;
  const stops = stopsOf(site, undefined);
  return (way, end) => {
    const found = known.get(2 * way + end);
    if (found) return found;
    const start = (state: Routing): void => ways[way].spill(state, end, 1, undefined);
    const routed = routeFlow(site.net, { kind: 'own', rate: 1, start }, undefined, stops);
    const made = { routed, shares: [...routed.stopped] };
    known.set(2 * way + end, made);
    return made;
  };
};
