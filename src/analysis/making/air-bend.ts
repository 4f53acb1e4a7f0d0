/** Arithmetic of a bend pressed freely into a V die. Lengths mm, angles rad (deviation from flat), forces N. */
import type { Material, Metal } from '../model/tub.js';
import { propertiesOf, type Property } from '../material/properties.js';

/**
 * Share of the die opening that the inside radius becomes by itself.
 * Source: 0.16 for mild steel is the ratio of radius to opening in a metric air-bend chart; the others are the middles
 * of the trade's "20 percent rule" family, common practice, no source.
 */
const RADIUS_SHARE: Readonly<Record<Material, Property>> = {
  steel: { value: 0.16, source: 'metric air-bend force chart, ratio of tabulated radius to opening' },
  galvanized: { value: 0.16, source: 'as mild steel: metric air-bend force chart' },
  stainless: { value: 0.21, source: 'common practice, no source: 0.20 to 0.22 of the opening' },
  aluminium: { value: 0.135, source: 'common practice, no source: 0.12 to 0.15 of the opening, 5052-H32' },
  copper: { value: 0.13, source: 'common practice, no source: as soft aluminium' },
  brass: { value: 0.14, source: 'common practice, no source: between mild steel and soft aluminium' },
};

/** Inside radius that an air bend in that opening really gives: never smaller than the punch that presses it. */
export const airBendRadius = ({ material }: Metal, opening: number, punchRadius: number): Property => {
  const share = RADIUS_SHARE[material];
  return { value: Math.max(share.value * opening, punchRadius), source: share.source };
};

/**
 * The opening that the charts recommend for a thickness: 6 T up to 2.6 mm, 8 T below 9 mm, 10 T to 12 mm, 12 T above.
 * Source: steps printed on air-bend force charts; 8 T is also "ideal" on a die leaflet.
 */
export const recommendedOpening = (thickness: number): number => {
  if (thickness <= 2.6) return 6 * thickness;
  if (thickness < 9) return 8 * thickness;
  return (thickness <= 12 ? 10 : 12) * thickness;
};

/** Openings that the charts have a force for at all, as multiples of thickness; 5 % off is still the same row. */
export const openingRange = (thickness: number): readonly [number, number] => [
  0.95 * recommendedOpening(thickness),
  1.05 * Math.max(12 * thickness, recommendedOpening(thickness)),
];

/**
 * `F = C Rm T^2 L / V`. C is 1.33 in textbooks, 1.42 with chart makers, 1.48 in one chart; charts spread -25 .. +20 %.
 * 1.42 is used: a force is a guide, not a measurement.
 */
export const FORCE_COEFFICIENT = 1.42;

export interface ForceQuestion {
  readonly tensileMPa: number;
  readonly thickness: number;
  readonly length: number;
  readonly opening: number;
  readonly coefficient?: number;
}

/** Force of an air bend, N. */
export const airBendForce = ({ tensileMPa, thickness, length, opening, coefficient }: ForceQuestion): number =>
  ((coefficient ?? FORCE_COEFFICIENT) * tensileMPa * thickness * thickness * length) / opening;

/** Tensile strength to reckon a force with, MPa. */
export const tensileOf = (metal: Metal): number => propertiesOf(metal).tensileMPa.value;

/**
 * Shortest flange that still rests on the die's shoulder at the end of the stroke, measured outside from the virtual
 * sharp corner: `(V / 2) / cos(angle / 2)`. At 90 deg it is 0.707 V; charts print 0.69 to 0.75 V.
 */
export const shortestFlangeOnDie = (opening: number, angle: number): number => opening / 2 / Math.cos(angle / 2);

/**
 * Shortest leg that a clamp or a leaf can hold, measured outside from the virtual sharp corner: 3 T beyond the
 * bend's outside radius, and never under 6 mm. Common practice, no source.
 */
export const shortestFlangeOnFolder = (thickness: number, radius: number): number =>
  Math.max(6, radius + 4 * thickness);

/**
 * Thickness of mild steel that loads a folding brake as much as this sheet: bending moment goes with `Rm T^2`.
 * Derived; the brake's capacity is stated for mild steel.
 */
export const mildSteelThickness = (metal: Metal, thickness: number): number =>
  thickness * Math.sqrt(tensileOf(metal) / tensileOf({ material: 'steel' }));
