import type { Hem, Sheet } from '../../model/tub.js';
import { allowanceOf, chooseKFactor } from '../../material/bend-allowance.js';

/** Development of a hem. The panel's sharp edge is the outermost line of the finished hem. */
export interface HemSize {
  readonly radius: number;
  readonly kFactor: number;
  /** From the edge inward to the tangent line: R + T. */
  readonly inset: number;
  readonly allowance: number;
  /** Straight part of the lip behind the roll. */
  readonly lip: number;
  readonly turned: Hem['turned'];
}

/**
 * K of a closed hem (inside radius 0). With 0.5 the flat is 0.43 T shorter than panel plus lip, measured over the
 * outside: 2 T - pi T / 2. Common practice, no source; DIN 6935 does not reach down to R = 0.
 */
const CLOSED_HEM_K = 0.5;

/** Sizes of a hem, mm. `lip` may come out 0 or less: the hem is then too short to be made. */
export const hemOf = (hem: Hem, sheet: Sheet, cutK?: number): HemSize => {
  const radius = hem.kind === 'closed' ? 0 : hem.gap / 2;
  const kFactor = radius === 0 ? CLOSED_HEM_K : chooseKFactor({ sheet, radius, bendKFactor: undefined, cutK }).kFactor;
  const inset = radius + sheet.thickness;
  const allowance = allowanceOf({ angle: Math.PI, radius, thickness: sheet.thickness, kFactor });
  return { radius, kFactor, inset, allowance, lip: hem.length - inset, turned: hem.turned };
};
