import type { Tub } from '../model/tub.js';
import type { Chamber } from './chambers.js';
import type { Drainage } from './flow/drainage.js';
import { contentsOf } from './network/contents.js';
import type { WaterAtWork } from './network/water-at-work.js';
import { samePlace } from './same-place.js';
import type { Surface } from './surface/surface.js';

/** A chamber while the inflows run. */
export interface ChamberAtWork {
  /** What runs through it, mm3/s. */
  readonly rateMm3S: number;
  /** Depth of its water over what it runs over when it is full, mm; 0 where it stands lower. */
  readonly head: number;
  /** Level of its water, mm; undefined where none stands in it. */
  readonly level: number | undefined;
  /** What stands in it, mm3: on its own side of crests that are drowned. */
  readonly volume: number;
  /** What stays in it when the inflows have stopped, mm3. */
  readonly atRest: number;
}

/** What stands in one hollow of the network. */
export interface Standing extends Omit<ChamberAtWork, 'head'> {
  readonly isFed: boolean;
  /** An outlet takes from it. */
  readonly isTaken: boolean;
}

export interface StandingInput {
  readonly tub: Tub;
  /** Of the net that the water was followed on. */
  readonly surface: Surface;
  readonly work: WaterAtWork;
  /** As the tub is, in use, on its own surface. */
  readonly own: Surface;
  readonly open: Drainage;
}

/** By hollow of the network. Cost: O(n). */
export const standingAtWork = ({ tub, surface, work, own, open }: StandingInput): readonly Standing[] => {
  const contentOf = contentsOf(tub, surface, work.regions);
  const pointAt = samePlace(own);
  const taking = new Set(
    work.outlets.flatMap(({ rateMm3S, level, node }) => (rateMm3S > 0 && level !== undefined ? [node] : [])),
  );
  return work.nodes.map(({ lowest, level, rateMm3S, isFed }, node) => {
    const place = surface.points[lowest];
    const point = pointAt(place);
    const rest = point === undefined ? place[2] : Math.max(place[2], open.flood.level[point]);
    const isBound = rest < Infinity;
    const atRest = isBound ? contentOf(node, rest) : 0;
    const stands = isFed ? level : rest > place[2] && isBound ? rest : undefined;
    return {
      rateMm3S,
      isFed,
      isTaken: taking.has(node),
      level: stands !== undefined && stands < Infinity ? stands : undefined,
      volume: isFed && level < Infinity ? contentOf(node, level) : atRest,
      atRest,
    };
  });
};

/** The chambers at work, each by the hollow of the network that has its lowest place. */
export const chambersAtWork = (
  chambers: readonly Chamber[],
  { surface, work }: Pick<StandingInput, 'surface' | 'work'>,
  standing: readonly Standing[],
): readonly ChamberAtWork[] => {
  const pointAt = samePlace(surface);
  return chambers.map(({ lowest, level: brim }) => {
    const point = pointAt(lowest);
    const node = point === undefined ? -1 : work.regions.ofPoint[point];
    if (node < 0) return { rateMm3S: 0, head: 0, level: undefined, volume: 0, atRest: 0 };
    const { rateMm3S, isFed, level, volume, atRest } = standing[node];
    const head = isFed && level !== undefined ? Math.max(0, level - brim) : 0;
    return { rateMm3S, head, level, volume, atRest };
  });
};
