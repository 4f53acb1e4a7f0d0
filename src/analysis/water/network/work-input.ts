import type { InflowFlow } from '../flow/inflows.js';
import type { Routed } from '../flow/route/routing.js';
import type { Tub } from '../../model/tub.js';
import type { Drainage } from '../flow/drainage.js';
import type { LiquidData } from '../flow/liquids.js';

/** Of water at work that is known. */
export interface Before {
  readonly arrived: readonly Routed[];
  readonly parting: string;
  readonly flows: readonly InflowFlow[];
}

export interface WorkInput {
  readonly tub: Tub;
  /** In use, on a surface on which the openings of dividers are sheet. */
  readonly drainage: Drainage;
  /** Openings of dividers. */
  readonly passages: ReadonlySet<number>;
  readonly liquid: LiquidData;
  /** mm. Hollows no deeper are none. */
  readonly film: number;
  /** The same water with other strainers: what is alike is taken from it. */
  readonly before?: Before;
}
