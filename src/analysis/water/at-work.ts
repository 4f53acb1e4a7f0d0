import type { Tub } from '../model/tub.js';
import { letsBy } from '../shape/account/dividers.js';
import type { Bend } from '../shape/shape.js';
import { drainageOf, type Drainage } from './flow/drainage.js';
import type { InflowFlow } from './flow/inflows.js';
import type { LiquidData } from './flow/liquids.js';
import { groundOf, type Ground } from './network/site.js';
import { waterAtWork, type Before, type WaterAtWork } from './network/water-at-work.js';
import { outletsAtWork, type OutletState } from './outlet/outlets.js';
import type { Surface } from './surface/surface.js';

/** Outlets at work, and the flows as they leave through them. */
export interface AtWork {
  readonly outlets: readonly OutletState[];
  readonly flows: readonly InflowFlow[];
  readonly work: WaterAtWork;
}

export interface AtWorkInput {
  readonly tub: Tub;
  readonly surface: Surface;
  readonly plugged: Drainage;
  /** In use, as the water is followed: openings of dividers closed. */
  readonly drainage: Drainage;
  readonly liquid: LiquidData;
  readonly film: number;
  readonly bends: readonly Bend[];
  readonly before?: Before;
  /** Of that drainage, where it is known. */
  readonly ground?: Ground;
}

export const atWorkOf = (input: AtWorkInput): AtWork => {
  const { tub, drainage } = input;
  const work = waterAtWork({ ...input, passages: passagesOf(tub, input.surface) });
  const outlets = outletsAtWork({ ...input, flows: work.flows, settled: work.outlets, net: drainage.net });
  return { outlets, flows: work.flows, work };
};

/** Openings that lead through dividers. */
export const passagesOf = (tub: Tub, { dividers }: Surface): ReadonlySet<number> =>
  new Set(tub.openings.flatMap(({ panel }, opening) => (dividers.has(panel) && letsBy(tub, opening) ? [opening] : [])));

/** In use, on a surface on which openings of dividers are sheet. */
export const drainageAtWork = (tub: Tub, tight: Surface): Drainage =>
  drainageOf(tub, tight, 'inUse', passagesOf(tub, tight));

/** What all that runs on one drainage has in common. */
export const groundAtWork = (input: Omit<AtWorkInput, 'before' | 'ground'>): Ground =>
  groundOf({ ...input, passages: passagesOf(input.tub, input.surface) });
