import { NOISE } from '../../geometry/tolerance.js';
import { add, addScaled, scale, type Vec3 } from '../../geometry/vec.js';

const UP: Vec3 = [0, 0, 1];

/** Where a strip begins and which way it runs. `heading` and `across` are level unit directions at right angles. */
export interface StripStart {
  readonly from: Vec3;
  readonly heading: Vec3;
  readonly across: Vec3;
  readonly width: number;
}

/** One leg: its length on the wet face to the sharp corners, and its slope from level, rad; positive: it rises. */
export interface LegTravel {
  readonly length: number;
  readonly rise: number;
}

export interface LegFace {
  /** [start-left, start-right, end-right, end-left]. */
  readonly corners: readonly [Vec3, Vec3, Vec3, Vec3];
  /** The side that is up when a level leg runs along the heading: unit normal. */
  readonly facing: Vec3;
}

/** Left is the end with the smaller x (or y): what the builder sees who looks at the tub, whichever way the strip runs. */
export const isLeftToRight = (across: Vec3): boolean => across[0] + across[1] > 0;

/** Direction of travel of a leg: the heading, tilted up by `rise`. */
export const legDirection = (heading: Vec3, rise: number): Vec3 =>
  add(scale(heading, Math.cos(rise)), scale(UP, Math.sin(rise)));

/**
 * The wet faces of a strip's legs, each starting where the one before ends. Across right or back, the left edge of the
 * first leg starts at `from`; across left or front, the right edge does.
 */
export const stripFaces = (start: StripStart, legs: readonly LegTravel[]): readonly LegFace[] => {
  const offset = scale(start.across, start.width);
  const [toLeft, toRight]: readonly [Vec3, Vec3] = isLeftToRight(start.across)
    ? [[0, 0, 0], offset]
    : [offset, [0, 0, 0]];
  let at = start.from;
  return legs.map(({ length, rise }) => {
    const end = addScaled(at, legDirection(start.heading, rise), length);
    const corners = [add(at, toLeft), add(at, toRight), add(end, toRight), add(end, toLeft)] as const;
    at = end;
    return { corners, facing: legDirection(start.heading, rise + Math.PI / 2) };
  });
};

/**
 * Length of a leg that starts at `from` and ends at `target` on the axis of that index (0 x, 1 y, 2 z); undefined when
 * the leg does not get there: it runs along the plane or away from it.
 */
export const legLengthTo = (from: Vec3, direction: Vec3, axis: 0 | 1 | 2, target: number): number | undefined => {
  const gain = direction[axis];
  if (Math.abs(gain) < NOISE) return undefined;
  const length = (target - from[axis]) / gain;
  return length > 0 ? length : undefined;
};
