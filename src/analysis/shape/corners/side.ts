import { scale, type Vec3 } from '../../geometry/vec.js';
import { SAME_POINT } from '../../geometry/tolerance.js';
import { HAND_ROUNDED } from '../../model/tolerance.js';
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
 * Legs that go on level or falling from a rim which reaches the level (a lip, a nose) hang over outside and are left open, as are
 * those under other legs: the side stands on what lies open to above.
 */
export const sideFace = (
  legs: readonly LegFace[],
  across: Vec3,
  end: 'left' | 'right',
  level: number,
): SideFace | ProfileEndTooHigh => {
  const profile = underLevel(withinRims(stripProfile(legs, end), level), across, level);
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

/** The profile without what goes on level or falling at an end and has a leg straight above it, up to the level: a nose. */
const underLevel = (profile: readonly Vec3[], across: Vec3, level: number): readonly Vec3[] => {
  // A corner's distance along the heading.
  const along = profile.map(([x, y]) => x * across[1] - y * across[0]);
  const isCovered = (at: number): boolean =>
    profile.some((_, i) => i > 0 && isAbove([along[i - 1], profile[i - 1][2]], [along[i], profile[i][2]], at));
  const isAbove = (p: Place, q: Place, at: number): boolean => {
    const [s, z] = [along[at], profile[at][2]];
    if (s < Math.min(p[0], q[0]) - SAME_POINT || s > Math.max(p[0], q[0]) + SAME_POINT) return false;
    const isUpright = Math.abs(q[0] - p[0]) <= SAME_POINT;
    const height = isUpright ? Math.max(p[1], q[1]) : p[1] + ((s - p[0]) / (q[0] - p[0])) * (q[1] - p[1]);
    return height > z + SAME_POINT && z < level - HAND_ROUNDED;
  };
  const last = profile.length - 1;
  let [from, to] = [0, last];
  while (to > 1 && profile[to - 1][2] >= profile[to][2] - SAME_POINT && isCovered(to)) to--;
  while (from < to - 1 && profile[from + 1][2] >= profile[from][2] - SAME_POINT && isCovered(from)) from++;
  return isCovered(from) || isCovered(to) ? profile : profile.slice(from, to + 1);
};

/** Distance along the heading, and height. */
type Place = readonly [number, number];
