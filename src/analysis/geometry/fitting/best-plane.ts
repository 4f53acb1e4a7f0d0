import { NOISE } from '../tolerance.js';
import { add, addScaled, dot, lengthOf, scale, subtract, type Vec3 } from '../vec.js';

export interface Plane {
  /** Unit. */
  readonly normal: Vec3;
  /** The points with `dot(normal, point) = offset`. */
  readonly offset: number;
}

/**
 * The plane from which the squares of all points' distances have the least sum; at least three points that are not on one
 * line. Source: total least squares; the normal is the eigenvector of the scatter matrix with the least eigenvalue, found
 * by Jacobi's rotations.
 */
export const bestPlane = (points: readonly Vec3[]): Plane => {
  const middle = scale(
    points.reduce((sum, point) => add(sum, point), [0, 0, 0] as Vec3),
    1 / points.length,
  );
  const scatter = [0, 1, 2].map((i) =>
    [0, 1, 2].map((j) => points.reduce((sum, point) => sum + (point[i] - middle[i]) * (point[j] - middle[j]), 0)),
  );
  const normal = leastDirection(scatter);
  return { normal, offset: dot(normal, middle) };
};

/** More than enough: each round makes what is off the diagonal smaller by its square. */
const ROUNDS = 12;

const leastDirection = (matrix: readonly number[][]): Vec3 => {
  const m = matrix.map((row) => [...row]);
  const v = [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ];
  for (let round = 0; round < ROUNDS; round++) {
    for (const [p, q] of [
      [0, 1],
      [0, 2],
      [1, 2],
    ]) {
      if (m[p][q] === 0) continue;
      const angle = Math.atan2(2 * m[p][q], m[q][q] - m[p][p]) / 2;
      turn(m, p, q, angle);
      for (const row of v) [row[p], row[q]] = turned(row[p], row[q], angle);
    }
  }
  const least = [0, 1, 2].reduce((best, i) => (m[i][i] < m[best][best] ? i : best), 0);
  return [v[0][least], v[1][least], v[2][least]];
};

const turned = (a: number, b: number, angle: number): [number, number] => [
  a * Math.cos(angle) - b * Math.sin(angle),
  a * Math.sin(angle) + b * Math.cos(angle),
];

const turn = (m: number[][], p: number, q: number, angle: number): void => {
  for (const row of m) [row[p], row[q]] = turned(row[p], row[q], angle);
  for (let j = 0; j < 3; j++) [m[p][j], m[q][j]] = turned(m[p][j], m[q][j], angle);
};

/** Sine below which two planes cross too flatly to say where: about 3 deg. */
const TOO_FLAT = 0.05;

/**
 * The shortest way from a point onto all of the planes at once. A plane that is nearly parallel to those before it is left
 * out: the point then lies off it. Source: minimum-norm solution by Gram-Schmidt orthogonalisation.
 */
export const wayOnto = (point: Vec3, planes: readonly Plane[]): Vec3 => {
  const directions: Vec3[] = [];
  let way: Vec3 = [0, 0, 0];
  for (const { normal, offset } of planes) {
    let rest = normal;
    for (const direction of directions) rest = addScaled(rest, direction, -dot(normal, direction));
    const length = lengthOf(rest);
    if (length < TOO_FLAT) continue;
    const direction = scale(rest, 1 / length);
    way = addScaled(way, direction, (offset - dot(normal, add(point, way))) / length);
    directions.push(direction);
  }
  return way;
};

/** Do the points lie on one line, so that no plane is the best? */
export const areOnLine = (points: readonly Vec3[]): boolean => {
  const [first, ...rest] = points;
  const far = rest.reduce(
    (best, point) => (lengthOf(subtract(point, first)) > lengthOf(best) ? subtract(point, first) : best),
    [0, 0, 0] as Vec3,
  );
  const length = lengthOf(far);
  if (length < NOISE) return true;
  return rest.every((point) => {
    const way = subtract(point, first);
    return lengthOf(addScaled(way, far, -dot(way, far) / (length * length))) < NOISE * length;
  });
};
