import type { ScenePatch } from '../../language/protocol.js';
import { plain } from './dom.js';

const INCH = 25.4;
const GALLON_L = 3.785411784;

/** Of the text that the page shows; pictures are drawn in mm whatever they are. */
let units: ScenePatch['units'] = 'mm';

export const setUnits = (next: ScenePatch['units']): void => {
  units = next;
};

/** The number alone: to 0.1 mm or a thousandth of an inch, or with `more` digits. */
export const lengthNumber = (mm: number, more = 0): string =>
  units === 'in' ? plain(mm / INCH, 3 + more) : plain(mm, 1 + more);

export const lengthUnit = (): string => units;

export const lengthText = (mm: number, more = 0): string => `${lengthNumber(mm, more)} ${units}`;

export const volumeText = (litres: number): string =>
  units === 'in' ? `${plain(litres / GALLON_L, 2)} gal` : `${plain(litres, 1)} L`;

export const sizeText = (width: number, height: number): string =>
  `${lengthNumber(width)} × ${lengthNumber(height)} ${units}`;

/** A round length for a bar that is not longer than `most` mm. */
export const roundLength = (most: number): number => {
  const unit = units === 'in' ? INCH : 1;
  const size = 10 ** Math.floor(Math.log10(most / unit));
  const times = [5, 2, 1].find((each) => each * size <= most / unit) ?? 1;
  return times * size * unit;
};
