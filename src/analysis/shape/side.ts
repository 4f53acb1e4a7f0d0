import { scale, type Vec3 } from '../geometry/vec.js';
import { SAME_POINT } from '../geometry/tolerance.js';
import { HAND_ROUNDED } from '../model/tolerance.js';
import { isLeftToRight, type LegFace } from './strip.js';

export interface SideFace {
  /** The strip's profile in order of travel, without what hangs over outside of its rims, then the upper corners. */
  readonly corners: readonly Vec3[];
  /** Index of the edge along the top. */
  readonly top: number;
  /** Towards the middle of the strip: unit normal. */
  readonly facing: Vec3;
}

export interface ProfileEndTooHigh {
  /** Height of the profile's highest end, mm; where the profile turns over outward, of the rim before. */
  readonly tooHigh: number;
}

/** Corners of a strip's profile on one end, in order of travel: one more than it has legs. */
export const stripProfile = (legs: readonly LegFace[], end: 'left' | 'right'): readonly Vec3[] => {
  const [startCorner, endCorner] = end === 'left' ? ([0, 3] as const) : ([1, 2] as const);
  return legs.length === 0 ? [] : [legs[0].corners[startCorner], ...legs.map((leg) => leg.corners[endCorner])];
};

/**
 * The panel that closes one end of a strip: its lower edge is the profile, its upper edge stands at `level`. An end of
 * the profile that is at the level already (to HAND_ROUNDED) gets no corner above it; one that stands higher is a fault.
 * Legs that go on level or falling from a rim which reaches the level (a lip, a nose) hang over outside and are left open.
 */
export const sideFace = (
  legs: readonly LegFace[],
  across: Vec3,
  end: 'left' | 'right',
  level: number,
): SideFace | ProfileEndTooHigh => {
  const profile = withinRims(stripProfile(legs, end), level);
  const first = profile[0];
  const last = profile[profile.length - 1];
  const highest = Math.max(first[2], last[2]);
  if (highest > level + HAND_ROUNDED) return { tooHigh: highest };
  const upper = [last, first]
    .filter((point) => point[2] < level - HAND_ROUNDED)
    .map((point): Vec3 => [point[0], point[1], level]);
  const isLastRaised = last[2] < level - HAND_ROUNDED;
  const inward = (end === 'left') === isLeftToRight(across) ? 1 : -1;
  return {
    corners: [...profile, ...upper],
    top: isLastRaised ? profile.length : profile.length - 1,
    facing: scale(across, inward),
  };
};

/** The profile from rim to rim: a run of legs at an end that only falls away from a corner at the level or above is left out. */
const withinRims = (profile: readonly Vec3[], level: number): readonly Vec3[] => {
  const last = profile.length - 1;
  let [from, to] = [0, last];
  while (to > 0 && profile[to - 1][2] >= profile[to][2] - SAME_POINT) to--;
  while (from < last && profile[from + 1][2] >= profile[from][2] - SAME_POINT) from++;
  const isRim = (at: number): boolean => profile[at][2] >= level - HAND_ROUNDED;
  const [start, end] = [isRim(from) ? from : 0, isRim(to) ? to : last];
  return start < end ? profile.slice(start, end + 1) : profile;
};
