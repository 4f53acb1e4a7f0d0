import { SAME_POINT } from '../../geometry/tolerance.js';
import { add, addScaled, lerp, scale, type Vec3 } from '../../geometry/vec.js';
import { isLeftToRight, type LegFace } from './strip.js';

/** A panel that divides a strip: its edges stand on the strip's legs, its top is level. */
export interface DividerFace {
  /** Along the legs in order of travel, then back along the top. */
  readonly corners: readonly Vec3[];
  readonly top: number;
}

export interface DividerLimits {
  /** What the divider would have to stay above, or reach, mm: the lowest place of the legs. */
  readonly lowest: number;
}

/**
 * The divider that follows the profile of the legs at a distance from their left or right edge, up to a level. It goes from the
 * lowest place both ways as far as the legs stay below the level; where they end below it, it ends upright. `across` and
 * `width` are those of the strip. Limits when the level is not above the lowest place.
 */
export const crossingFace = (
  legs: readonly LegFace[],
  across: Vec3,
  { station, from, level }: { readonly station: number; readonly from: 'left' | 'right'; readonly level: number },
): DividerFace | DividerLimits => {
  const [start, end] = from === 'left' ? ([0, 3] as const) : ([1, 2] as const);
  const inward = scale(across, (from === 'left') === isLeftToRight(across) ? station : -station);
  const profile = [legs[0].corners[start], ...legs.map((leg) => leg.corners[end])].map((corner) => add(corner, inward));
  const lowest = profile.reduce((best, [, , z], i) => (z < profile[best][2] ? i : best), 0);
  if (profile[lowest][2] > level - SAME_POINT) return { lowest: profile[lowest][2] };
  const forth = climb(profile.slice(lowest), level);
  const back = climb(profile.slice(0, lowest + 1).reverse(), level);
  const foot = [...back.reverse(), ...forth.slice(1)];
  const upper = [foot[foot.length - 1], foot[0]].filter(([, , z]) => z < level - SAME_POINT);
  const corners = [...foot, ...upper.map(([x, y]): Vec3 => [x, y, level])];
  return { corners, top: foot[foot.length - 1][2] < level - SAME_POINT ? foot.length : foot.length - 1 };
};

/** The line up to where it reaches the level. */
const climb = (line: readonly Vec3[], level: number): Vec3[] => {
  const beyond = line.findIndex(([, , z]) => z > level - SAME_POINT);
  if (beyond < 1) return [...line];
  const [a, b] = [line[beyond - 1], line[beyond]];
  const [x, y] = lerp(a, b, (level - a[2]) / (b[2] - a[2]));
  return [...line.slice(0, beyond), [x, y, level]];
};

/** An upright divider across one leg, `station` mm along the leg from its start, as wide as the leg. */
export const acrossFace = (
  leg: LegFace,
  direction: Vec3,
  station: number,
  level: number,
): DividerFace | DividerLimits => {
  const [left, right] = [leg.corners[0], leg.corners[1]].map((corner) => addScaled(corner, direction, station));
  if (left[2] > level - SAME_POINT) return { lowest: left[2] };
  const raised = ([x, y]: Vec3): Vec3 => [x, y, level];
  return { corners: [left, right, raised(right), raised(left)], top: 2 };
};
