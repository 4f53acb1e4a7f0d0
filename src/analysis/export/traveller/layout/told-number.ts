/** Any value of the report on paper, by what its key says of its unit. */
import { exactDegrees, gaugeDegrees, type Units } from './units.js';

const UNITS = /_(mm[23]?|deg|kg_m3|kg|kN|N|mL|L_min|L|percent|cSt|mN_m|h|min)$/;

/** `stop distance` of `stop_distance_mm`. */
export const wordsOfKey = (key: string): string => key.replace(UNITS, '').replaceAll('_', ' ');

const PLAIN: Readonly<Record<string, string>> = {
  percent: ' %',
  cSt: ' cSt',
  mN_m: ' mN/m',
  kg_m3: ' kg/m\u00b3',
  h: ' h',
  min: ' min',
};

/** A value with its unit. `path`: ends in its key. */
export const toldNumber = (units: Units, path: string, value: string | number | boolean): string => {
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  if (typeof value === 'string') return value;
  const [, unit] = UNITS.exec(path) ?? [];
  switch (unit) {
    case 'mm':
      return units.fineOf(value);
    case 'mm2':
      return units.smallAreaOf(value);
    case 'deg':
      return Number.isInteger(value) ? gaugeDegrees(value) : exactDegrees(value);
    case 'kg':
      return units.massOf(value);
    case 'kN':
      return units.forceOf(value * 1000);
    case 'N':
      return units.pullOf(value);
    case 'mL':
      return units.smallVolumeOf(value * 1000);
    case 'L':
      return units.volumeOf(value * 1e6);
    case 'L_min':
      return units.flowOf((value * 1e6) / 60);
    default:
      return `${Number(value.toFixed(4))}${unit === undefined ? '' : PLAIN[unit]}`;
  }
};
