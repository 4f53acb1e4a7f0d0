import type { Vec3 } from '../../geometry/vec.js';
import type { OutletIndex, Tub } from '../../model/tub.js';
import type { Drainage } from '../flow/drainage.js';
import type { InflowFlow } from '../flow/inflows.js';
import type { LiquidData } from '../flow/liquids.js';
import { leastThat, outletCapacity, outletHead } from './outlet-head.js';
import { rimPoints } from '../capacity.js';
import { blockedShareAt, strainerLoss, type StrainerLoss } from './strainer.js';
import type { Surface } from '../surface/surface.js';

/** An outlet at work. */
export interface OutletState {
  readonly outlet: OutletIndex;
  /** Lowest point of its rim, on the wet face. */
  readonly lowest: Vec3;
  /** Level at which water starts to run in: over a raised edge, if it has one. */
  readonly lip: number;
  readonly rateMm3S: number;
  /** Head of water over the lip for that rate: outlet and strainer, mm. */
  readonly outletHead: number;
  readonly strainer: StrainerLoss | undefined;
  readonly head: number;
  /** Level of the water over it; Infinity when no level is enough. */
  readonly waterLevel: number;
  /** Level at which the tub runs over here, all outlets plugged. */
  readonly floodLevel: number;
  /** Most it takes before the tub runs over; undefined when it lies in no hollow, so that no head builds up. */
  readonly capacityMm3S: number | undefined;
  /** Share of the strainer blocked at which the tub runs over; undefined without strainer, inflow or hollow. */
  readonly blockedAt: number | undefined;
  /** Share of the flow that comes from each quarter of the compass, in plan: it travels from there. */
  readonly from: Readonly<Record<'left' | 'right' | 'front' | 'back' | 'around', number>>;
}

export const outletStates = (
  tub: Tub,
  surface: Surface,
  plugged: Drainage,
  flows: readonly InflowFlow[],
  liquid: LiquidData,
): readonly OutletState[] => {
  const rims = rimPoints(surface);
  return tub.outlets.flatMap((outlet, index): readonly OutletState[] => {
    const rim = rims.get(outlet.opening) ?? [];
    const face = surface.faces[outlet.panel];
    if (rim.length === 0 || !face?.usable) return [];
    const low = rim.reduce((least, i) => (surface.points[i][2] < surface.points[least][2] ? i : least));
    const lowest = surface.points[low];
    const rateMm3S = flows
      .flatMap(({ ends }) => ends)
      .reduce((sum, end) => sum + (end.kind === 'outlet' && end.outlet === index ? end.rateMm3S : 0), 0);
    const upright = Math.max(0, face.frame.normal[2]);
    const round = { diameter: outlet.diameter, steepness: Math.sqrt(Math.max(0, 1 - upright ** 2)) };
    const lip = lowest[2] + outlet.raised * upright;
    const over = outletHead(round, rateMm3S);
    const strainer = outlet.strainer && strainerLoss(outlet.strainer, rateMm3S, liquid);
    const head = over + (strainer?.head ?? 0);
    const floodLevel = Math.max(lip, plugged.flood.level[low]);
    const room = floodLevel - lip;
    const lossAt = (rate: number): number => (outlet.strainer ? strainerLoss(outlet.strainer, rate, liquid).head : 0);
    // The head over the rim is what is left of the room behind the strainer.
    const fits = (rim: number): boolean => rim + lossAt(outletCapacity(round, rim)) <= room;
    const hollow = plugged.flood.level[low] > lip && Number.isFinite(room);
    return [
      {
        outlet: index,
        lowest,
        lip,
        rateMm3S,
        outletHead: over,
        strainer,
        head,
        waterLevel: lip + head,
        floodLevel,
        capacityMm3S: hollow ? outletCapacity(round, mostThat(room, fits)) : undefined,
        blockedAt:
          outlet.strainer && rateMm3S > 0 && hollow
            ? blockedShareAt(outlet.strainer, rateMm3S, liquid, room - over)
            : undefined,
        from: quartersOf(flows, outlet.opening),
      },
    ];
  });
};

/** Largest value up to `most` that passes. */
const mostThat = (most: number, passes: (value: number) => boolean): number =>
  passes(most) ? most : most - leastThat(most / 2, (less) => passes(Math.max(0, most - less)));

const quartersOf = (flows: readonly InflowFlow[], opening: number): OutletState['from'] => {
  const sums = { left: 0, right: 0, front: 0, back: 0, around: 0 };
  let total = 0;
  for (const { routed } of flows) {
    for (const entry of routed?.entries ?? []) {
      if (entry.opening !== opening) continue;
      total += entry.flux;
      if (!entry.travel) sums.around += entry.flux;
      else if (Math.abs(entry.travel[0]) >= Math.abs(entry.travel[1]))
        sums[entry.travel[0] > 0 ? 'left' : 'right'] += entry.flux;
      else sums[entry.travel[1] > 0 ? 'front' : 'back'] += entry.flux;
    }
  }
  if (total === 0) return sums;
  const share = (value: number): number => value / total;
  return {
    left: share(sums.left),
    right: share(sums.right),
    front: share(sums.front),
    back: share(sums.back),
    around: share(sums.around),
  };
};
