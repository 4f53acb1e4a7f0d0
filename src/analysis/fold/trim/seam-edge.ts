import type { Seam } from '../../model/tub.js';

export interface SeamSide {
  /** Thickness of this panel, and of the one it meets. */
  readonly own: number;
  readonly other: number;
  /** Which of the seam's members: the first covers the other's edge or laps over it. */
  readonly member: 0 | 1;
  /** Angle between the wet faces through the liquid, 0..2 pi: below pi the panels rise from one another. */
  readonly corner: number;
}

/** A ridge flatter than this is no edge to cover: both panels are cut alike. 135 deg between the wet faces from below. */
const STEEP_RIDGE = (5 * Math.PI) / 4;

/** rad. Panels that deviate no more from one plane than this pass one another only by a step: 15 deg. */
const LEAST_PASSED = Math.PI / 12;

/**
 * How far a panel's cut edge lies beyond its sharp wet edge at a seam, mm; negative: within it.
 *
 * Where the panels rise from one another (a trough) their metal parts behind the wet edges, which meet. Over a ridge the metal
 * of both would lie in the same place; there the dry edges meet, each panel cut back by
 * `(T_other - T_own cos t) / sin t` at a turn of t (T tan(t / 2) for equal sheets), or the covered one back to the other's dry
 * face. A sheet so thick that it would gain by this keeps its wet edge, and the other is cut back by `T tan t` to its end face.
 * A first member that covers runs on by the other's thickness in a trough. A panel that the other sheet (or its tabs) passes in
 * a trough wider than square is cut back until its dry edge lies on it: by `T tan(c - 90 deg)`. Derived from the planes of the
 * four skins.
 */
export const runOnAtSeam = (seam: Pick<Seam, 'style' | 'tabs'>, side: SeamSide): number => {
  const { style } = seam;
  const { own, other, member, corner } = side;
  const isFirst = member === 0;
  if (style.kind === 'lap') {
    const isLapping = member === style.lapping;
    if (isSetDownLap(seam, corner)) return isLapping ? -besideStep(side) : 0;
    if (isBentLap(seam, corner)) return isLapping ? 0 : -passedBack(own, corner);
    return isLapping ? style.by : -lappedBack(side, style.by);
  }
  const covers = style.kind === 'over';
  if (corner <= Math.PI) {
    if (covers && isFirst) return other;
    return covers || isPassedByTabs(seam, member) ? -passedBack(own, corner) : 0;
  }
  const sine = -Math.sin(corner);
  const cosine = Math.cos(corner);
  if (covers && corner >= STEEP_RIDGE) return isFirst ? 0 : -coveredBack(own, other, sine, cosine);
  // The turn t is c - pi: cos t = -cos c, sin t = -sin c.
  const back = (other + own * cosine) / sine;
  const otherBack = (own + other * cosine) / sine;
  return otherBack < 0 ? (own * sine) / cosine : Math.min(0, -back);
};

/**
 * How far a panel's edge lies beyond its sharp wet edge where it stands on the face of another, mm; negative: within it. Leaning
 * to its dry side it would stand in the sheet with its dry edge, so it is cut back until that lies on the face:
 * `T tan(c - 90 deg)`, c from face to wet face. Leaning to its wet side it stands on its wet edge as it is.
 */
export const runOnAtFace = (own: number, corner: number): number =>
  corner > Math.PI / 2 && corner < Math.PI ? -own * Math.tan(corner - Math.PI / 2) : 0;

/** Does the lap of a seam lie on the other panel as a leg that is bent? Where the panels rise from one another, and no tabs hold them. */
export const isBentLap = ({ style, tabs }: Pick<Seam, 'style' | 'tabs'>, corner: number): boolean =>
  style.kind === 'lap' && tabs === undefined && corner > LEAST_PASSED && corner < Math.PI && !isNearPlane(corner);

/** So near to one plane that a leg lies on the other panel by a step, not by one bend? */
export const isNearPlane = (corner: number): boolean => Math.abs(corner - Math.PI) <= LEAST_PASSED;

/** Does the lap of a seam lie on the other panel by a step, as both are in one plane or nearly so? */
export const isSetDownLap = ({ style, tabs }: Pick<Seam, 'style' | 'tabs'>, corner: number): boolean =>
  style.kind === 'lap' && tabs === undefined && isNearPlane(corner);

/** What is left of the edge beside the leg of a step ends before the square end of a sheet that falls away. */
const besideStep = ({ own, other, corner }: SeamSide): number => {
  const turn = Math.max(0, corner - Math.PI);
  return Math.min(own, other * Math.cos(turn)) * Math.tan(turn);
};

/** Do tabs of one piece with the other panel go past this one's edge? */
const isPassedByTabs = ({ tabs }: Pick<Seam, 'tabs'>, member: 0 | 1): boolean =>
  tabs !== undefined && tabs.on !== 'loose' && tabs.on !== member;

/** In a trough of `corner`: until the dry edge of a square end no longer stands in the sheet that runs on below it. */
const passedBack = (own: number, corner: number): number =>
  corner > Math.PI / 2 && Math.PI - corner >= LEAST_PASSED ? own * Math.tan(corner - Math.PI / 2) : 0;

/** How far a lapped panel is cut back: until its end is clear of the one that laps over it, or past where that ends. */
const lappedBack = ({ own, other, corner }: SeamSide, by: number): number => {
  const past = by * Math.abs(Math.cos(corner));
  if (corner <= Math.PI) return Math.min(passedBack(own, corner), past);
  const turn = corner - Math.PI;
  if (turn < LEAST_PASSED) return 0;
  const clear = Math.max(other, other - own * Math.cos(turn)) / Math.sin(turn);
  return turn < Math.PI / 2 ? Math.min(clear, (by + own * Math.sin(turn)) / Math.cos(turn)) : clear;
};

/**
 * How far a covered sheet is cut back over a ridge. Sharper than square its dry edge comes to the other's dry face; else its end
 * comes to the dry edge of the other or, of a thin sheet, its dry edge to the other's end face.
 */
const coveredBack = (own: number, other: number, sine: number, cosine: number): number =>
  cosine > 0 ? (other + own * cosine) / sine : Math.min(other * sine, own * (sine / -cosine));
