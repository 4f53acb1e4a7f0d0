import type { Tint } from '../solid/piece.js';

/** Upper limits of the slope bands, deg, and how each is called. */
export const SLOPE_BANDS: readonly (readonly [number, string])[] = [
  [0.5, 'level, under 0.5°'],
  [2, 'falls 0.5° to 2°'],
  [6, 'falls 2° to 6°'],
  [45, 'falls 6° to 45°'],
  [90, 'steeper than 45°'],
];

export const bandOf = (slope: number): number =>
  Math.max(
    0,
    SLOPE_BANDS.findIndex(([limit]) => slope <= limit),
  );
export const tintOfSlope = (slope: number): Tint => `slope${bandOf(slope)}` as Tint;
