/** Where the plugged tub leaks, as it leaves. */
import type { Leak } from '../seal/leak.js';
import type { Stages } from '../stages/stages.js';
import { reportLength, reportPlace, type Place } from './numbers.js';
import type { Column } from './table.js';

export interface LeakRow {
  readonly kind: Leak['kind'];
  readonly between: readonly string[];
  readonly seam: string | null;
  readonly point_mm: Place;
  readonly height_mm: number;
  readonly length_mm: number;
  readonly gap_mm: number;
  readonly flood_level_mm: number;
  readonly under_water: boolean;
  /** It leads to the next chamber, not out of the tub. */
  readonly to_next_chamber: boolean;
  /** False: open only once bends and marks are as far off as the shop says. */
  readonly as_drawn: boolean;
}

/** Leaks that standing water reaches, and edges that nothing joins; lowest first. */
export const reportLeaks = (stages: Stages): LeakRow[] =>
  stages
    .watertight()
    .leaks.filter((leak) => leak.isUnderWater || leak.kind === 'unjoined')
    .map((leak) => leakRow(stages, leak));

export const leakRow = ({ tub }: Stages, leak: Leak): LeakRow => ({
  kind: leak.kind,
  between: leak.faces.map((face) => tub.panels[face].name),
  seam: leak.seam === undefined ? null : tub.seams[leak.seam].name,
  point_mm: reportPlace(leak.point),
  height_mm: reportLength(leak.height),
  length_mm: reportLength(leak.length),
  gap_mm: reportLength(leak.gap),
  flood_level_mm: reportLength(leak.flood),
  under_water: leak.isUnderWater,
  to_next_chamber: leak.isInside === true,
  as_drawn: leak.isAsDrawn,
});

/** Leaks, as every list tells them. */
export const LEAK_COLUMNS: readonly Column<LeakRow>[] = [
  { key: 'kind', head: 'Leak', value: (row) => row.kind },
  { key: 'between', head: 'Between', value: (row) => row.between },
  { key: 'seam', head: 'Seam', value: (row) => row.seam, isDetail: true },
  { key: 'height_mm', head: 'Height', value: (row) => row.height_mm, places: 1 },
  { key: 'length_mm', head: 'Length', value: (row) => row.length_mm, places: 1 },
  { key: 'gap_mm', head: 'Gap', value: (row) => row.gap_mm, places: 2 },
  { key: 'under_water', head: 'Under water', value: (row) => row.under_water },
  { key: 'to_next_chamber', head: 'To next chamber', value: (row) => row.to_next_chamber, isDetail: true },
  { key: 'as_drawn', head: 'As drawn', value: (row) => row.as_drawn },
];
