import { SAME_DIRECTION } from '../../geometry/tolerance.js';
import { cross, dot, lerp, subtract, unit, type Vec3 } from '../../geometry/vec.js';
import type { Face, Stretch } from '../../shape/shape.js';

/** The rectangle around a face: across level, up the slope. */
export interface WallBox {
  readonly across: Vec3;
  readonly up: Vec3;
  readonly from: readonly [number, number];
  readonly width: number;
  readonly height: number;
  /** Height of its bottom, mm, and how much it rises for each mm up. */
  readonly low: number;
  readonly rise: number;
}

export const boxOf = ({ frame, corners }: Face): WallBox => {
  const level = cross([0, 0, 1], frame.normal);
  const across = Math.hypot(...level) > SAME_DIRECTION ? unit(level) : frame.u;
  const up = cross(frame.normal, across);
  const [us, vs] = [corners.map((corner) => dot(corner, across)), corners.map((corner) => dot(corner, up))];
  const from = [Math.min(...us), Math.min(...vs)] as const;
  return {
    ...{ across, up, from },
    width: Math.max(...us) - from[0],
    height: Math.max(...vs) - from[1],
    low: Math.min(...corners.map((corner) => corner[2])),
    rise: Math.max(0, up[2]),
  };
};

export type Side = 'left' | 'right' | 'bottom' | 'top';

/** Which side of the rectangle a stretch of the edge lies along. */
export const sideOf = ({ start, end }: Stretch, { across, up, from, width, height }: WallBox): Side => {
  const middle = lerp(start, end, 0.5);
  const [u, v] = [dot(middle, across) - from[0], dot(middle, up) - from[1]];
  const along = subtract(end, start);
  if (Math.abs(dot(along, up)) > Math.abs(dot(along, across))) return u < width / 2 ? 'left' : 'right';
  return v < height / 2 ? 'bottom' : 'top';
};
