/** Shapes that items of several views are drawn from. */
import type { Vec3 } from '../../geometry/vec.js';

/** `[x, y, bulge]` per vertex, closed, first vertex not repeated. */
export type DrawnContour = readonly (readonly [number, number, number])[];

export interface DrawnFrame {
  readonly origin: Vec3;
  readonly u: Vec3;
  readonly v: Vec3;
  readonly normal: Vec3;
}

/** `[cos, sin, x, y]`: a turn, then a shift, mm. */
export type DrawnMove = readonly [number, number, number, number];
