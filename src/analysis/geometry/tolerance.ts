/** The tolerances of plain geometry, each with its unit and the reason for its size. */

/** mm. Two points nearer than this are one: a hundredth of what a cutter can place, far above double-precision noise. */
export const SAME_POINT = 1e-3;

/** rad. Directions nearer than this are one: 1e-6 rad is 1 µm over a metre. */
export const SAME_DIRECTION = 1e-6;

/** mm2. A face smaller than this has no area to speak of: 1 mm by the point tolerance. */
export const NO_AREA = 1e-3;

/** mm. Computed positions that are equal by construction agree to this; above it something is wrong. */
export const ROUND_OFF = 1e-6;
