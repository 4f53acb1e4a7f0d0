import type { SeamStyle } from '../model/tub.js';

export interface SeamSide {
  /** Thickness of this panel, and of the one it meets. */
  readonly own: number;
  readonly other: number;
  /** Is it the seam's first member, which covers the other's edge or laps over it? */
  readonly isFirst: boolean;
  /** Angle between the wet faces through the liquid, 0..2 pi: below pi the panels rise from one another. */
  readonly corner: number;
}

/** A ridge flatter than this is no edge to cover: both panels are cut alike. 135 deg between the wet faces from below. */
const STEEP_RIDGE = (5 * Math.PI) / 4;

/**
 * How far a panel's cut edge lies beyond its sharp wet edge at a seam, mm; negative: within it.
 *
 * Where the panels rise from one another (a trough) their metal parts behind the wet edges, which meet. Over a ridge the metal
 * of both would lie in the same place; there the dry edges meet, each panel cut back by
 * `(T_other - T_own cos t) / sin t` at a turn of t (T tan(t / 2) for equal sheets), or the covered one back to the other's dry
 * face. A sheet so thick that it would gain by this keeps its wet edge, and the other is cut back by `T tan t` to its end face.
 * A first member that covers runs on by the other's thickness in a trough. Derived from the planes of the four skins.
 */
export const runOnAtSeam = (style: SeamStyle, { own, other, isFirst, corner }: SeamSide): number => {
  if (style.kind === 'lap') return isFirst ? style.by : 0;
  const covers = style.kind === 'over';
  if (corner <= Math.PI) return covers && isFirst ? other : 0;
  const sine = -Math.sin(corner);
  const cosine = Math.cos(corner);
  if (covers && corner >= STEEP_RIDGE) return isFirst ? 0 : -coveredBack(own, other, sine, cosine);
  // The turn t is c - pi: cos t = -cos c, sin t = -sin c.
  const back = (other + own * cosine) / sine;
  const otherBack = (own + other * cosine) / sine;
  return otherBack < 0 ? (own * sine) / cosine : Math.min(0, -back);
};

/**
 * How far a covered sheet is cut back over a ridge. Sharper than square its dry edge comes to the other's dry face; else its end
 * comes to the dry edge of the other or, of a thin sheet, its dry edge to the other's end face.
 */
const coveredBack = (own: number, other: number, sine: number, cosine: number): number =>
  cosine > 0 ? (other + own * cosine) / sine : Math.min(other * sine, own * (sine / -cosine));
