/** Rigid maps of space as 12 numbers: three rows of (coefficients of x, y, z, and the shift). */
import type { Vec2, Vec3 } from '../../../geometry/vec.js';

export type Rigid = Float64Array;

export const IDENTITY: Rigid = Float64Array.of(1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0);

/** `a` after `b`. */
export const compose = (a: Rigid, b: Rigid): Rigid => {
  const result = new Float64Array(12);
  for (let r = 0; r < 12; r += 4) {
    for (let c = 0; c < 4; c++) {
      result[r + c] = a[r] * b[c] + a[r + 1] * b[4 + c] + a[r + 2] * b[8 + c] + (c === 3 ? a[r + 3] : 0);
    }
  }
  return result;
};

export const inverse = (m: Rigid): Rigid => {
  const result = new Float64Array(12);
  for (let r = 0; r < 3; r++) {
    for (let c = 0; c < 3; c++) result[4 * r + c] = m[4 * c + r];
    result[4 * r + 3] = -(m[r] * m[3] + m[4 + r] * m[7] + m[8 + r] * m[11]);
  }
  return result;
};

export const apply = (m: Rigid, [x, y, z]: Vec3): Vec3 => [
  m[0] * x + m[1] * y + m[2] * z + m[3],
  m[4] * x + m[5] * y + m[6] * z + m[7],
  m[8] * x + m[9] * y + m[10] * z + m[11],
];

export interface HingeGeometry {
  /** A point of the parent's tangent line. */
  readonly tangent: Vec2;
  /** Unit, in the flat, square to the line, from parent to child. */
  readonly away: Vec2;
  /** Width of the bend zone. */
  readonly allowance: number;
  /** Height of the bend's axis over the flat's upper face. */
  readonly axisHeight: number;
  /** +1: the child comes up; -1: it goes down. */
  readonly sense: 1 | -1;
}

/** Where the child's flat coordinates go when the bend is turned by `angle`: drawn in by the zone, then swung round. */
export const hingeOf = ({ tangent, away, allowance, axisHeight, sense }: HingeGeometry, angle: number): Rigid => {
  const [c, s] = [Math.cos(angle), Math.sin(angle) * sense];
  const [ax, ay] = away;
  // Turn about the direction square to `away` in the flat, which stays as it is.
  const turn = Float64Array.of(
    c * ax * ax + ay * ay,
    (c - 1) * ax * ay,
    -s * ax,
    0,
    (c - 1) * ax * ay,
    c * ay * ay + ax * ax,
    -s * ay,
    0,
    s * ax,
    s * ay,
    c,
    0,
  );
  const center: Vec3 = [tangent[0], tangent[1], axisHeight];
  const moved = apply(turn, [center[0] + allowance * ax, center[1] + allowance * ay, center[2]]);
  turn[3] = center[0] - moved[0];
  turn[7] = center[1] - moved[1];
  turn[11] = center[2] - moved[2];
  return turn;
};
