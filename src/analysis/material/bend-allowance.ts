/** Arithmetic of one bend. Lengths mm, angles rad (deviation from flat). K counts in thicknesses from the inside face. */
import type { Coupon, Material, Sheet } from '../model/tub.js';

/** Below this R/T the standard's logarithm runs towards minus infinity; the value at the limit is kept instead. */
const LEAST_RADIUS_RATIO = 0.1;

/**
 * K for steel without a measurement: `k / 2` with the standard's `k = 0.65 + 0.5 log10(R / T)`, at most 1.
 * The standard's k counts in half thicknesses, hence the 2. Never negative: under R/T = 0.1 (a sharp crease, outside of
 * the standard) K stays at 0.075, and only a test bend tells the truth.
 * Source: DIN 6935, correction factor k.
 */
export const kFactorDin6935 = (radius: number, thickness: number): number => {
  const ratio = Math.max(radius / thickness, LEAST_RADIUS_RATIO);
  return Math.min(0.65 + 0.5 * Math.log10(ratio), 1) / 2;
};

/**
 * K that a test bend shows: a strip of known flat length, bent once, both legs measured over the outside to the
 * virtual corner. Solves `flat = legs - 2 (R + T) tan(angle / 2) + angle (R + K T)` for K.
 * Undefined when the coupon cannot be right: no angle, a sharp corner at infinity, or a neutral line outside the metal
 * (K below 0 or above 1). Accuracy: a leg misread by 0.1 mm at 90 deg shifts K by 0.064 mm / T.
 */
export const kFactorFromCoupon = (coupon: Coupon, thickness: number, radius: number): number | undefined => {
  if (!(coupon.angle > 0 && coupon.angle < Math.PI)) return undefined;
  const outside = setbackOf({ angle: coupon.angle, radius, thickness, wet: 'outside' });
  const allowance = coupon.flat - coupon.legs[0] - coupon.legs[1] + 2 * outside;
  const kFactor = (allowance / coupon.angle - radius) / thickness;
  return kFactor >= 0 && kFactor <= 1 ? kFactor : undefined;
};

/**
 * K of half-hard copper and brass, and of aluminium: the length of a bend of 90 deg is `0.64 T + 1.57 R`.
 * Source: Machinery's Handbook, 31st ed., Bending Sheet Metal, formula (33).
 */
const K_OF_SOFTER_METALS = (0.64 * 2) / Math.PI;

/** The standard is one of steel; of metals that are not, it says nothing. */
const isSteel = (material: Material): boolean =>
  material === 'steel' || material === 'galvanized' || material === 'stainless';

/** Where K comes from. */
export type KSource = 'cut' | 'coupon' | 'bend' | 'sheet' | 'DIN 6935' | 'handbook';

/** Is the wet face on the inside (a valley) or on the outside (a ridge) of a bend? */
export type WetSide = 'inside' | 'outside';

export interface KChoice {
  readonly kFactor: number;
  readonly source: KSource;
}

export interface KQuestion {
  readonly sheet: Pick<Sheet, 'material' | 'thickness' | 'radius' | 'kFactor' | 'coupon'>;
  /** Inside radius of the bend itself. */
  readonly radius: number;
  /** K stated on the bend. */
  readonly bendKFactor: number | undefined;
  /** K that the flat of a part was made with which is cut already. */
  readonly cutK?: number | undefined;
}

/**
 * The K to use and where it comes from: what a part was cut with, a measured coupon of the sheet, K stated on the bend, K stated on the sheet,
 * DIN 6935 for steel and stainless, the handbook's for the softer metals. The coupon was bent at the sheet's radius and is solved with it. A coupon that cannot be right is passed over.
 */
export const chooseKFactor = ({ sheet, radius, bendKFactor, cutK }: KQuestion): KChoice => {
  if (cutK !== undefined) return { kFactor: cutK, source: 'cut' };
  const measured = sheet.coupon && kFactorFromCoupon(sheet.coupon, sheet.thickness, sheet.radius);
  if (measured !== undefined) return { kFactor: measured, source: 'coupon' };
  if (bendKFactor !== undefined) return { kFactor: bendKFactor, source: 'bend' };
  if (sheet.kFactor !== undefined) return { kFactor: sheet.kFactor, source: 'sheet' };
  return isSteel(sheet.material)
    ? { kFactor: kFactorDin6935(radius, sheet.thickness), source: 'DIN 6935' }
    : { kFactor: K_OF_SOFTER_METALS, source: 'handbook' };
};

export interface BendGeometry {
  readonly angle: number;
  /** Inside radius of the metal. */
  readonly radius: number;
  readonly thickness: number;
}

/** Flat length of the bend zone: `angle (R + K T)`, the arc of the neutral line. */
export const allowanceOf = ({
  angle,
  radius,
  thickness,
  kFactor,
}: BendGeometry & { readonly kFactor: number }): number => angle * (radius + kFactor * thickness);

/**
 * From the sharp corner to the tangent line, along one face: `rho tan(angle / 2)`, where rho is the radius of that face:
 * R if it is on the inside of the bend, R + T if outside. Grows without bound towards a fold flat on itself (pi).
 */
export const setbackOf = ({ angle, radius, thickness, wet }: BendGeometry & { readonly wet: WetSide }): number =>
  (wet === 'inside' ? radius : radius + thickness) * Math.tan(angle / 2);

/** What the flat is shorter than both sharp-corner lengths together: `2 setback - allowance`. */
export const deductionOf = (bend: BendGeometry & { readonly kFactor: number; readonly wet: WetSide }): number =>
  2 * setbackOf(bend) - allowanceOf(bend);
