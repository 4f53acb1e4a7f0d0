import type { Chamber } from './chambers.js';
import type { Drainage } from './flow/drainage.js';
import type { InflowFlow } from './flow/inflows.js';
import { crestHead } from './outlet/weir.js';
import type { OutletState } from './outlet/outlets.js';
import type { Pool } from './standing/pools.js';

/** A chamber while the inflows run. */
export interface ChamberAtWork {
  /** What runs through it, mm3/s. */
  readonly rateMm3S: number;
  /** Depth of the water over what it runs over, mm; 0 where it runs off through an outlet, Infinity over a single point. */
  readonly head: number;
  /** Level of its water, mm; undefined where none stands in it, or the head is not known. */
  readonly level: number | undefined;
  /** What stands in it, mm3: up to what holds it back, and above that the head over the same surface. */
  readonly volume: number;
  /** What stays in it when the inflows have stopped and the outlets are open, mm3. */
  readonly atRest: number;
}

export interface AtWorkInput {
  readonly open: Drainage;
  readonly flows: readonly InflowFlow[];
  readonly outlets: readonly OutletState[];
}

/**
 * The chambers at work: behind an edge the water stands to the edge, and by the head of a thin straight crest above it, all of the
 * level line taken as its width and the water before it as at rest; over outlets it stands as these say. Cost: O(n).
 */
export const chambersAtWork = (chambers: readonly Chamber[], input: AtWorkInput): readonly ChamberAtWork[] =>
  chambers.map((chamber) => {
    const pool = input.open.pools.find(
      ({ points, level }) => Number.isFinite(level) && points.some((point) => chamber.points.has(point)),
    );
    const atRest = pool?.volume ?? 0;
    const rateMm3S = pool ? rateThrough(input, pool) : 0;
    if (pool && pool.level >= chamber.level) {
      const head = rateMm3S > 0 ? crestHead(chamber.spill.width, rateMm3S) : 0;
      // Over a single point, or through an opening, the head is not known.
      if (!Number.isFinite(head)) return { rateMm3S, head, level: undefined, volume: pool.volume, atRest };
      return { rateMm3S, head, level: pool.level + head, volume: pool.volume + pool.area * head, atRest };
    }
    const own = input.outlets.filter(({ outlet, rateMm3S: rate }) => rate > 0 && chamber.outlets.includes(outlet));
    const taken = own.reduce((sum, { rateMm3S: rate }) => sum + rate, 0);
    const level = own.length > 0 ? Math.max(...own.map(({ waterLevel }) => waterLevel)) : pool?.level;
    return { rateMm3S: Math.max(rateMm3S, taken), head: 0, level, volume: atRest, atRest };
  });

/** What all inflows bring to a pool. */
const rateThrough = ({ open, flows }: AtWorkInput, pool: Pool): number => {
  const index = open.pools.indexOf(pool);
  const flatArea = open.net.flatAreas.findIndex(({ pools }) => pools.includes(index));
  return flows.reduce((sum, { routed }) => sum + (routed?.through.get(flatArea) ?? 0), 0);
};
