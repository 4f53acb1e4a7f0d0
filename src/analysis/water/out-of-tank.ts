import type { Tub } from '../model/tub.js';
import type { ChamberAtWork } from './chambers-at-work.js';
import { contentAt, type Basin } from './capacity.js';
import type { Drainage } from './flow/drainage.js';
import type { Films } from './flow/hold-up.js';
import type { OutletState } from './outlet/outlets.js';
import { belowTriangle } from './standing/pools.js';
import { trianglesOfOpening } from './surface/mesh.js';
import type { Surface } from './surface/surface.js';

/** Liquid that is out of the tank while the inflows run, mm3. */
export interface HoldUp {
  /** On panels, in creases, over the outlets and above the edges of chambers: it comes back when the inflows stop. */
  readonly drainBack: number;
  readonly films: number;
  readonly overOutlets: number;
  /** Above the edges over which chambers run. */
  readonly overCrests: number;
  /** In pools that the flow runs through: it stays. */
  readonly pools: number;
  readonly total: number;
}

export interface HoldUpInput {
  readonly tub: Tub;
  readonly surface: Surface;
  readonly open: Drainage;
  readonly basins: readonly Basin[];
  readonly films: Films;
  readonly outlets: readonly OutletState[];
  /** Per flow, the standing water that it runs through. */
  readonly through: readonly ReadonlyMap<number, number>[];
  readonly chambers: readonly ChamberAtWork[];
}

export const holdUpOf = (input: HoldUpInput): HoldUp => {
  const { films, open, through } = input;
  const running = [...films.panels, ...films.creases].reduce((sum, { volume }) => sum + volume, 0);
  const wet = new Set(
    through.flatMap((map) => [...map.keys()]).flatMap((flatArea) => open.net.flatAreas[flatArea].pools),
  );
  const pools = [...wet].reduce(
    (sum, pool) => sum + (Number.isFinite(open.pools[pool].volume) ? open.pools[pool].volume : 0),
    0,
  );
  const overOutlets = waterOver(input);
  const overCrests = input.chambers.reduce((sum, { volume, atRest }) => sum + volume - atRest, 0);
  const drainBack = running + overOutlets + overCrests;
  return { drainBack, films: running, overOutlets, overCrests, pools, total: drainBack + pools };
};

/**
 * Water that stands over the outlets by their heads, each pool once, less what would stand there anyway and less what is
 * inside pipes that stand up, below their lips: that runs.
 */
const waterOver = (input: HoldUpInput): number => {
  const { surface, open, basins, outlets } = input;
  const counted = new Set<number>();
  let sum = 0;
  for (const { lowest, rateMm3S, waterLevel } of outlets) {
    const low = surface.points.indexOf(lowest);
    const basin = basins.find(({ pool }) => pool.points.includes(low));
    if (rateMm3S <= 0 || !basin || counted.has(low)) continue;
    const level = Math.min(waterLevel, basin.level);
    const { volume, points } = contentAt(surface, basin.pool, low, level);
    const standing = open.pools.filter(
      (pool) => Number.isFinite(pool.volume) && pool.points.some((point) => points.has(point)),
    );
    const there = standing.reduce((total, pool) => total + pool.volume, 0);
    sum += Math.max(0, volume - there - insidePipes(input, points, level));
    for (const point of points) counted.add(point);
  }
  return sum;
};

/** What stands below their lips inside the raised outlets that water of that level reaches. */
const insidePipes = ({ tub, surface, outlets }: HoldUpInput, points: ReadonlySet<number>, level: number): number => {
  let volume = 0;
  for (const { outlet, lowest, lip } of outlets) {
    const { opening } = tub.outlets[outlet];
    if (opening === undefined || lip <= lowest[2] || !points.has(surface.points.indexOf(lowest))) continue;
    for (const t of trianglesOfOpening(surface.mesh, opening))
      volume += belowTriangle(surface.mesh, surface.points, t, Math.min(lip, level)).volume;
  }
  return volume;
};
