import type { OutletIndex, Tub } from '../../model/tub.js';
import type { Water } from '../water.js';

/** Sine of the slope from which a panel counts as a wall: 45 deg. */
const WALL = Math.SQRT1_2;

/**
 * Outlets that are said to be an overflow, and those that lie as one does: with a raised edge or in a wall, without water, above the water over another outlet
 * of the same hollow that does get some; without any inflow stated, above a lower outlet of the same hollow.
 */
export const overflowOutlets = (tub: Tub, water: Water): ReadonlySet<OutletIndex> => {
  const states = water.outlets();
  const surface = water.surface();
  const isServedBelow = ({ rateMm3S, waterLevel, lip }: (typeof states)[number], safety: number): boolean =>
    tub.inflows.length === 0 ? lip < safety : rateMm3S > 0 && waterLevel <= safety;
  const isOverflow = (state: (typeof states)[number]): boolean => {
    const { raised, panel, overflow } = tub.outlets[state.outlet];
    if (overflow) return true;
    const { normal } = surface.faces[panel].frame;
    if (state.rateMm3S > 0 || (raised <= 0 && Math.hypot(normal[0], normal[1]) < WALL)) return false;
    return water
      .basins()
      .filter(({ outlets }) => outlets.includes(state.outlet))
      .some(({ outlets }) => states.some((other) => outlets.includes(other.outlet) && isServedBelow(other, state.lip)));
  };
  return new Set(states.filter(isOverflow).map(({ outlet }) => outlet));
};
