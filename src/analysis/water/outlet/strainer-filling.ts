import type { OutletIndex, Tub } from '../../model/tub.js';
import { CLEAN_AFTER, fillingTime } from '../flow/solids.js';
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

/** Solids are taken to go where their water goes and to stay on the strainer; clean at the start. */
export const strainerFilling = (tub: Tub, water: Water): readonly StrainerFilling[] =>
  water.outlets().flatMap(({ outlet, blockedAt = 1 }): readonly StrainerFilling[] => {
    const { strainer } = tub.outlets[outlet];
    if (!strainer) return [];
    const area = strainer.size[0] * strainer.size[1];
    const speeds = water.flows().flatMap(({ inflow, ends }) => {
      const { solids } = tub.inflows[inflow];
      const share = ends.reduce(
        (sum, end) => sum + (end.kind === 'outlet' && end.outlet === outlet ? end.share : 0),
        0,
      );
      const time =
        solids && share > 0 ? fillingTime(solids.kind, solids.rateMm3S * share, area, 0, blockedAt) : Infinity;
      return Number.isFinite(time) ? [1 / time] : [];
    });
    if (speeds.length === 0) return [];
    const untilOverflow = 1 / speeds.reduce((sum, speed) => sum + speed, 0);
    return [{ outlet, blockedAt, untilOverflow, cleanEvery: untilOverflow * CLEAN_AFTER }];
  });
