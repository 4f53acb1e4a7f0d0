import type { Tub } from '../../model/tub.js';
import type { Drainage } from '../flow/drainage.js';
import type { LiquidData } from '../flow/liquids.js';

export interface WorkInput {
  readonly tub: Tub;
  /** In use, on a surface on which the openings of dividers are sheet. */
  readonly drainage: Drainage;
  /** Openings of dividers. */
  readonly passages: ReadonlySet<number>;
  readonly liquid: LiquidData;
  /** mm. Hollows no deeper are none. */
  readonly film: number;
}
