/** The few tolerances of the project, each with its unit and the reason for its size. */

/** mm. Two points nearer than this are one: a hundredth of what a cutter can place, far above double-precision noise. */
export const SAME_POINT = 1e-3;

/** mm. A corner farther than this off its panel's plane makes the panel not flat: sheet springs that far by hand. */
export const OFF_PLANE = 0.05;

/** rad. Directions nearer than this are one: 1e-6 rad is 1 µm over a metre. */
export const SAME_DIRECTION = 1e-6;

/** mm. How far the arcs that are cut may be from the true section of a bend: a fifth of what a seam may be off by geometry. */
export const SECTION_ERROR = 0.002;

/** mm2. A face smaller than this has no area to speak of: 1 mm by the point tolerance. */
export const NO_AREA = 1e-3;

/** mm. Computed positions that are equal by construction agree to this; above it something is wrong. */
export const ROUND_OFF = 1e-6;
