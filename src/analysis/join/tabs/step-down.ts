/** The step by which a sheet goes down along an edge to lie under another in its plane: two equal bends, one back. mm, rad. */

export interface StepDown {
  /** Of either bend. */
  readonly angle: number;
  /** Straight length between the bends. */
  readonly slope: number;
  /** Along the sheet, from where the first bend begins to where the second ends. */
  readonly length: number;
}

/** Of a step: so steep that it is about four times as long as deep, as aircraft sheet is set down (4 to 6, from memory). */
const ANGLE = Math.PI / 12;

export const STEP_SOURCE = 'about 4 times as long as deep (aircraft sheet 4 to 6, from memory)';

/** Share of the depth that the bends take at most: what is left is straight. Common practice, no source. */
const IN_BENDS = 0.6;

/**
 * Down by `depth` with inside radius R and thickness T: two bends over the angle a take (2 R + T) (1 - cos a) of it, the slope the
 * rest; the length is (2 R + T) sin a + slope cos a. Large radii take a smaller angle. Derived.
 */
export const stepDown = (step: { depth: number; radius: number; thickness: number }): StepDown => {
  const round = 2 * step.radius + step.thickness;
  const angle = Math.min(ANGLE, Math.acos(Math.max(0, 1 - (IN_BENDS * step.depth) / round)));
  const slope = (step.depth - round * (1 - Math.cos(angle))) / Math.sin(angle);
  return { angle, slope, length: round * Math.sin(angle) + slope * Math.cos(angle) };
};
