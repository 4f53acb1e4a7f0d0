/** Points that were measured: where they are, what that is worth, and how each measure fits. */
import type { Stages } from '../stages/stages.js';
import { reportLength, reportPlace, reportRatio, type Place } from './numbers.js';
import type { Column } from './table.js';

export interface TapedReport {
  readonly points: readonly TapedPointRow[];
  readonly measures: readonly TapedMeasureRow[];
  /** Measures more than the places need: how much is checked. */
  readonly freedom_count: number;
}

export interface TapedPointRow {
  readonly name: string;
  readonly place_mm: Place;
  /** Standard deviations right, back and up. */
  readonly sd_mm: Place;
}

export interface TapedMeasureRow {
  readonly between: string;
  readonly kind: 'length' | 'level' | 'plumb';
  /** Null of a level or a plumb line. */
  readonly taped_mm: number | null;
  /** What was measured less what the places have. */
  readonly off_mm: number;
  /** The same in its own standard deviations; 0: nothing else checks it. */
  readonly standardised: number;
}

/** Null: nothing was taped, or what was leaves points open (findings say which). */
export const reportTaped = ({ tub }: Stages): TapedReport | null => {
  if (!tub.taped) return null;
  return {
    points: tub.taped.flatMap(({ points }) =>
      points.map(({ name, place, deviations }) => ({
        name,
        place_mm: reportPlace(place),
        sd_mm: reportPlace(deviations),
      })),
    ),
    measures: tub.taped.flatMap(({ sights }) =>
      sights.map(({ name, kind, length, residual, standardised }) => ({
        between: name,
        kind,
        taped_mm: kind === 'length' ? reportLength(length) : null,
        off_mm: reportLength(residual),
        standardised: reportRatio(standardised),
      })),
    ),
    freedom_count: tub.taped.reduce((sum, { freedom }) => sum + freedom, 0),
  };
};

export const TAPED_POINT_COLUMNS: readonly Column<TapedPointRow>[] = [
  { key: 'name', head: 'Point', value: (row) => row.name },
  ...(['Right', 'Back', 'Up'] as const).flatMap((head, i): Column<TapedPointRow>[] => [
    { key: `place.${i}_mm`, head, value: (row) => row.place_mm[i], places: 1 },
    { key: `sd.${i}_mm`, head: '+-', value: (row) => row.sd_mm[i], places: 1 },
  ]),
];

export const TAPED_MEASURE_COLUMNS: readonly Column<TapedMeasureRow>[] = [
  { key: 'between', head: 'Between', value: (row) => row.between },
  { key: 'kind', head: 'Kind', value: (row) => row.kind },
  { key: 'taped_mm', head: 'Taped', value: (row) => row.taped_mm, places: 1 },
  { key: 'off_mm', head: 'Off by', value: (row) => row.off_mm, places: 2 },
  { key: 'standardised', head: 'In its deviations', value: (row) => row.standardised, places: 2 },
];
