/** The tolerances of sheet metal, each with its unit and the reason for its size; those of plain geometry stand with the kernels. */

/** mm. A corner farther than this off its panel's plane makes the panel not flat: sheet springs that far by hand. */
export const OFF_PLANE = 0.05;

/** mm. How far the arcs that are cut may be from the true section of a bend: a fifth of what a seam may be off by geometry. */
export const SECTION_ERROR = 0.002;

/** mm. A flange shorter than needed by less than a micrometre is not short: lengths in the flat carry that much of rounding. */
export const SHORT_FLANGE = 1e-3;
