import type { Vec3 } from '../geometry/vec.js';

/** How numbers are spoken in messages: rounded once, here, to what a builder can measure. */
const rounded = (value: number, digits: number): string => {
  const text = value.toFixed(digits);
  return text.includes('.') ? text.replace(/\.?0+$/, '').replace(/^-0$/, '0') : text;
};

/** `12.35 mm`; below 0.1 mm with more digits, so that a small excess is not told as 0. */
export const inMm = (length: number): string => `${rounded(length, Math.abs(length) < 0.1 ? 3 : 2)} mm`;

/** `62 N`; below 10 N with a digit more. */
export const inN = (force: number): string => `${rounded(force, Math.abs(force) < 10 ? 1 : 0)} N`;

/** `2.25 deg`. */
export const inDeg = (angle: number): string => `${rounded(toDeg(angle), 2)} deg`;

export const toDeg = (angle: number): number => (angle * 180) / Math.PI;

export const plain = (value: number, digits = 3): string => rounded(value, digits);

/** `(120, 0, 35.5)`. */
export const atPoint = (point: Vec3): string => `(${point.map((c) => rounded(c, 1)).join(', ')})`;

/** `` `name` ``, as the builder wrote it. */
export const named = (name: string): string => `\`${name}\``;
