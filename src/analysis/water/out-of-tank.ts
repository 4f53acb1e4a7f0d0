import type { Standing } from './chambers-at-work.js';
import type { Films } from './flow/hold-up.js';
import type { FlowNet } from './flow/flow-net.js';

/** Liquid that is out of the tank while the inflows run, mm3. */
export interface HoldUp {
  /** On panels, in creases, over the outlets and above the edges of chambers: it comes back when the inflows stop. */
  readonly drainBack: number;
  readonly films: number;
  readonly overOutlets: number;
  /** Above the edges over which chambers run that no outlet takes from. */
  readonly overCrests: number;
  /** In pools that the flow runs through: it stays. */
  readonly pools: number;
  readonly total: number;
}

export interface HoldUpInput {
  readonly net: FlowNet;
  readonly films: Films;
  /** Per flow, the standing water that it runs through. */
  readonly through: readonly ReadonlyMap<number, number>[];
  /** By hollow of the network, and the lowest point of each. */
  readonly standing: readonly Standing[];
  readonly lowest: readonly number[];
}

export const holdUpOf = ({ net, films, through, standing, lowest }: HoldUpInput): HoldUp => {
  const running = [...films.panels, ...films.creases].reduce((sum, { volume }) => sum + volume, 0);
  const fed = standing.filter(({ isFed }) => isFed);
  const above = (list: readonly Standing[]): number =>
    list.reduce((sum, { volume, atRest }) => sum + Math.max(0, volume - atRest), 0);
  const overOutlets = above(fed.filter(({ isTaken }) => isTaken));
  const overCrests = above(fed.filter(({ isTaken }) => !isTaken));
  const pools = fed.reduce((sum, { atRest }) => sum + atRest, 0) + passedPools({ net, through, lowest });
  const drainBack = running + overOutlets + overCrests;
  return { drainBack, films: running, overOutlets, overCrests, pools, total: drainBack + pools };
};

/** What stands on the way outside of the hollows of the network. */
const passedPools = ({ net, through, lowest }: Pick<HoldUpInput, 'net' | 'through' | 'lowest'>): number => {
  const own = new Set(lowest.map((point) => net.flatAreaOfPoint[point]));
  const passed = new Set(through.flatMap((map) => [...map.keys()]).filter((flatArea) => !own.has(flatArea)));
  const wet = new Set([...passed].flatMap((flatArea) => net.flatAreas[flatArea].pools));
  return [...wet].reduce(
    (sum, pool) => sum + (Number.isFinite(net.pools[pool].volume) ? net.pools[pool].volume : 0),
    0,
  );
};
