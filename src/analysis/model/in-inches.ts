/** Words, tables and charts with metric numbers, for builders who write their tub in inches. */
import { ROUND_OFF } from '../geometry/tolerance.js';

/** In which a text is written, and spoken of. */
export type TextUnits = 'mm' | 'in';

const INCH = 25.4;
const GALLON_L = 3.785411784;
const FLUID_OUNCE_ML = 29.5735295625;
const SHORT_TON_KN = 8.896443230521;
const POUND_KG = 0.45359237;
/** Of standard gravity on a pound. */
const POUND_FORCE_N = POUND_KG * 9.80665;

const UNITS: Readonly<Record<string, readonly [size: number, unit: string]>> = {
  mm: [INCH, 'in'],
  mm2: [INCH ** 2, 'in2'],
  cm2: [(INCH / 10) ** 2, 'in2'],
  'L/min': [GALLON_L, 'gal/min'],
  'mm/s': [INCH, 'in/s'],
  'm/s': [0.3048, 'ft/s'],
  mL: [FLUID_OUNCE_ML, 'fl oz'],
  L: [GALLON_L, 'gal'],
  kN: [SHORT_TON_KN, 'ton'],
  N: [POUND_FORCE_N, 'lbf'],
  kg: [POUND_KG, 'lb'],
};

const NUMBER = '-?\\d+(?:\\.\\d+)?(?:e[-+]?\\d+)?';
/** Of two with a comma between them the first may be of something else: `sheet 2 of 3, 1.2 mm`. */
const LIST = `${NUMBER}(?:, ${NUMBER}){2,}(?: (?:and|or) ${NUMBER})?`;
/** One number, or several that share the unit after the last of them: `765.6 × 460 mm`, `0.5 to 1.2 mm`, `6, 8, 10 mm`. */
const MEASURED = new RegExp(
  `(?<![\\w.])(${LIST}|${NUMBER}(?:(?: [×+] | by | to | and | or )${NUMBER})*)( ?± ?${NUMBER})? (mm2|cm2|mm/s|mm|m/s|L/min|mL|L|kN|N|kg)(?![\\w/])`,
  'g',
);
const POINT = new RegExp(`\\((?:${NUMBER}), (?:${NUMBER}), (?:${NUMBER})\\)( mm)?`, 'g');
const EACH = new RegExp(NUMBER, 'g');

/**
 * A number of a sentence in a unit that is `size` times larger: the shortest that the rounded one may have come from, so that
 * 3/8 in, told as 9.52 mm, is 0.375 in again; what is told in whole numbers or tenths to a thousandth.
 */
const converted = (text: string, size: number): string => {
  const value = Number(text);
  const told = /\.(\d+)/.exec(text)?.[1].length ?? 0;
  const rounding = 0.5 * 10 ** -Math.max(told, FINEST) * (1 + ROUND_OFF);
  const most = told < FINEST && Math.abs(value) >= size ? USUAL_PLACES : MOST_PLACES;
  for (let places = 0; places < most; places++) {
    const short = Number((value / size).toFixed(places));
    if (Math.abs(short * size - value) <= rounding) return String(short);
  }
  return String(Number((value / size).toFixed(most)));
};

/** Decimals: what is told as whole may be meant as finely as this. */
const FINEST = 2;
const MOST_PLACES = 8;
const USUAL_PLACES = 3;

/** What a builder reads who works in inches. What stands between back quotes is quoted from the text, and stays. */
export const inInches = (sentence: string): string =>
  sentence
    .split(QUOTED)
    .map((piece, i) => (i % 2 === 0 ? spoken(piece) : piece.replace(BOTH, '$2 in ($1 mm)')))
    .join('');

/** Words in the units of a text; they come in mm. */
export const wordsIn = (units: TextUnits | undefined, words: string): string =>
  units === 'in' ? inInches(words) : words;

/** A length that is told in both units. */
const BOTH = new RegExp(`^(${NUMBER}) mm \\((${NUMBER}) in\\)$`);
const QUOTED = new RegExp(`(\`[^\`]*\`|${NUMBER} mm \\(${NUMBER} in\\))`);

/** `52 mm per metre`. */
const FALL = new RegExp(`(${NUMBER}) mm per metre`, 'g');
const INCHES_PER_FOOT = 12 / 1000;

const spoken = (piece: string): string =>
  piece
    .replace(FALL, (_, fall: string) => `${Number((Number(fall) * INCHES_PER_FOOT).toFixed(3))} in per foot`)
    .replace(MEASURED, (_, numbers: string, within: string | undefined, unit: string) => {
      const [size, name] = UNITS[unit];
      return `${`${numbers}${within ?? ''}`.replace(EACH, (text) => converted(text, size))} ${name}`;
    })
    .replace(POINT, (point) => point.replace(EACH, (text) => converted(text, INCH)).replace(/ mm$/, ' in'));

/** A column of a table in a metric unit: the unit it has in inches, its numbers, and how many decimals more those need. */
export const columnInInches = (
  unit: string,
): { readonly unit: string; readonly of: (value: number) => number; readonly morePlaces: number } | undefined => {
  const [size, name] = UNITS[unit] ?? [];
  if (size === undefined || name === undefined) return undefined;
  return { unit: name, of: (value) => value / size, morePlaces: Math.max(0, Math.ceil(Math.log10(size))) };
};

/** mm as inches, for drawing and for charts. */
export const inchesOf = (mm: number): number => mm / INCH;
export const gallonsOf = (litres: number): number => litres / GALLON_L;
