/** The tolerances of sheet metal, each with its unit and the reason for its size; those of plain geometry stand with the kernels. */

/** mm. Corners of two panels nearer than this are one place rounded by hand, to tenths: no source. Sheet springs as far by hand. */
export const HAND_ROUNDED = 0.05;

/** mm. A corner farther than this off its panel's plane makes the panel not flat. */
export const OFF_PLANE = HAND_ROUNDED;

/** mm. A corner that a tape tells farther off its panel's plane than this was measured wrong, or is none of a flat panel: no source. */
export const TAPE_MISREADS = 5;

/** Share of the longest way between two corners of a panel: one moved farther than this as well is cut wrong for certain. No source. */
export const NOT_FLAT_SHARE = 0.02;

/** mm. How far the arcs that are cut may be from the true section of a bend: a fifth of what a seam may be off by geometry. */
export const SECTION_ERROR = 0.002;

/** mm. A flange shorter than needed by less than a micrometre is not short: lengths in the flat carry that much of rounding. */
export const SHORT_FLANGE = 1e-3;

/** rad. Angles that agree to this are one kind of clip: a twentieth of what a gauge reads (0.1 deg). */
export const SAME_CLIP = (0.005 * Math.PI) / 180;

/** rad. Panels this near to parallel lie on one surface of what a tub is fastened to: 1 mm over a metre. */
export const SAME_SURFACE = 1e-3;

/** Share of the whole area below which the upward area is no evidence of what is up: a tube or a lone upright sheet. */
export const NO_UPWARD_SHARE = 1e-6;

/** mm. A stream that comes this near to a corner goes through it. */
export const AT_CORNER = 1e-7;

/** Share of steepness under which two ways down are equal, and the water divides. */
export const EQUALLY_STEEP = 1e-9;

/**
 * Share of a head: two waters over a crest whose levels differ by less exchange what goes evenly with the difference. The law of drowned crests
 * has a slope beyond bounds there; 1e-5 of a head of 100 mm is the micrometre.
 */
export const NEARLY_LEVEL = 1e-5;

/** Share of all that runs in: what comes to a water and what leaves it differ by less once its level is found. */
export const BALANCED = 1e-10;

/** Share of an inflow below which an end of its way took none of it: round-off of the shares that are summed. */
export const NO_SHARE = 1e-12;

/** Share of a pump's flow that one that does not lift any more is taken to bring, so that its way can still be followed. */
export const LEAST_FLOW = 1e-6;

/** Share of an inflow below which a thread of water is let go; what is let go is counted as unresolved. */
export const LEAST_THREAD = 1e-16;

/** Share of a piece that its outline may be larger while pieces are laid, if that leaves it with fewer corners. */
export const NEST_WASTE = 1e-3;

/** mm. Pieces that touch where they are laid, or the margin: what double precision makes of a place on a sheet. */
export const NEST_CONTACT = 1e-7;

/** mm per mm of the blank's width. Pieces nearer than this beyond the gap count as overlapping while they are moved. */
export const NEST_SLACK = 5e-5;

/** mm. Bends nearer to one line, or to one radius, than this are pressed in one stroke: a punch cannot tell them apart. */
export const SAME_LINE = 0.05;

/** mm. Stock this near in thickness is the sheet that was meant: inside the rolling tolerance of thin sheet. */
export const SAME_THICKNESS = 0.06;

/** rad. Turns of a piece on the nest nearer than half a degree are one way to lay it. */
export const SAME_NEST_TURN = Math.PI / 360;

/** mm. A pinned piece may be so much nearer than a cut takes: what is written of its place is rounded. A cutter places tenths. */
export const PIN_SLACK = 0.05;

/** Share of a length that two sheets part over it (3 deg): below it one does not end against the other. */
export const NO_SLANT = 0.05;

/** mm. What a piece has left on each side of the room that it needs, before it is said without a nest that it fits: a nest rounds. */
export const EASY_ROOM = 0.5;

/** mm. Rivets nearer in diameter than this are one size: 3.2 is 1/8 in, 3.175. */
export const SAME_RIVET = 0.05;

/** mm2. Faces that lie over one another by less do not lie on one another: the corner of a sheet. */
export const LEAST_CONTACT = 1;

/** mm. Faces that stand farther from where their gasket, or metal on metal, has them do not lie on one another: screws draw that much together. No source. */
export const FACES_APART = 0.2;

/** rad. A bend that is read farther than 5 deg from its plan was misread, mistyped or bent for another part: no source. */
export const READING_FAR_OFF = Math.PI / 36;

/** rad. Bends that differ by less are bent alike: half of what a gauge shows (0.1 deg). */
export const READ_AS_PLANNED = Math.PI / 3600;

/** mm. An open bend stays as planned as if so short an edge beyond it had to close: one that moves no gap stays, and any real edge outweighs it. */
export const STAYING_EDGE = 0.3;

/** Share of its standard deviation that a residual may be: more happens to one good measure in a thousand (Baarda, from memory). */
export const DOUBTFUL = 3.29;

/** Share of cases that happen by chance: what is rarer is not taken for chance. The usual level, no source. */
export const FEW_BY_CHANCE = 0.05;

/** mm. Openings of dies that are the same one, stated in other units. */
export const SAME_DIE = 0.01;
