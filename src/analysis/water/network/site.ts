/** The hollows of a tub, and all ways between them and out, before any level is known. */
import { spoutOver } from '../../shape/spouts.js';
import type { Routed, Routing, Stops } from '../flow/route/routing.js';
import { overCrest, throughOpening } from './crest-law.js';
import { crestLines } from './crests.js';
import type { Link, Share } from './links.js';
import { areaIn, mouthsIn, passagesIn, type Mouth, type Passage } from './mouths.js';
import { throughScreen } from './screen.js';
import type { LiquidData } from '../flow/liquids.js';
import type { Tub } from '../../model/tub.js';
import { regionsOf, type Regions } from './regions.js';
import { bottomOf, spillOver, spillThrough, type SpillSite } from './spill.js';
import type { WorkInput } from './work-input.js';

export interface Site extends SpillSite, Pick<Ground, 'ways' | 'spilt'> {
  readonly mouths: readonly Mouth[];
  readonly start: readonly number[];
}

/** What does not change with strainers and flows: of one net, once. */
export interface Ground {
  readonly regions: Regions;
  /** By node, level to which water stays with the outlets open, mm. */
  readonly rest: readonly number[];
  readonly ways: readonly Way[];
  /** Where what leaves by a way comes to stand, by twice the way and its end, as far as it was asked for. */
  readonly spilt: Map<number, Spilt>;
}

export interface Spilt {
  readonly routed: Routed;
  readonly shares: readonly Share[];
}

export interface Way {
  readonly between: readonly [number, number];
  readonly bottom: number;
  readonly flow: Link['flow'];
  /** Through which it leads, of a divider. */
  readonly opening?: number;
  /** Free edges among its crests. */
  readonly edges: readonly number[];
  readonly spill: (state: Routing, end: 0 | 1, flux: number, levels: readonly [number, number] | undefined) => void;
}

/** Cost: O(n log n). */
export const groundOf = ({ tub, drainage, passages, liquid, film }: WorkInput): Ground => {
  const { net, flood } = drainage;
  const { surface } = net;
  const regions = regionsOf(surface, film);
  const spots: SpillSite = { net, regions };
  const overCrests = crestLines(surface, regions, (stretch) => spoutOver(tub, surface.faces, stretch) < 0).map(
    (line): Way => ({
      between: line.between,
      bottom: Math.min(...line.crests.map(bottomOf)),
      flow: (high, low) => line.crests.reduce((sum, crest) => sum + overCrest(crest, high, low), 0),
      edges: line.between[1] < 0 ? line.crests.map(({ edge }) => edge) : [],
      spill: (state, end, flux, levels) => spillOver(state, spots, line, { end, flux, levels }),
    }),
  );
  const through = passagesIn({ net, regions }, passages).map((passage): Way => ({
    between: passage.between,
    bottom: passage.bottom,
    flow: flowThrough(tub, liquid, passage),
    edges: [],
    opening: passage.opening,
    spill: (state, end, flux, levels) => spillThrough(state, spots, passage, { end, flux, levels }),
  }));
  return {
    regions,
    rest: regions.lowest.map((point) => flood.level[point] ?? surface.points[point][2]),
    ways: [...overCrests, ...through],
    spilt: new Map(),
  };
};

export const siteOf = (input: WorkInput, { regions, rest, ways, spilt }: Ground): Site => {
  const { net } = input.drainage;
  const mouths = mouthsIn({ tub: input.tub, net, regions, liquid: input.liquid, rest });
  const start = regions.lowest.map(() => Infinity);
  for (const { between, bottom } of ways)
    for (const node of between) if (node >= 0) start[node] = Math.min(start[node], bottom);
  for (const { node, lip } of mouths) start[node] = Math.min(start[node], lip);
  return { net, regions, mouths, ways, spilt, start };
};

const flowThrough = (tub: Tub, liquid: LiquidData, { opening, pieces }: Passage): Way['flow'] => {
  const { strainer } = tub.openings[opening];
  if (!strainer) return (high, low) => throughOpening(pieces, high, low);
  const area = areaIn(pieces);
  return (high, low) => throughScreen(strainer, liquid, area, throughOpening(pieces, high, low));
};

/** Standing water is where the lowest point of a hollow lies; an outlet at its level takes from it, one above it what runs to it. */
export const stopsOf = ({ net, regions, mouths }: Site, goOnFrom: Stops['goOn']): Stops => {
  const nodesAt = new Map<number, number[]>();
  regions.lowest.forEach((point, node) => {
    const flatArea = net.flatAreaOfPoint[point];
    if (flatArea >= 0) nodesAt.set(flatArea, [...(nodesAt.get(flatArea) ?? []), node]);
  });
  const held = new Map<number, number[]>();
  for (const { opening, isAbove, node } of mouths)
    if (!isAbove && opening !== undefined) held.set(opening, [...(held.get(opening) ?? []), node]);
  return {
    nodeOf: (flatArea, near) => {
      const nodes = nodesAt.get(flatArea);
      if (!nodes) return -1;
      const own = near === undefined ? -1 : regions.ofTriangle[near];
      return nodes.includes(own) ? own : nodes[0];
    },
    nodeAt: (opening, triangle) => {
      const nodes = held.get(opening);
      if (!nodes) return -1;
      const own = regions.ofTriangle[triangle];
      return nodes.includes(own) ? own : nodes[0];
    },
    heightOf: (node) => net.surface.points[regions.lowest[node]][2],
    goOn: goOnFrom,
  };
};
