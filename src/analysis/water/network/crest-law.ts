/** What runs over a crest and through an opening between two waters. Heights and levels in mm, flows in mm3/s. */
import { NOISE } from '../../geometry/tolerance.js';
import { NEARLY_LEVEL } from '../../model/tolerance.js';
import { GRAVITY } from '../flow/depth.js';
import { crestFlow } from '../outlet/weir.js';

/** A straight piece of a crest: its ends' heights, and its length in plan. */
export interface CrestPiece {
  readonly from: number;
  readonly to: number;
  readonly length: number;
}

/** Stations and weights of Gauss's rule with five points on [0, 1]. */
const STATIONS = [
  [0.04691007703066802, 0.11846344252809454],
  [0.23076534494715845, 0.23931433524968324],
  [0.5, 0.28444444444444444],
  [0.7692346550528415, 0.23931433524968324],
  [0.953089922969332, 0.11846344252809454],
] as const;

/**
 * Over a straight piece of a crest from the higher level to the lower one. Free: that of a thin plate at each place,
 * 2/3 Cd sqrt(2 g) h^1.5, summed along a crest that slopes, which is 4/15 Cd m sqrt(2 g) h^2.5 over one side of a vee. Drowned: that times
 * (1 - (h2/h1)^1.5)^0.385, heads over the crest on both sides. Source: J. R. Villemonte, "Submerged-weir discharge studies",
 * Engineering News-Record 139 (1947), for thin plates, found within 5 % (from memory).
 */
export const overCrest = ({ from, to, length }: CrestPiece, high: number, low: number): number => {
  const [bottom, top] = from <= to ? [from, to] : [to, from];
  if (high <= bottom || length <= 0) return 0;
  if (top - bottom <= NOISE * (high - bottom))
    return crestFlow(length, high - bottom) * drowned(high - bottom, low - bottom);
  const perHeight = length / (top - bottom);
  const wet = Math.min(high, top);
  const shore = Math.min(wet, Math.max(bottom, low));
  // Above the lower water it runs freely.
  const free = (2 / 5) * ((high - shore) ** 2.5 - (high - wet) ** 2.5) * crestFlow(perHeight, 1);
  let under = 0;
  for (const [at, weight] of shore > bottom ? STATIONS : []) {
    const z = bottom + (shore - bottom) * at;
    under += weight * crestFlow(perHeight * (shore - bottom), high - z) * drowned(high - z, low - z);
  }
  return free + under;
};

/** Part of the free flow that is left when the water beyond stands `low` over the crest too. */
const drowned = (high: number, low: number): number => {
  if (low <= 0) return 1;
  const fall = (high - low) / high;
  if (fall <= 0) return 0;
  const left = (share: number): number => (1 - (1 - share) ** 1.5) ** 0.385;
  return fall < NEARLY_LEVEL ? (left(NEARLY_LEVEL) * fall) / NEARLY_LEVEL : left(fall);
};

/** A triangle of an opening: heights of its corners, ascending, and its area. */
export interface OpeningPiece {
  readonly heights: readonly [number, number, number];
  readonly area: number;
}

/** A sharp-edged hole. Source: textbooks of hydraulics, 0.60 to 0.63. */
export const HOLE = 0.61;

/**
 * Through an opening from the higher level to the lower one: each strip of it under its own head, down to the lower level and under the
 * difference of the levels below that: 0.61 A sqrt(2 g h), a weir while it is part full. Source: textbooks of hydraulics, large
 * openings and partly drowned ones.
 */
export const throughOpening = (pieces: readonly OpeningPiece[], high: number, low: number): number => {
  const root = HOLE * Math.sqrt(2 * GRAVITY);
  let sum = 0;
  for (const piece of pieces) {
    const [bottom, , top] = piece.heights;
    if (high <= bottom) continue;
    if (top - bottom <= NOISE * Math.max(1, Math.abs(top))) {
      sum += piece.area * Math.sqrt(high - Math.max(bottom, Math.min(low, high)));
      continue;
    }
    const shore = Math.min(high, Math.max(bottom, low));
    const under = areaBelow(piece, shore);
    sum += under * Math.sqrt(Math.max(0, high - Math.max(low, bottom))) + strips(piece, shore, high);
  }
  return root * sum;
};

/** Of a triangle, the part below a height. */
const areaBelow = ({ heights: [a, b, c], area }: OpeningPiece, z: number): number => {
  if (z <= a) return 0;
  if (z >= c) return area;
  if (z <= b) return (area * (z - a) ** 2) / ((b - a) * (c - a));
  return area * (1 - (c - z) ** 2 / ((c - b) * (c - a)));
};

/** Sum of width by the root of the head, from a height up to the water's level. */
const strips = ({ heights: [a, b, c], area }: OpeningPiece, from: number, level: number): number => {
  const peak = (2 * area) / (c - a);
  const rising = (z: number): number => (b > a ? (peak * (z - a)) / (b - a) : peak);
  const falling = (z: number): number => (c > b ? (peak * (c - z)) / (c - b) : peak);
  return (
    slab(rising, Math.max(from, a), Math.min(level, b), level) +
    slab(falling, Math.max(from, b), Math.min(level, c), level)
  );
};

/** Of a width that runs evenly from `z0` to `z1`, in closed form. */
const slab = (width: (z: number) => number, z0: number, z1: number, level: number): number => {
  if (z1 <= z0) return 0;
  const [w0, w1] = [width(z0), width(z1)];
  const slope = (w1 - w0) / (z1 - z0);
  const [h0, h1] = [level - z0, level - z1];
  const atLevel = w0 + slope * h0;
  return (2 / 3) * atLevel * (h0 ** 1.5 - h1 ** 1.5) - (2 / 5) * slope * (h0 ** 2.5 - h1 ** 2.5);
};
