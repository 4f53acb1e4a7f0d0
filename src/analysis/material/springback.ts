/** How far a bend opens when it is let go. Lengths mm, angles rad (deviation from flat). */
import { NOISE } from '../geometry/tolerance.js';
import { propertiesOf } from './properties.js';
import { SAME_DIE } from '../model/tolerance.js';
import type { Metal, StatedSpringback } from '../model/tub.js';

export interface SpringbackQuestion {
  readonly radius: number;
  readonly thickness: number;
  readonly yieldMPa: number;
  readonly modulusMPa: number;
}

/**
 * Radius under load over radius after release, for a bend pressed to `radius`: `4 X^3 - 3 X + 1`, `X = Ri Y / (E T)`.
 * Elastic-ideally plastic sheet in plane bending; valid for X below 0.5 (at 0.5 nothing stays bent), 0 from there on.
 * Source: Gardiner's formula, as in Kalpakjian & Schmid, Manufacturing Processes for Engineering Materials (from memory).
 */
export const springbackRatio = ({ radius, thickness, yieldMPa, modulusMPa }: SpringbackQuestion): number => {
  const x = (radius * yieldMPa) / (modulusMPa * thickness);
  return x >= 0.5 ? 0 : 4 * x * x * x - 3 * x + 1;
};

export interface Overbend {
  /** Radius to press, so that the stated one remains. */
  readonly loadedRadius: number;
  /** Angle to bend to under load. */
  readonly bendTo: number;
}

export interface OverbendQuestion {
  readonly metal: Metal;
  readonly thickness: number;
  /** Inside radius after release. */
  readonly radius: number;
  /** Angle after release. */
  readonly angle: number;
}

/** rad. Between which angles under load a bend has to be pressed, so that the stated one remains. */
export interface OverbendBand {
  readonly least: number;
  readonly most: number;
}

export interface OverbendBandQuestion extends OverbendQuestion {
  /** mm. Opening of the die; undefined where the legs lie against tools. */
  readonly opening: number | undefined;
}

/** Flow stress in plane strain over the one in a tensile test: 2 over the root of 3. */
const PLANE_STRAIN = 2 / Math.sqrt(3);

/**
 * The band that an overbend lies in. Least: Gardiner's formula with the yield stress, as `overbendOf`: sheet that does not
 * harden, legs that stay straight. Most: the sheet is hardened to its tensile strength in plane strain, and over a die the legs
 * between punch and shoulder bow under the same moment and spring back as well. Derived by beam theory: letting go of the
 * plastic moment `s T^2 / 4` turns `3 s L / (E T)` over a length L; the moment falls to nothing over each leg of `V / 2`, so both
 * together count as one. Shop experience with stainless, 2 to 3 deg at 90 deg (no source), lies in it. What was found by bending the
 * sheet, in that die or at large, stands before both.
 */
export const overbendBand = (question: OverbendBandQuestion): OverbendBand => {
  const { metal, thickness, radius, angle, opening } = question;
  const found = springbackIn(metal, opening);
  if (found) {
    const { angle: back, within = 0 } = found;
    return { least: angle + Math.max(0, back - within), most: angle + back + within };
  }
  const { tensileMPa, youngsModulusMPa } = propertiesOf(metal);
  const perLength = (3 * PLANE_STRAIN * tensileMPa.value) / (youngsModulusMPa.value * thickness);
  const arc = (radius + thickness / 2) * angle;
  const legs = opening === undefined ? 0 : Math.max(0, opening / 2 - (radius + thickness / 2) * Math.sin(angle / 2));
  const { bendTo: least } = overbendOf(question);
  return { least, most: Math.max(least, angle + perLength * (arc + legs)) };
};

const springbackIn = ({ springbacks = [] }: Metal, opening: number | undefined): StatedSpringback | undefined =>
  springbacks.find(({ die }) => die !== undefined && opening !== undefined && Math.abs(die - opening) <= SAME_DIE) ??
  springbacks.find(({ die }) => die === undefined);

/**
 * What to bend to, so that `radius` and `angle` remain: the middle line keeps its length, so the angle grows as
 * `(2 Rf + T) / (2 Ri + T)`. A guide: a test bend of the sheet in hand decides.
 * The loaded radius is found by bisection to 1e-9 of the radius; a sheet too springy for its radius (X near 0.5) keeps
 * the largest radius that still sets.
 */
export const overbendOf = ({ metal, thickness, radius, angle }: OverbendQuestion): Overbend => {
  const properties = propertiesOf(metal);
  const yieldMPa = properties.yieldMPa.value;
  const modulusMPa = properties.youngsModulusMPa.value;
  const released = (loaded: number): number =>
    loaded / springbackRatio({ radius: loaded, thickness, yieldMPa, modulusMPa });
  let [low, high] = [0, Math.min(radius, (0.5 * modulusMPa * thickness) / yieldMPa)];
  while (high - low > NOISE * radius) {
    const middle = (low + high) / 2;
    if (released(middle) > radius) high = middle;
    else low = middle;
  }
  const loadedRadius = (low + high) / 2;
  return { loadedRadius, bendTo: (angle * (2 * radius + thickness)) / (2 * loadedRadius + thickness) };
};
