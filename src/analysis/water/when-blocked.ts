import type { Tub } from '../model/tub.js';
import { atWorkOf, drainageAtWork, type AtWork, type AtWorkInput } from './at-work.js';
import type { Basin } from './capacity.js';
import type { Surface } from './surface/surface.js';

export interface BlockedInput extends Omit<AtWorkInput, 'drainage'> {
  /** On which openings of dividers are sheet. */
  readonly tight: Surface;
  /** Of the plugged tub, the main one first. */
  readonly basins: readonly Basin[];
}

/**
 * The tub at work with every outlet of a basin that has an overflow shut or blocked, but for its overflows; one that lies in no basin
 * is asked to serve the main one. Undefined where there is no overflow, or nothing runs in.
 */
export const whenBlocked = (input: BlockedInput): AtWork | undefined => {
  const { tub, tight, basins } = input;
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
  const blocked: Tub = { ...tub, outlets };
  return atWorkOf({ ...input, tub: blocked, drainage: drainageAtWork(blocked, tight) });
};
