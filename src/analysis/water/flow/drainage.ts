import { memo } from '../../cache/memo.js';
import type { Tub } from '../../model/tub.js';
import { sealedOpenings } from '../../shape/laid/doors.js';
import { floodFrom, type Flood } from '../standing/flood.js';
import { buildFlowNet, type FlowNet } from './flow-net.js';
import { findPools, type Pool } from '../standing/pools.js';
import { openOpenings, rimRises, type Drains } from '../surface/open-openings.js';
import { heightsOf, type Surface } from '../surface/surface.js';

/** The surface with its outlets open or plugged: where water stands, and where it runs. */
export interface Drainage {
  readonly open: readonly boolean[];
  readonly rises: readonly number[];
  readonly flood: Flood;
  /** However shallow. */
  readonly pools: readonly Pool[];
  /** Made when first asked for. */
  readonly net: FlowNet;
}

const waysOut = (
  tub: Tub,
  surface: Surface,
  drains: Drains,
  closed: ReadonlySet<number> = NONE,
): Pick<Drainage, 'open' | 'rises'> => {
  const sealed = sealedOpenings(tub, surface.faces);
  return {
    open: openOpenings(tub, drains).map((isOpen, opening) => isOpen && !closed.has(opening) && !sealed.has(opening)),
    rises: drains === 'open' || drains === 'inUse' ? rimRises(tub, surface) : tub.openings.map(() => 0),
  };
};

const NONE: ReadonlySet<number> = new Set();

/** Where and how high water stands, tub as drawn. */
export const floodOf = (tub: Tub, surface: Surface, drains: Drains): Flood =>
  floodFrom({ surface, heights: heightsOf(surface.points), ...waysOut(tub, surface, drains) });

/** `closed`: openings that are taken as shut, whatever they are. */
export const drainageOf = (tub: Tub, surface: Surface, drains: Drains, closed?: ReadonlySet<number>): Drainage => {
  const { open, rises } = waysOut(tub, surface, drains, closed);
  const flood = floodFrom({ surface, heights: heightsOf(surface.points), open, rises });
  const pools = findPools({ surface, points: surface.points, flood, open });
  const net = memo(() => buildFlowNet(surface, pools, open, rises));
  return {
    open,
    rises,
    flood,
    pools,
    get net() {
      return net();
    },
  };
};
