import { NO_AREA, NO_CROSS, SAME_POINT } from '../tolerance.js';
import { addScaled, cross, dot, lengthOf, scale, subtract, type Vec3 } from '../vec.js';

/** Far more than ever are needed. */
const MOST_ROUNDS = 100;

/** How near two hulls come, and where. */
export interface HullGap {
  readonly distance: number;
  /** On the first and on the second; where they overlap they need not be one. */
  readonly points: readonly [Vec3, Vec3];
}

/** A difference of a point of each, and those points. */
interface Corner {
  readonly at: Vec3;
  readonly of: readonly [Vec3, Vec3];
}

/**
 * Distance between the convex hulls of two sets of points, mm; 0 where they touch or overlap. The least point of all differences
 * is closed in on by simplices. Source: E. G. Gilbert, D. W. Johnson, S. S. Keerthi, A fast procedure for computing the
 * distance between complex objects in three-dimensional space, IEEE J. Robotics Autom. 4, 1988 (from memory). Cost: linear in
 * points, a few rounds.
 */
export const hullDistance = (p: readonly Vec3[], q: readonly Vec3[]): number => hullGap(p, q).distance;

/** The same, with where they come nearest. */
export const hullGap = (p: readonly Vec3[], q: readonly Vec3[]): HullGap => {
  const first = cornerOf(p[0], q[0]);
  let nearest: Nearest = { point: first.at, simplex: [first], shares: [1] };
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const { point, simplex } = nearest;
    const square = dot(point, point);
    if (square <= SAME_POINT * NO_CROSS) return { distance: 0, points: pointsOf(nearest) };
    const next = cornerOf(farthest(p, scale(point, -1)), farthest(q, point));
    if (square - dot(point, next.at) <= NO_CROSS * square || simplex.some((each) => isSame(each, next))) break;
    const found = nearestOf([...simplex, next]);
    if (!(dot(found.point, found.point) < square)) break;
    nearest = found;
  }
  return { distance: lengthOf(nearest.point), points: pointsOf(nearest) };
};

const cornerOf = (a: Vec3, b: Vec3): Corner => ({ at: subtract(a, b), of: [a, b] });

const isSame = (a: Corner, b: Corner): boolean => a.of[0] === b.of[0] && a.of[1] === b.of[1];

/** The points of both whose difference is the nearest one. */
const pointsOf = ({ simplex, shares }: Nearest): readonly [Vec3, Vec3] => {
  const mixed = (side: 0 | 1): Vec3 =>
    simplex.reduce((sum: Vec3, { of }, i) => addScaled(sum, of[side], shares[i]), [0, 0, 0]);
  return [mixed(0), mixed(1)];
};

const farthest = (points: readonly Vec3[], way: Vec3): Vec3 => {
  let [best, most] = [points[0], -Infinity];
  for (const point of points) {
    const along = dot(point, way);
    if (along > most) [best, most] = [point, along];
  }
  return best;
};

interface Nearest {
  readonly point: Vec3;
  /** The corners between which it lies, and the share that it has of each. */
  readonly simplex: readonly Corner[];
  readonly shares: readonly number[];
}

/** The point nearest to the origin between up to four corners: of each choice of them the foot on its plane, where that lies between them. */
const nearestOf = (corners: readonly Corner[]): Nearest => {
  let best: Nearest | undefined;
  for (let choice = 1; choice < 1 << corners.length; choice++) {
    const simplex = corners.filter((_, i) => (choice >> i) & 1);
    const foot = footOn(simplex.map(({ at }) => at));
    if (foot && (!best || dot(foot.point, foot.point) < dot(best.point, best.point))) best = { ...foot, simplex };
  }
  return best!;
};

type Foot = Omit<Nearest, 'simplex'>;

/** The foot of the origin on the flat through some corners; undefined where it lies outside of them, or they are flatter than that. */
const footOn = (corners: readonly Vec3[]): Foot | undefined => {
  const [a, b, c] = corners;
  switch (corners.length) {
    case 1:
      return { point: a, shares: [1] };
    case 2: {
      const along = subtract(b, a);
      const share = -dot(a, along) / dot(along, along);
      return share > 0 && share < 1 ? { point: addScaled(a, along, share), shares: [1 - share, share] } : undefined;
    }
    case 3: {
      const normal = cross(subtract(b, a), subtract(c, a));
      const square = dot(normal, normal);
      if (square <= NO_AREA * NO_CROSS) return undefined;
      const areas = [[b, c], [c, a], [a, b]].map(([p, q]) => dot(cross(p, q), normal)); // prettier-ignore
      if (!areas.every((area) => area > 0)) return undefined;
      const whole = areas[0] + areas[1] + areas[2];
      return { point: scale(normal, dot(a, normal) / square), shares: areas.map((area) => area / whole) };
    }
    default:
      return holdsOrigin(corners) ? { point: [0, 0, 0], shares: sharesOfOrigin(corners) } : undefined;
  }
};

/** Of each corner the share of the volume that the origin has with the face across from it. */
const sharesOfOrigin = (corners: readonly Vec3[]): readonly number[] => {
  const volumes = corners.map((_, i) => {
    const [a, b, c] = corners.filter((_each, k) => k !== i);
    return Math.abs(dot(cross(a, b), c));
  });
  const whole = volumes.reduce((sum, volume) => sum + volume, 0);
  return volumes.map((volume) => (whole > 0 ? volume / whole : 1 / volumes.length));
};

/** Is the origin on the inner side of each face? */
const holdsOrigin = (corners: readonly Vec3[]): boolean =>
  corners.every((apex, i) => {
    const [a, b, c] = corners.filter((_, k) => k !== i);
    const normal = cross(subtract(b, a), subtract(c, a));
    return dot(normal, subtract(apex, a)) * -dot(normal, a) > 0;
  });
