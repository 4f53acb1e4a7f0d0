/** The tolerances of plain geometry, each with its unit and the reason for its size. */

/** mm. Two points nearer than this are one: a hundredth of what a cutter can place, far above double-precision noise. */
export const SAME_POINT = 1e-3;

/** rad. Directions nearer than this are one: 1e-6 rad is 1 µm over a metre. */
export const SAME_DIRECTION = 1e-6;

/** mm2. A face smaller than this has no area to speak of: 1 mm by the point tolerance. */
export const NO_AREA = 1e-3;

/** mm, rad or share. Computed positions that are equal by construction agree to this; above it something is wrong. */
export const ROUND_OFF = 1e-6;

/** Share, mm, deg or rad. Values that are equal by construction differ by less after the sums that are made here. */
export const NOISE = 1e-9;

/** Share of the product of two lengths: a cross or dot product below it is none. */
export const NO_CROSS = 1e-12;

/** mm. A corner this near to a line is on it: far above round-off, far below any real sheet. */
export const ON_LINE = 1e-7;

/** mm. What is written of a computed corner is this near to where it lies, so that it is read as the same to `ROUND_OFF`. */
export const WRITTEN = 1e-7;

/** mm. Corners of openings that are cut out of one another and lie nearer than this are one. */
export const SNAP = 1e-5;

/** rad, or share of a length. Turns, tilts and places along a line that are told apart by hand differ by far more. */
export const SAME_TURN = 1e-4;

/** Share of a value between the bounds of which a bisection ends. */
export const SOLVED = 1e-10;

/** rad. Headings on the table of a machine, and angles of bends, that nobody tells apart. */
export const SAME_HEADING = 1e-3;

/** Share of a whole that is worth a word. */
export const NOTABLE_SHARE = 1e-3;

/** Share of the longest side squared: the least area of a triangle that counts; below it the corners lie on a line. */
export const SLIVER = 1e-9;

/** mm2. The cross product of two edges that is shorter names no axis: they are parallel. */
export const NO_AXIS = 1e-6;

/** Share of the range of a value: as far as it is moved to see what that does; double precision leaves half of its figures. */
export const LEAST_MOVE = 1e-7;

/** Share of the range of a value below which a move is none. */
export const NO_MOVE = 1e-10;

/**
 * rad, about. Lines that differ by less may be one: edges that run within a point tolerance of 0.001 mm of one another over 0.4 mm
 * and more do.
 */
export const SAME_WAY = 0.005;

/** Share of the unit of a value: finer steps have more digits than are written. */
export const LEAST_STEP = 1e-4;

/** Share of the largest sum of squares of a fit that is added to all of them: what its points leave open is taken for flat. */
export const RIDGE = 1e-10;

/** Share of the square of an unknown's own influence: damping of a fit to begin with, and share of an unknown below which a step ends it. */
export const LEAST_DAMPING = 1e-12;
