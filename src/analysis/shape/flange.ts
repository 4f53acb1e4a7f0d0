import { areaVector } from '../geometry/polygon.js';
import { add, addScaled, cross, distance, dot, scale, subtract, unit, type Vec3 } from '../geometry/vec.js';

/** An edge of a panel to turn a flange from, and the panel's wet normal. */
export interface FlangeRoot {
  readonly corners: readonly Vec3[];
  readonly edge: number;
  readonly wetNormal: Vec3;
}

export interface FlangeTurn {
  readonly sense: 'in' | 'out';
  /** Deviation from flat, rad, between 0 and pi. */
  readonly angle: number;
  readonly length: number;
  /** Cut back at the edge's start and end, mm. */
  readonly trims: readonly [number, number];
}

export interface FlangeFace {
  /** [start-left, start-right, end-right, end-left]: edge 0 lies on the root's edge, edge 2 is free. */
  readonly corners: readonly [Vec3, Vec3, Vec3, Vec3];
  /** The root's wet side carried round the bend. */
  readonly facing: Vec3;
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
 * The wet face of a flange to its sharp corners: the edge between its trims, and the free edge `length` away in the
 * turned plane. In: towards the root's wet side; out: towards its dry side.
 */
export const flangeFace = (root: FlangeRoot, turn: FlangeTurn): FlangeFace => {
  const along = edgeDirection(root);
  const outward = outwardOf(root);
  const towardsWet = turn.sense === 'in' ? 1 : -1;
  const cosine = Math.cos(turn.angle);
  const sine = towardsWet * Math.sin(turn.angle);
  const direction = add(scale(outward, cosine), scale(root.wetNormal, sine));
  const facing = add(scale(root.wetNormal, cosine), scale(outward, -sine));
  const first = addScaled(root.corners[root.edge], along, turn.trims[0]);
  const second = addScaled(root.corners[(root.edge + 1) % root.corners.length], along, -turn.trims[1]);
  // Left and right as one sees them who looks at the wet face, away from the root.
  const [left, right] = dot(cross(direction, facing), along) >= 0 ? [first, second] : [second, first];
  const reach = scale(direction, turn.length);
  return { corners: [left, right, add(right, reach), add(left, reach)], facing };
};
