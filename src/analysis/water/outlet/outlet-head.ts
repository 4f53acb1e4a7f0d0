import { GRAVITY } from '../flow/depth.js';
import { leastThat } from '../../geometry/numeric/least-that.js';

export interface RoundOutlet {
  readonly diameter: number;
  /** Sine of the inclination of its panel. */
  readonly steepness: number;
}

/**
 * mm3/s that a free-falling round outlet takes with water standing `head` mm over the lowest point of its rim: the lesser
 * of what flows in over the rim and what the hole lets through. Grows with the head.
 *
 * Rim of a level outlet: Q = D h^1.5 / 7500; hole: Q = D2 h^0.5 / 15000 (L/s, mm), which meet at h = D/2.
 * Source: EN 12056-3:2000, outlets without strainer (from memory); the constants are a crest coefficient of 0.45 and an
 * orifice coefficient of 0.61. On an inclined panel the same crest law is summed around the rim, and the same law of the
 * hole over its height, each strip under its own head, as for a large opening in a wall (textbooks of hydraulics).
 * Viscosity is left out: for oils the head is under-estimated.
 */
export const outletCapacity = ({ diameter, steepness }: RoundOutlet, head: number): number => {
  if (head <= 0) return 0;
  const rise = diameter * steepness;
  const rim = (diameter * (rise > 0 ? meanCrest(head, rise) : head ** 1.5) * 1e6) / 7500;
  const byHole = (meanRoot: number): number => (diameter ** 2 * meanRoot * 1e6) / 15000;
  // No place of the hole has less over it than its highest.
  if (head > rise && rim < (1 - LEFT_OUT) * byHole(Math.sqrt(head - rise))) return rim;
  return Math.min(rim, byHole(meanRootHead(head, rise)));
};

const HOLE_STEPS = 32;

/** What the sum over the hole may be less than its integral, as a share. */
const LEFT_OUT = 0.01;

/** Places between 0 and 1 that crowd towards 1, where the head ends, each with its weight: 1 - t2 for even steps of t. */
const HOLE_PLACES = Array.from({ length: HOLE_STEPS }, (_, i) => {
  const t = (i + 0.5) / HOLE_STEPS;
  return { at: 1 - t * t, weight: (2 * t) / HOLE_STEPS };
});

/**
 * Mean over an inclined round opening of the root of the head over each place, 0 where it is dry; the opening rises by
 * `rise`. With y = D (1 - cos a) / 2 up the slope the strip b dy is D2/2 sin2 a da, so the mean is (2/pi) times the sum over a.
 */
const meanRootHead = (head: number, rise: number): number => {
  if (rise <= 0) return Math.sqrt(head);
  const most = head < rise ? Math.acos(1 - (2 * head) / rise) : Math.PI;
  let sum = 0;
  for (const { at, weight } of HOLE_PLACES) {
    const angle = most * at;
    const over = head - (rise * (1 - Math.cos(angle))) / 2;
    if (over > 0) sum += Math.sin(angle) ** 2 * Math.sqrt(over) * weight;
  }
  return (2 / Math.PI) * most * sum;
};

const RIM_STEPS = 32;

/** Height of even steps around one half of an inclined rim, as a share of its rise; the other half is its mirror. */
const RIM_SHARES = Array.from({ length: RIM_STEPS }, (_, i) => (1 - Math.cos((Math.PI * (i + 0.5)) / RIM_STEPS)) / 2);

/** Mean around an inclined rim of (head over it)^1.5; the rim rises by `rise` from its lowest to its highest point. */
const meanCrest = (head: number, rise: number): number => {
  let sum = 0;
  for (const share of RIM_SHARES) {
    const over = head - rise * share;
    if (over <= 0) break;
    sum += over * Math.sqrt(over);
  }
  return sum / RIM_STEPS;
};

/** Head over the lowest point of the rim at which the outlet takes `rateMm3S`, mm. */
export const outletHead = (outlet: RoundOutlet, rateMm3S: number): number => {
  if (rateMm3S <= 0) return 0;
  return leastThat(outlet.diameter, (head) => outletCapacity(outlet, head) >= rateMm3S);
};

/** mm3/s through a sharp-edged hole: Q = Cd A sqrt(2 g h). Cd 0.62: textbooks of hydraulics give 0.60 to 0.63, from memory. */
export const orificeFlow = (area: number, head: number, coefficient = 0.62): number =>
  coefficient * area * Math.sqrt(2 * GRAVITY * Math.max(0, head));
