import { ROUND_OFF } from '../geometry/tolerance.js';
import type { Vec3 } from '../geometry/vec.js';
import type { Measure } from './finding.js';
import type { Metal } from './shop/sheet.js';

/** With so many decimals; what rounds to nothing has no sign. */
export const fixed = (value: number, places: number): string => {
  const text = value.toFixed(places);
  return /^-0(?:\.0*)?$/.test(text) ? text.slice(1) : text;
};

/** How numbers are spoken in messages: rounded once, here, to what a builder can measure. */
const rounded = (value: number, digits: number): string => {
  const text = fixed(value, digits);
  return text.includes('.') ? text.replace(/\.?0+$/, '') : text;
};

/** Digits more than usual beyond which two numbers are told as equal: what is nearer is round-off. */
const MOST_MORE_DIGITS = 8;

/**
 * With its usual digits, or with more where it would read the same as what it is compared with, or on the wrong side of it: a
 * finding never says that something has 25 and needs at least 25.
 */
const toldApart = (value: number, against: number | undefined, usualOf: (value: number) => number): string => {
  const told = (number: number, more: number): string => rounded(number, usualOf(number) + more);
  if (against === undefined || !Number.isFinite(value - against)) return told(value, 0);
  const side = Math.sign(value - against);
  let more = 0;
  while (more < MOST_MORE_DIGITS && Math.sign(Number(told(value, more)) - Number(told(against, more))) !== side) more++;
  return told(value, more < MOST_MORE_DIGITS ? more : 0);
};

/**
 * `12.35 mm`; below 0.1 mm with more digits, so that a small excess is not told as 0. `against`: a length that stands in the
 * same sentence and that this one is judged by.
 */
export const inMm = (length: number, against?: number): string =>
  `${toldApart(length, against, (mm) => (Math.abs(mm) < 0.1 ? 3 : 2))} mm`;

/** A length as somebody read it: to a tenth of a micrometre, so that sixteenths of an inch come back as such. */
export const asRead = (length: number, against?: number): string => `${plain(length, 4, against)} mm`;

/** `62 N`; below 10 N with a digit more. `against` as for a length. */
export const inN = (force: number, against?: number): string =>
  `${toldApart(force, against, (newtons) => (Math.abs(newtons) < 10 ? 1 : 0))} N`;

/** `2.25 deg`. `against` as for a length. */
export const inDeg = (angle: number, against?: number): string =>
  `${toldApart(toDeg(angle), against === undefined ? undefined : toDeg(against), () => 2)} deg`;

export const toDeg = (angle: number): number => (angle * 180) / Math.PI;

export const plain = (value: number, digits = 3, against?: number): string => toldApart(value, against, () => digits);

/** `has 24.97 mm, needs at least 25 mm`: a finding's measure by itself. */
export const measureText = ({ has, needs, better }: Measure, unit?: string): string => {
  const told = (value: number, against: number): string =>
    `${significant(value, against)}${unit === undefined ? '' : ` ${unit}`}`;
  return `has ${told(has, needs)}, needs ${better === 'more' ? 'at least' : 'at most'} ${told(needs, has)}`;
};

/** Six digits that count, or more where both would read the same. Beside the other, what is only round-off is nothing. */
export const significant = (value: number, against: number): string => {
  if (Math.abs(value) < ROUND_OFF * Math.abs(against)) return '0';
  let digits = 6;
  while (digits < 15 && value !== against && Number(value.toPrecision(digits)) === Number(against.toPrecision(digits)))
    digits++;
  return String(Number(value.toPrecision(digits)));
};

/** `(120, 0, 35.5)`. */
export const atPoint = (point: Vec3): string => `(${point.map((c) => rounded(c, 1)).join(', ')})`;

/** `` `name` ``, as the builder wrote it. */
export const named = (name: string): string => `\`${name}\``;

/** `aluminium 6061-T6`, or the material alone where no grade is stated. */
export const metalWords = ({ material, grade }: Metal): string =>
  grade === undefined ? material : `${material} ${grade}`;

/** Share of a direction below which it is not told. */
const SLIGHT = 0.3;
const WAYS = [
  ['to the left', 'to the right'],
  ['to the front', 'to the back'],
  ['down', 'up'],
] as const;

/** `down and to the left`, by what counts most; seen from the front of the tub. */
export const directionWords = (move: readonly number[]): string =>
  [0, 1, 2]
    .filter((axis) => Math.abs(move[axis]) > SLIGHT)
    .sort((a, b) => Math.abs(move[b]) - Math.abs(move[a]))
    .map((axis) => WAYS[axis][move[axis] > 0 ? 1 : 0])
    .join(' and ');
