/** How stiff a flat of sheet is against being bent by a clamp. */
import type { Metal } from '../model/tub.js';
import { propertiesOf } from './properties.js';

/** A flat held along one line and pulled, square to itself, at the far edge. All mm. */
export interface HeldFlat {
  readonly metal: Metal;
  readonly thickness: number;
  /** Along the line that holds it. */
  readonly width: number;
  /** From that line to where it is pulled. */
  readonly free: number;
  /** Where on the far edge: away from its ends, or at one of them. */
  readonly pulledAt: 'middle' | 'corner';
}

/**
 * Deflection under a force P at the far edge of a very wide cantilever plate, in P a^2 / D, nu = 0.3. Middle: 0.168,
 * S. Timoshenko, S. Woinowsky-Krieger, Theory of Plates and Shells, 2nd ed., cantilever plates, after T. J. Jaramillo (1950), from
 * memory. Corner: 0.416, derived by a Ritz series, which a test does again and which gives the former as well.
 */
const WIDE_PLATE: Readonly<Record<HeldFlat['pulledAt'], number>> = { middle: 0.168, corner: 0.416 };

/**
 * Width of a cantilever strip that is as stiff as the flat, mm: all of it, or where the flat is wide what one pull reaches,
 * free / (3 c (1 - nu^2)). The lesser of the two: at most a quarter too stiff in between.
 */
export const pulledWidth = ({ metal, width, free, pulledAt }: Omit<HeldFlat, 'thickness'>): number => {
  const poisson = propertiesOf(metal).poissonsRatio.value;
  return Math.min(width, free / (3 * WIDE_PLATE[pulledAt] * (1 - poisson ** 2)));
};

/** N/mm. F / d = 3 E I / L^3 of a cantilever strip, I = b t^3 / 12. Source: Euler-Bernoulli beam. */
export const stiffnessOf = (flat: HeldFlat): number => {
  const inertia = (pulledWidth(flat) * flat.thickness ** 3) / 12;
  return (3 * propertiesOf(flat.metal).youngsModulusMPa.value * inertia) / flat.free ** 3;
};
