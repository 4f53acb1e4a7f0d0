/** Flats that the liquid bends. */
import type { Tub } from '../../model/tub.js';
import type { WallBow } from '../../water/bow/wall-bow.js';
import { reportLength, reportRatio } from '../numbers.js';
import { finite, millilitres } from './amounts.js';
import type { BowRow } from './water-rows.js';

export const bowRows = (tub: Tub, bows: readonly WallBow[]): readonly BowRow[] =>
  bows.map(({ face, width, height, level, most, least, volume, isLinear, stress }) => ({
    panel: tub.panels[face].name,
    wide_mm: reportLength(width),
    high_mm: reportLength(height),
    level_mm: reportLength(level),
    bow_at_most_mm: finite(most, reportLength),
    bow_at_least_mm: reportLength(least),
    room_at_least_mL: millilitres(volume[0]),
    room_at_most_mL: millilitres(volume[1]),
    is_linear: isLinear,
    stress_MPa: reportRatio(stress),
  }));
