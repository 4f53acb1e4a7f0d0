import type { OutletIndex, Tub } from '../../model/tub.js';
import { CLEAN_AFTER, fillingTime } from '../flow/solids.js';
import { restPlaces, type RestPlace } from '../solids-run.js';
import type { Water } from '../water.js';

/** How long a strainer lasts under what the inflows carry onto it. */
export interface StrainerFilling {
  readonly outlet: OutletIndex;
  /** Share blocked at which the tub runs over; all of it where no head can build up. */
  readonly blockedAt: number;
  /** Seconds. */
  readonly untilOverflow: number;
  readonly cleanEvery: number;
}

/** Share of the strainer's area that is shut in a second, as the water runs at the start; 0: nothing comes to rest on it. */
export const fillingSpeed = ({ blockedAt, untilOverflow }: StrainerFilling): number => blockedAt / untilOverflow;

/** Solids go where their water goes, unless they come to rest on the way, and stay on the strainer; clean at the start. */
export const strainerFilling = (tub: Tub, water: Water): readonly StrainerFilling[] => {
  const rests = restPlaces(tub, water);
  return water.outlets().flatMap(({ outlet, blockedAt = 1 }): readonly StrainerFilling[] => {
    const { strainer } = tub.outlets[outlet];
    if (!strainer) return [];
    const area = strainer.size[0] * strainer.size[1];
    const speeds = water.flows().flatMap(({ inflow, ends }) => {
      const { solids } = tub.inflows[inflow];
      const share = ends.reduce(
        (sum, end) => sum + (end.kind === 'outlet' && end.outlet === outlet ? end.share : 0),
        0,
      );
      const arrives = share * (1 - settledShare(tub, rests, inflow, outlet));
      const time =
        solids && arrives > 0 ? fillingTime(solids.kind, solids.rateMm3S * arrives, area, 0, blockedAt) : Infinity;
      return Number.isFinite(time) ? [1 / time] : [];
    });
    if (speeds.length === 0) return [];
    const untilOverflow = 1 / speeds.reduce((sum, speed) => sum + speed, 0);
    return [{ outlet, blockedAt, untilOverflow, cleanEvery: untilOverflow * CLEAN_AFTER }];
  });
};

/**
 * Part of an inflow's solids that comes to rest before an outlet: all where the panel it falls on or the outlet's own is too
 * flat for them, else what runs through creases and pools that are.
 */
const settledShare = (tub: Tub, rests: readonly RestPlace[], inflow: number, outlet: OutletIndex): number => {
  const own = rests.filter((place) => place.inflow === inflow);
  const passed = [tub.inflows[inflow].panel, tub.outlets[outlet].panel];
  if (own.some(({ kind, faces }) => kind === 'panel' && passed.includes(faces[0]))) return 1;
  return Math.min(
    1,
    own.reduce((sum, { share }) => sum + (share ?? 0), 0),
  );
};
