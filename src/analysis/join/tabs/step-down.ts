/** The step by which a sheet goes down along an edge to lie under another: two bends, one back. mm, rad. */

export interface StepDown {
  /** Of the first bend, away from the other sheet, and of the second, back to it. */
  readonly angle: number;
  readonly back: number;
  /** Straight length between the bends. */
  readonly slope: number;
  /** Along the sheet, from where the first bend begins to the wet edge. */
  readonly length: number;
}

export interface Step {
  /** Of the other sheet, square to its face. */
  readonly depth: number;
  /** How far the panels rise from one another, from one plane; negative: the other falls away. */
  readonly rise: number;
  readonly radius: number;
  readonly thickness: number;
}

/** Of a step: so steep that it is about four times as long as deep, as aircraft sheet is set down (4 to 6, from memory). */
const ANGLE = Math.PI / 12;

export const STEP_SOURCE = 'about 4 times as long as deep (aircraft sheet 4 to 6, from memory)';

/** rad. The second bend turns back by no less: 1 deg. */
const LEAST_BACK = Math.PI / 180;

/** Share of the depth that the bends take at most: what is left is straight. Common practice, no source. */
const IN_BENDS = 0.6;

/**
 * Down to the dry face of the other sheet, whose square end stands over the end of the second bend. With inside radius R, thickness
 * T, depth d and rise f, the skin that will lie on the other goes round the first bend a on R + T and round the second, a + f, on R:
 * they take (R + T)(1 - cos a) + R (cos f - cos a) of the depth d cos f, the slope the rest; the length is
 * (R + T) sin a + slope cos a + R (sin f + sin a) - d sin f. Large radii take a smaller angle. Derived.
 */
export const stepDown = ({ depth, rise, radius, thickness }: Step): StepDown => {
  const down = depth * Math.cos(rise);
  const inBends = (IN_BENDS * down - thickness - radius * (1 + Math.cos(rise))) / -(2 * radius + thickness);
  const gentle = Math.min(ANGLE, Math.acos(Math.min(1, Math.max(0, inBends))));
  const angle = Math.max(gentle, LEAST_BACK - rise);
  const outer = radius + thickness;
  const taken = outer * (1 - Math.cos(angle)) + radius * (Math.cos(rise) - Math.cos(angle));
  const slope = (down - taken) / Math.sin(angle);
  const along = outer * Math.sin(angle) + slope * Math.cos(angle) + radius * (Math.sin(rise) + Math.sin(angle));
  return { angle, back: angle + rise, slope, length: along - depth * Math.sin(rise) };
};
