import { scale, type Vec3 } from '../geometry/vec.js';
import { SAME_POINT } from '../geometry/tolerance.js';
import { isLeftToRight, type LegFace } from './strip.js';

export interface SideFace {
  /** The strip's profile in order of travel, then the upper corners. */
  readonly corners: readonly Vec3[];
  /** Index of the edge along the top. */
  readonly top: number;
  /** Towards the middle of the strip: unit normal. */
  readonly facing: Vec3;
}

export interface ProfileEndTooHigh {
  /** Height of the profile's end that stands above the level, mm. */
  readonly tooHigh: number;
}

/** Corners of a strip's profile on one end, in order of travel: one more than it has legs. */
export const stripProfile = (legs: readonly LegFace[], end: 'left' | 'right'): readonly Vec3[] => {
  const [startCorner, endCorner] = end === 'left' ? ([0, 3] as const) : ([1, 2] as const);
  return legs.length === 0 ? [] : [legs[0].corners[startCorner], ...legs.map((leg) => leg.corners[endCorner])];
};

/**
 * The panel that closes one end of a strip: its lower edge is the profile, its upper edge stands at `level`. An end of
 * the profile that is at the level already (to SAME_POINT) gets no corner above it; one that stands higher is a fault.
 */
export const sideFace = (
  legs: readonly LegFace[],
  across: Vec3,
  end: 'left' | 'right',
  level: number,
): SideFace | ProfileEndTooHigh => {
  const profile = stripProfile(legs, end);
  const first = profile[0];
  const last = profile[profile.length - 1];
  const highest = Math.max(first[2], last[2]);
  if (highest > level + SAME_POINT) return { tooHigh: highest };
  const upper = [last, first]
    .filter((point) => point[2] < level - SAME_POINT)
    .map((point): Vec3 => [point[0], point[1], level]);
  const isLastRaised = last[2] < level - SAME_POINT;
  const inward = (end === 'left') === isLeftToRight(across) ? 1 : -1;
  return {
    corners: [...profile, ...upper],
    top: isLastRaised ? profile.length : profile.length - 1,
    facing: scale(across, inward),
  };
};
