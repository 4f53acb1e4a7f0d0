import type { Tub } from '../../model/tub.js';
import type { Surface } from './surface.js';

/** Which openings let water through: `inUse`: outlets but for those that are shut in use; `open`: all; `plugged`: no outlet, for a fill test; `closed`: none. */
export type Drains = 'inUse' | 'open' | 'plugged' | 'closed';

/**
 * Per opening of the tub: does water leave through it?
 *
 * A hole that carries a fastener is filled by it (an unsealed one is a leak, which is judged as such, not as a drain);
 * every other opening is open, and an outlet unless it is plugged.
 */
export const openOpenings = (tub: Tub, drains: Drains): readonly boolean[] => {
  const shut = new Set(
    drains === 'inUse' ? tub.outlets.filter((outlet) => outlet.shut).map(({ opening }) => opening) : [],
  );
  const drained = drains === 'inUse' || drains === 'open';
  return tub.openings.map(
    ({ use, fastener }, opening) =>
      drains !== 'closed' && fastener === undefined && (use !== 'outlet' || drained) && !shut.has(opening),
  );
};

/** Height that water must rise above the wet face at the rim of each opening, mm along z. */
export const rimRises = (tub: Tub, surface: Surface): readonly number[] => {
  const rises = tub.openings.map(() => 0);
  for (const { opening, raised, panel } of tub.outlets) {
    if (raised > 0 && opening !== undefined)
      rises[opening] = raised * Math.max(0, surface.faces[panel]?.frame.normal[2] ?? 0);
  }
  return rises;
};
