import { NAME_SIGN } from '../parser/name-letters.js';

/** What builders often write where the language has it otherwise: said as what was meant. */

/** Units as people write them, and as the language does. */
const UNITS_MEANT: Readonly<Record<string, string>> = {
  degree: 'deg',
  degrees: 'deg',
  radians: 'rad',
  millimeter: 'mm',
  millimeters: 'mm',
  millimetre: 'mm',
  millimetres: 'mm',
  centimeters: 'cm',
  centimetres: 'cm',
  meters: 'm',
  metres: 'm',
  inch: 'in',
  inches: 'in',
  feet: 'ft',
  foot: 'ft',
  liter: 'L',
  liters: 'L',
  litre: 'L',
  litres: 'L',
  l: 'L',
  ml: 'mL',
  gallon: 'gal',
  gallons: 'gal',
  lpm: 'L/min',
  gpm: 'gal/min',
  lph: 'L/h',
  percent: '%',
  newton: 'N',
  newtons: 'N',
  kn: 'kN',
  tons: 'ton',
  tonnes: 't',
  minutes: 'min',
  hours: 'h',
  seconds: 'sec',
  gauge: 'ga',
  gage: 'ga',
};

const LENGTHS: ReadonlySet<string> = new Set(['mm', 'cm', 'm', 'in', 'ft']);

/** A point whose numbers stand without brackets. */
const OF_POINT = new RegExp(`\\bpoint\\s+${NAME_SIGN}+\\s*=\\s*[-0-9.]+[ \\t]*$`, 'u');

const METALS = 'steel|galvanized|stainless|aluminium|aluminum|copper|brass';

/**
 * What was meant where a text cannot be read. `before`: the statement's line up to the word that stands in the way;
 * `word`: that word; undefined where nothing is known of it.
 */
export const slipMeant = (before: string, word: string): string | undefined => {
  const number = /([0-9.]+)[ \t]*$/.exec(before)?.[1];
  if (number === undefined) return undefined;
  const meant = Object.hasOwn(UNITS_MEANT, word) ? UNITS_MEANT[word] : undefined;
  if (meant !== undefined) return `\`${word}\` is no unit; did you mean \`${number} ${meant}\``;
  const isOfSheet = new RegExp(
    `\\bsheet\\s+${NAME_SIGN}+\\s*=\\s*(?:${METALS})\\s+(?:[0-9]+(?:-\\w+|L)?\\s+)?[0-9.]+\\s*$`,
    'u',
  ).test(before);
  if (isOfSheet && LENGTHS.has(word))
    return `Here stands \`${number} ${word}\`; a thickness is stated as \`thickness ${number} ${word}\``;
  if (OF_POINT.test(before) && /^(,|[-0-9.]+)$/.test(word))
    return `Here stands \`${word}\`; a point needs brackets and commas, such as \`(0, 0, 100)\``;
  if (word === ',') return 'Here stands `,`; decimals need a point, such as `1.5`';
  return undefined;
};
