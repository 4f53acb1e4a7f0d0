import type { Tub } from '../../model/tub.js';
import type { Basin } from '../capacity.js';
import { drainageOf, type Drainage } from '../flow/drainage.js';
import { followInflows } from '../flow/inflows.js';
import type { LiquidData } from '../flow/liquids.js';
import type { Bend } from '../../shape/shape.js';
import type { Surface } from '../surface/surface.js';
import { outletsAtWork, type AtWork } from './outlets.js';

export interface BlockedInput {
  readonly tub: Tub;
  readonly surface: Surface;
  readonly plugged: Drainage;
  /** Of the plugged tub, the main one first. */
  readonly basins: readonly Basin[];
  readonly liquid: LiquidData;
  readonly bends: readonly Bend[];
}

/**
 * The tub at work with every outlet of a basin that has an overflow shut or blocked, but for its overflows; one that lies in no basin
 * is asked to serve the main one. Undefined where there is no overflow, or nothing runs in.
 */
export const whenBlocked = ({ tub, surface, plugged, basins, liquid, bends }: BlockedInput): AtWork | undefined => {
  const overflows = tub.outlets.flatMap(({ overflow }, outlet) => (overflow ? [outlet] : []));
  if (tub.inflows.length === 0 || overflows.length === 0) return undefined;
  const isStray = overflows.some((outlet) => basins.every((basin) => !basin.outlets.includes(outlet)));
  const served = basins.filter(
    ({ outlets }, i) => (isStray && i === 0) || outlets.some((outlet) => overflows.includes(outlet)),
  );
  const shut = new Set(served.flatMap(({ outlets }) => outlets));
  const outlets = tub.outlets.map((outlet, i) =>
    shut.has(i) && !outlet.overflow ? { ...outlet, shut: true } : outlet,
  );
  const blocked = { ...tub, outlets };
  const { net } = drainageOf(blocked, surface, 'inUse');
  return outletsAtWork({ tub: blocked, surface, plugged, flows: followInflows(blocked, net), liquid, net, bends });
};
