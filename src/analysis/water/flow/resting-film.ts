/** The film that surface tension keeps on sheet, however long one waits. */
import { GRAVITY } from './depth.js';
import type { LiquidData } from './liquids.js';

type Wetting = Pick<LiquidData, 'densityKgM3' | 'surfaceTensionMNM' | 'contactAngleDeg'>;

/** Length over which surface tension holds up against gravity, mm: sqrt(gamma / (rho g)). Source: as `restingFilm`. */
export const capillaryLength = ({ densityKgM3, surfaceTensionMNM }: Omit<Wetting, 'contactAngleDeg'>): number =>
  // A thousandth of kg/s2 over kg/m3 and mm/s2, and 1 m3 is 10^9 mm3.
  Math.sqrt((surfaceTensionMNM * 1_000_000) / (densityKgM3 * GRAVITY));

/**
 * Depth to which a liquid rests on level sheet without running on, mm: 2 Lc sin(theta / 2), from the balance of its weight with
 * the tension at its edge. A hollow no deeper holds no more than level sheet does. Source: P.-G. de Gennes, F. Brochard-Wyart,
 * D. Quere, Capillarity and Wetting Phenomena (2004), section 2.2.
 */
export const restingFilm = (liquid: Wetting): number =>
  2 * capillaryLength(liquid) * Math.sin((liquid.contactAngleDeg * Math.PI) / 360);
