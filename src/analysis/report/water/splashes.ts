/** Inflows that fall, and what splashes. */
import type { Tub } from '../../model/tub.js';
import { splashesOf } from '../../water/splash.js';
import type { Water } from '../../water/water.js';
import { reportLength, reportPlace, type Place } from '../numbers.js';
import type { Column } from '../table.js';

/** Heights over where it lands. */
export interface SplashRow {
  readonly inflow: string;
  readonly falls_mm: number;
  readonly lands_mm: Place;
  /** Drops, straight up and on the level. */
  readonly rises_mm: number;
  readonly reaches_mm: number;
  /** The wall that is most too low, or has least to spare; null: there is none. */
  readonly wall: string | null;
  readonly off_mm: number | null;
  readonly wall_mm: number | null;
  /** Negative: drops have come down lower than where it lands. */
  readonly wall_needs_mm: number | null;
}

export const splashRows = (tub: Tub, water: Water): readonly SplashRow[] =>
  splashesOf(tub, water).map(({ inflow, fall, at, rises, reaches, rim }) => ({
    inflow: tub.inflows[inflow].name,
    falls_mm: reportLength(fall),
    lands_mm: reportPlace(at),
    rises_mm: reportLength(rises),
    reaches_mm: reportLength(reaches),
    wall: rim ? tub.panels[rim.face].name : null,
    off_mm: rim ? reportLength(rim.off) : null,
    wall_mm: rim ? reportLength(rim.has) : null,
    wall_needs_mm: rim ? reportLength(rim.needs) : null,
  }));

export const SPLASH_COLUMNS: readonly Column<SplashRow>[] = [
  { key: 'inflow', head: 'Inflow', value: (row) => row.inflow },
  { key: 'falls_mm', head: 'Falls', value: (row) => row.falls_mm, places: 0 },
  { key: 'rises_mm', head: 'Drops rise', value: (row) => row.rises_mm, places: 0 },
  { key: 'reaches_mm', head: 'Come', value: (row) => row.reaches_mm, places: 0 },
  { key: 'wall', head: 'Wall', value: (row) => row.wall },
  { key: 'off_mm', head: 'Off', value: (row) => row.off_mm, places: 0 },
  { key: 'wall_mm', head: 'Stands', value: (row) => row.wall_mm, places: 1 },
  { key: 'wall_needs_mm', head: 'Needs', value: (row) => row.wall_needs_mm, places: 1 },
];
