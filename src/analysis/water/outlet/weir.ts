import { GRAVITY } from '../flow/depth.js';

/**
 * Flow over edges that are open above: a straight edge, a notch in a thin plate, a vee.
 *
 * Straight: Q = 2/3 Cd b sqrt(2 g) h^1.5, Cd 0.62. Vee: Q = 8/15 Cd tan(a/2) sqrt(2 g) h^2.5, Cd 0.58. Source: textbooks of
 * hydraulics and ISO 1438 for thin plates, whose coefficients lie from 0.58 to 0.65, of vees from 0.58 to 0.60, for heads from 30 mm
 * on (from memory; the US manual of water measurement starts at 0.2 ft). Below that a plate passes what an edge under about 1 mm
 * more of head would (Kindsvater, Carter 1957; Shen 1981, USGS WSP 1617-B). The approach is taken as at rest, air as getting under the jet.
 */
const WEIR_COEFFICIENT = 0.62;
const VEE_COEFFICIENT = 0.58;

/** mm. From this head on the laws are published. */
export const PUBLISHED_HEAD = 30;

/** mm. By so much the head that counts is above the one measured. Source: Kindsvater, Carter 1957; 0.85 to 1 mm. */
const HEAD_CORRECTION = 1;

/** Coefficients between which published ones lie. */
const STRAIGHT_BAND = [0.58, 0.65] as const;
const VEE_BAND = [0.58, 0.6] as const;

/** mm3/s over a straight sharp crest. */
export const crestFlow = (width: number, head: number, coefficient = WEIR_COEFFICIENT): number =>
  (2 / 3) * coefficient * width * Math.sqrt(2 * GRAVITY) * Math.max(0, head) ** 1.5;

/** Depth over a straight edge `width` mm long at which `rateMm3S` runs off, mm. */
export const crestHead = (width: number, rateMm3S: number, coefficient = WEIR_COEFFICIENT): number =>
  width > 0 ? (rateMm3S / crestFlow(width, 1, coefficient)) ** (2 / 3) : Infinity;

/** mm3/s through a vee whose sides open by `spread` mm for every mm of head: twice the tangent of half its angle. */
export const veeFlow = (spread: number, head: number, coefficient = VEE_COEFFICIENT): number =>
  (4 / 15) * coefficient * spread * Math.sqrt(2 * GRAVITY) * Math.max(0, head) ** 2.5;

/** Head over the tip of a vee, mm. */
export const veeHead = (spread: number, rateMm3S: number, coefficient = VEE_COEFFICIENT): number =>
  spread > 0 ? (rateMm3S / veeFlow(spread, 1, coefficient)) ** (2 / 5) : Infinity;

/** Heads between which that of a flow lies, mm: by the least and the most coefficient published, and corrected for small heads. */
export const crestBand = (width: number, rateMm3S: number): readonly [number, number] =>
  bandOf((coefficient) => crestHead(width, rateMm3S, coefficient), STRAIGHT_BAND);

export const veeBand = (spread: number, rateMm3S: number): readonly [number, number] =>
  bandOf((coefficient) => veeHead(spread, rateMm3S, coefficient), VEE_BAND);

const bandOf = (
  headBy: (coefficient: number) => number,
  [least, most]: readonly [number, number],
): readonly [number, number] => [Math.max(0, headBy(most) - HEAD_CORRECTION), headBy(least)];
