import { lengthNumber, lengthText, roundLength } from '../units.js';
import type { DepthBands } from './water-pieces.js';

/** mm. Finer shades than this tell nothing. */
const FINEST = 0.5;
/** At most so many shades. */
const MOST = 5;

/** Round depths at which the shade of water changes, for water that is nowhere deeper than `most` mm: at least one, at most five bands. */
export const depthBands = (most: number): DepthBands => {
  if (!(most > 0)) return [0];
  if (most <= FINEST) return [0];
  const least = roundLength(Math.max(FINEST, most / MOST));
  const step = [1, 2, 2.5, 3, 4, 5].map((times) => times * least).find((each) => each * MOST >= most) ?? most;
  return Array.from({ length: Math.min(MOST, Math.max(1, Math.ceil(most / step))) }, (_, band) => band * step);
};

/** What each shade means. */
export const bandWords = (bands: DepthBands): readonly string[] =>
  bands.map((least, band) => {
    const next = bands.at(band + 1);
    if (bands.length === 1) return 'liquid';
    if (next === undefined) return `deeper than ${lengthText(least)}`;
    return least === 0 ? `up to ${lengthText(next)} deep` : `${lengthNumber(least)} to ${lengthText(next)} deep`;
  });
