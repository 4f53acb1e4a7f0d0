import { NO_AREA, NO_CROSS, SAME_POINT } from '../tolerance.js';
import { addScaled, cross, dot, lengthOf, scale, subtract, type Vec3 } from '../vec.js';

/** Far more than ever are needed. */
const MOST_ROUNDS = 100;

/**
 * Distance between the convex hulls of two sets of points, mm; 0 where they touch or overlap. The least point of all differences
 * is closed in on by simplices. Source: E. G. Gilbert, D. W. Johnson, S. S. Keerthi, A fast procedure for computing the
 * distance between complex objects in three-dimensional space, IEEE J. Robotics Autom. 4, 1988 (from memory). Cost: linear in
 * points, a few rounds.
 */
export const hullDistance = (p: readonly Vec3[], q: readonly Vec3[]): number => {
  let simplex: readonly Vec3[] = [subtract(p[0], q[0])];
  let nearest = simplex[0];
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const square = dot(nearest, nearest);
    if (square <= SAME_POINT * NO_CROSS) return 0;
    const next = subtract(farthest(p, scale(nearest, -1)), farthest(q, nearest));
    if (square - dot(nearest, next) <= NO_CROSS * square || simplex.includes(next)) break;
    const found = nearestOf([...simplex, next]);
    if (!(dot(found.point, found.point) < square)) break;
    ({ point: nearest, simplex } = found);
  }
  return lengthOf(nearest);
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
  /** The corners between which it lies. */
  readonly simplex: readonly Vec3[];
}

/** The point nearest to the origin between up to four corners: of each choice of them the foot on its plane, where that lies between them. */
const nearestOf = (corners: readonly Vec3[]): Nearest => {
  let best: Nearest | undefined;
  for (let choice = 1; choice < 1 << corners.length; choice++) {
    const simplex = corners.filter((_, i) => (choice >> i) & 1);
    const point = footOn(simplex);
    if (point && (!best || dot(point, point) < dot(best.point, best.point))) best = { point, simplex };
  }
  return best!;
};

/** The foot of the origin on the flat through some corners; undefined where it lies outside of them, or they are flatter than that. */
const footOn = (corners: readonly Vec3[]): Vec3 | undefined => {
  const [a, b, c] = corners;
  switch (corners.length) {
    case 1:
      return a;
    case 2: {
      const along = subtract(b, a);
      const share = -dot(a, along) / dot(along, along);
      return share > 0 && share < 1 ? addScaled(a, along, share) : undefined;
    }
    case 3: {
      const normal = cross(subtract(b, a), subtract(c, a));
      const square = dot(normal, normal);
      if (square <= NO_AREA * NO_CROSS) return undefined;
      const isInside = [[a, b], [b, c], [c, a]].every(([p, q]) => dot(cross(p, q), normal) > 0); // prettier-ignore
      return isInside ? scale(normal, dot(a, normal) / square) : undefined;
    }
    default:
      return holdsOrigin(corners) ? [0, 0, 0] : undefined;
  }
};

/** Is the origin on the inner side of each face? */
const holdsOrigin = (corners: readonly Vec3[]): boolean =>
  corners.every((apex, i) => {
    const [a, b, c] = corners.filter((_, k) => k !== i);
    const normal = cross(subtract(b, a), subtract(c, a));
    return dot(normal, subtract(apex, a)) * -dot(normal, a) > 0;
  });
