import type { Dimension } from '../../../analysis/model/tub.js';

/** Exponents of [length, angle, mass, time, force, density]. A volume is length^3, a flow length^3 / time. */
export type Powers = readonly [number, number, number, number, number, number];

export interface Unit {
  readonly powers: Powers;
  /** To mm, rad, kg, s, N, kg/m3: times `factor`, then divided by `per`, so that 30 L/min is 500 mL/s to the last digit. */
  readonly factor: number;
  readonly per?: number;
}

export const inBaseUnits = (value: number, { factor, per = 1 }: Unit): number => (value * factor) / per;

export const NUMBER: Powers = [0, 0, 0, 0, 0, 0];
export const LENGTH: Powers = [1, 0, 0, 0, 0, 0];
export const ANGLE: Powers = [0, 1, 0, 0, 0, 0];
const MASS: Powers = [0, 0, 1, 0, 0, 0];
const VOLUME: Powers = [3, 0, 0, 0, 0, 0];
const FLOW: Powers = [3, 0, 0, -1, 0, 0];
const FORCE: Powers = [0, 0, 0, 0, 1, 0];
const DENSITY: Powers = [0, 0, 0, 0, 0, 1];
const TENSION: Powers = [-1, 0, 0, 0, 1, 0];
const TIME: Powers = [0, 0, 0, 1, 0, 0];
const SPEED: Powers = [1, 0, 0, -1, 0, 0];
/** mm2/s: 1 cSt is 1 mm2/s. */
const VISCOSITY: Powers = [2, 0, 0, -1, 0, 0];

const INCH = 25.4;
const LITRE = 1e6;
/** US gallon: 231 cubic inches. */
const GALLON = 231 * INCH ** 3;
const MINUTE = 60;
const HOUR = 3600;
/** Standard acceleration of gravity, ISO 80000-4: 9.80665 m/s2 makes 1 t weigh 9806.65 N. */
const METRIC_TON_FORCE = 9806.65;
/** US short ton-force: 2000 lbf of 4.4482216152605 N. */
const SHORT_TON_FORCE = 8896.443230521;

export const units: Readonly<Record<string, Unit>> = {
  mm: { powers: LENGTH, factor: 1 },
  cm: { powers: LENGTH, factor: 10 },
  m: { powers: LENGTH, factor: 1000 },
  in: { powers: LENGTH, factor: INCH },
  ft: { powers: LENGTH, factor: 12 * INCH },
  deg: { powers: ANGLE, factor: Math.PI / 180 },
  rad: { powers: ANGLE, factor: 1 },
  '%': { powers: NUMBER, factor: 0.01 },
  mL: { powers: VOLUME, factor: 1000 },
  L: { powers: VOLUME, factor: LITRE },
  gal: { powers: VOLUME, factor: GALLON },
  m3: { powers: VOLUME, factor: 1e9 },
  'L/min': { powers: FLOW, factor: LITRE, per: MINUTE },
  'L/h': { powers: FLOW, factor: LITRE, per: HOUR },
  'gal/min': { powers: FLOW, factor: GALLON, per: MINUTE },
  'm3/h': { powers: FLOW, factor: 1e9, per: HOUR },
  N: { powers: FORCE, factor: 1 },
  kN: { powers: FORCE, factor: 1000 },
  ton: { powers: FORCE, factor: SHORT_TON_FORCE },
  t: { powers: FORCE, factor: METRIC_TON_FORCE },
  g: { powers: MASS, factor: 0.001 },
  kg: { powers: MASS, factor: 1 },
  cSt: { powers: VISCOSITY, factor: 1 },
  'kg/m3': { powers: DENSITY, factor: 1 },
  'mN/m': { powers: TENSION, factor: 1, per: 1_000_000 },
  sec: { powers: TIME, factor: 1 },
  min: { powers: TIME, factor: MINUTE },
  'm/min': { powers: SPEED, factor: 1000, per: MINUTE },
  'mm/min': { powers: SPEED, factor: 1, per: MINUTE },
  'in/min': { powers: SPEED, factor: INCH, per: MINUTE },
};

const names: readonly (readonly [Dimension, Powers, string])[] = [
  ['number', NUMBER, '`3`'],
  ['length', LENGTH, '`20 mm` or `5/8 in`'],
  ['angle', ANGLE, '`3 deg`'],
  ['volume', VOLUME, '`40 L` or `10 gal`'],
  ['flow', FLOW, '`25 L/min` or `6 gal/min`'],
  ['force', FORCE, '`250 kN` or `25 ton`'],
  ['mass', MASS, '`2 kg`'],
  ['viscosity', VISCOSITY, '`1.2 cSt`'],
  ['density', DENSITY, '`1000 kg/m3`'],
  ['tension', TENSION, '`38 mN/m`'],
  ['time', TIME, '`45 sec`'],
  ['speed', SPEED, '`2 m/min`'],
];

export const powersOf = (dimension: Dimension): Powers => names.find(([name]) => name === dimension)?.[1] ?? NUMBER;

/** How the dimension is written, for a message. */
export const exampleOf = (dimension: Dimension): string =>
  names.find(([name]) => name === dimension)?.[2] ?? '`(0, 0, 0)`';

export const samePowers = (a: Powers, b: Powers): boolean => a.every((power, i) => power === b[i]);

/** The dimension's name; undefined for a product that has none in the shop. */
export const dimensionOf = (powers: Powers): Dimension | undefined =>
  names.find(([, other]) => samePowers(powers, other))?.[0];

/** For messages: `a length`, `an area`, `something in mm4`. */
export const describePowers = (powers: Powers): string => {
  const name = dimensionOf(powers);
  if (name) return `${name === 'angle' ? 'an' : 'a'} ${name}`;
  if (samePowers(powers, [2, 0, 0, 0, 0, 0])) return 'an area';
  const parts = powers.map((power, i) => (power === 0 ? '' : `${['mm', 'rad', 'kg', 's', 'N', 'kg/m3'][i]}^${power}`));
  return `something in ${parts.filter((part) => part !== '').join(' ')}`;
};

export const multiplyPowers = (a: Powers, b: Powers): Powers => a.map((power, i) => power + b[i]) as unknown as Powers;
export const dividePowers = (a: Powers, b: Powers): Powers => a.map((power, i) => power - b[i]) as unknown as Powers;
/** Undefined where a root would leave a half power. */
export const rootPowers = (a: Powers): Powers | undefined =>
  a.every((power) => power % 2 === 0) ? (a.map((power) => power / 2) as unknown as Powers) : undefined;
