import { areaVector } from '../../geometry/polygon.js';
import { NOISE, SAME_DIRECTION, SAME_POINT } from '../../geometry/tolerance.js';
import { add, addScaled, cross, distance, dot, scale, subtract, unit, type Vec3 } from '../../geometry/vec.js';

/** An edge of a panel to turn a flange from, and the panel's wet normal. */
export interface FlangeRoot {
  readonly corners: readonly Vec3[];
  readonly edge: number;
  readonly wetNormal: Vec3;
}

/** How far a flange reaches: by a length square to its edge, or up to a plane (0 x, 1 y, 2 z). */
export type FlangeReach = { readonly length: number } | { readonly axis: 0 | 1 | 2; readonly target: number };

export interface FlangeTurn {
  /** In: towards the root's wet side; out: towards its dry side. */
  readonly sense: 'in' | 'out';
  /** Deviation from flat, rad, between 0 and pi. */
  readonly angle: number;
  readonly reach: FlangeReach;
  /** Cut back at the edge's start and end, mm. */
  readonly trims: readonly [number, number];
}

/** A flange to its sharp corners, looked at on its wet face and away from the root. */
export interface FlangeFace {
  /** Ends of the bend line after the trims. */
  readonly left: Vec3;
  readonly right: Vec3;
  /** Square to the edge, away from it: unit. */
  readonly direction: Vec3;
  /** From `left` and from `right` to the free edge, mm. */
  readonly reaches: readonly [number, number];
  /** The root's wet side carried round the bend. */
  readonly facing: Vec3;
  /** Is `left` the start of the root's edge? */
  readonly isLeftStart: boolean;
}

/** Steeper than this from level, in or out must be said: sin 5 deg of the wet normal's rise. */
const CLEAR_RISE = Math.sin((5 * Math.PI) / 180);

/** In the root's plane, square to the edge, away from the panel. */
const outwardOf = (root: FlangeRoot): Vec3 => {
  const along = edgeDirection(root);
  const outward = cross(along, root.wetNormal);
  return dot(areaVector(root.corners), root.wetNormal) >= 0 ? outward : scale(outward, -1);
};

const edgeDirection = ({ corners, edge }: FlangeRoot): Vec3 =>
  unit(subtract(corners[(edge + 1) % corners.length], corners[edge]));

/** Which way round `up` or `down` is: the sense that moves the flange's free edge there; undefined on a steep panel. */
export const senseByGravity = (wetNormal: Vec3, turn: 'up' | 'down'): 'in' | 'out' | undefined => {
  if (Math.abs(wetNormal[2]) < CLEAR_RISE) return undefined;
  return wetNormal[2] > 0 === (turn === 'up') ? 'in' : 'out';
};

/** Length of the edge that is left for a flange after its trims, mm. */
export const flangeWidth = (root: FlangeRoot, trims: readonly [number, number]): number =>
  distance(root.corners[root.edge], root.corners[(root.edge + 1) % root.corners.length]) - trims[0] - trims[1];

/**
 * The turn after which a flange stands plumb, or lies level square to its edge, whatever its panel does. `towards` says
 * on which side. Undefined where the panel is so already (nothing is turned) or the edge itself is upright.
 */
export const settledTurn = (
  root: FlangeRoot,
  set: 'plumb' | 'level',
  towards: 'in' | 'out' | 'up' | 'down',
): Pick<FlangeTurn, 'sense' | 'angle'> | undefined => {
  const along = edgeDirection(root);
  const line = set === 'plumb' ? addScaled([0, 0, 1], along, -along[2]) : cross(along, [0, 0, 1]);
  if (Math.hypot(...line) < SAME_DIRECTION) return undefined;
  const rise = dot(unit(line), root.wetNormal);
  if (Math.abs(rise) < SAME_DIRECTION) return undefined;
  const isTowards =
    set === 'plumb' && towards !== 'in' && towards !== 'out'
      ? towards === 'up'
      : rise > 0 === isIn(towards, root.wetNormal);
  const direction = scale(unit(line), isTowards ? 1 : -1);
  const sine = dot(direction, root.wetNormal);
  return { sense: sine > 0 ? 'in' : 'out', angle: Math.atan2(Math.abs(sine), dot(direction, outwardOf(root))) };
};

const isIn = (towards: 'in' | 'out' | 'up' | 'down', wetNormal: Vec3): boolean =>
  (towards === 'up' || towards === 'down' ? senseByGravity(wetNormal, towards) : towards) === 'in';

/** The flange as it is turned; undefined when it does not get to the plane it is to reach. */
export const flangeFace = (root: FlangeRoot, turn: FlangeTurn): FlangeFace | undefined => {
  const along = edgeDirection(root);
  const outward = outwardOf(root);
  const towardsWet = turn.sense === 'in' ? 1 : -1;
  const cosine = Math.cos(turn.angle);
  const sine = towardsWet * Math.sin(turn.angle);
  const direction = add(scale(outward, cosine), scale(root.wetNormal, sine));
  const facing = add(scale(root.wetNormal, cosine), scale(outward, -sine));
  const first = addScaled(root.corners[root.edge], along, turn.trims[0]);
  const second = addScaled(root.corners[(root.edge + 1) % root.corners.length], along, -turn.trims[1]);
  const isLeftStart = dot(cross(direction, facing), along) >= 0;
  const [left, right] = isLeftStart ? [first, second] : [second, first];
  const reaches = [reachFrom(left, direction, turn.reach), reachFrom(right, direction, turn.reach)] as const;
  if (Math.min(...reaches) < -SAME_POINT || !(Math.max(...reaches) > SAME_POINT)) return undefined;
  return { left, right, direction, reaches, facing, isLeftStart };
};

/** NaN when the direction runs along the plane. */
const reachFrom = (corner: Vec3, direction: Vec3, reach: FlangeReach): number => {
  if ('length' in reach) return reach.length;
  const gain = direction[reach.axis];
  return Math.abs(gain) < NOISE ? NaN : (reach.target - corner[reach.axis]) / gain;
};

/** Free corners of a flange with square ends: above `left` and above `right`. */
export const squareEnds = ({ left, right, direction, reaches }: FlangeFace): readonly [Vec3, Vec3] => [
  addScaled(left, direction, reaches[0]),
  addScaled(right, direction, reaches[1]),
];

export interface FlangeOutline {
  /** [left, right, free right, free left]; a free corner that lies on the bend line is left out. */
  readonly corners: readonly Vec3[];
  readonly edgeNames: { readonly start: 0; readonly end: number; readonly left?: number; readonly right?: number };
}

/** The outline of a flange with the given free corners. Edge 0 lies on the root's edge. */
export const flangeOutline = (
  { left, right }: FlangeFace,
  [freeLeft, freeRight]: readonly [Vec3, Vec3],
): FlangeOutline => {
  if (distance(right, freeRight) <= SAME_POINT)
    return { corners: [left, right, freeLeft], edgeNames: { start: 0, end: 1, left: 2 } };
  if (distance(left, freeLeft) <= SAME_POINT)
    return { corners: [left, right, freeRight], edgeNames: { start: 0, right: 1, end: 2 } };
  return { corners: [left, right, freeRight, freeLeft], edgeNames: { start: 0, right: 1, end: 2, left: 3 } };
};
