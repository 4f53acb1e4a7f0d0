/** Room that is stated to stay between things, and the room that does. */
import { toldBody } from '../model/around/roles.js';
import type { Stages } from '../stages/stages.js';
import { reportLength, reportPlace, type Place } from './numbers.js';
import type { Column } from './table.js';

export interface ClearRow {
  readonly between: readonly [string, string];
  readonly needed_mm: number;
  /** From metal to metal as drawn; less than 0 where they take the same room. */
  readonly apart_mm: number;
  /** With every bend and mark as far off as the shop says it may be. */
  readonly at_worst_mm: number;
  /** Where they come nearest as drawn, on either. */
  readonly nearest_mm: readonly [Place, Place];
}

/** In the order of the text. */
export const reportClears = (stages: Stages): ClearRow[] =>
  stages.clears().map(({ clear, nearest, worst }): ClearRow => {
    const [one, other] = clear.bodies.map((body) => toldBody(stages.tub, body).replaceAll('`', ''));
    return {
      between: [one, other],
      needed_mm: reportLength(clear.least),
      apart_mm: reportLength(nearest.gap),
      at_worst_mm: reportLength(worst.gap),
      nearest_mm: [reportPlace(nearest.points[0]), reportPlace(nearest.points[1])],
    };
  });

/** Clear distances, as every list tells them. */
export const CLEAR_COLUMNS: readonly Column<ClearRow>[] = [
  { key: 'between', head: 'Between', value: (row) => row.between },
  { key: 'needed_mm', head: 'Needs', value: (row) => row.needed_mm, places: 2 },
  { key: 'apart_mm', head: 'Apart', value: (row) => row.apart_mm, places: 2 },
  { key: 'at_worst_mm', head: 'At worst', value: (row) => row.at_worst_mm, places: 2 },
];
