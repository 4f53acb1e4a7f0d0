/** A table of the report on paper: the same rows and columns, in the shop's units, with what only paper has beside them. */
import { unitOf, type Column as Told, type Value } from '../../../report/table.js';
import type { Block, Cell, Column } from './block.js';
import { gaugeDegrees, wordsIn, type Units } from './units.js';

/** A column of the report by its key. `as`: how fine a length is told. */
export interface ByKey {
  readonly key: string;
  readonly share: number;
  readonly head?: string;
  readonly as?: 'fine' | 'long';
}

/** A column that only paper has: a picture, a box to tick, words that take several values. */
export interface Own<Row> {
  readonly head: string;
  readonly align: Column['align'];
  readonly share: number;
  readonly cell: (row: Row, index: number) => Cell;
}

/** Fails when a key is none of `columns`. */
export const toldTable = <Row>(
  units: Units,
  columns: readonly Told<Row>[],
  rows: readonly Row[],
  wanted: readonly (ByKey | Own<Row>)[],
): Block => {
  const owns = wanted.map((one) => ('cell' in one ? one : fromReport(units, columns, one)));
  return {
    kind: 'table',
    columns: owns.map(({ head, align, share }) => ({ head, align, share })),
    rows: rows.map((row, index) => owns.map(({ cell }) => cell(row, index))),
  };
};

const fromReport = <Row>(units: Units, columns: readonly Told<Row>[], { key, share, head, as }: ByKey): Own<Row> => {
  const column = columns.find((one) => one.key === key);
  if (!column) throw new Error(`the report has no column ${key}`);
  const unit = unitOf(key);
  // A length that is told long carries its own unit, foot or metre, in each cell.
  const inHead = unit === 'mm' && as !== 'long' ? `, ${units.lengthUnit}` : unit === 'N' ? `, ${units.pullUnit}` : '';
  return {
    head: `${head ?? column.head}${inHead}`,
    align: unit === undefined ? 'left' : 'right',
    share,
    cell: (row) => onPaper(units, column.value(row), unit, as),
  };
};

const onPaper = (units: Units, value: Value, unit: string | undefined, as: ByKey['as']): string => {
  if (value === null || value === undefined) return '-';
  if (typeof value !== 'number') return wordsIn(units, typeof value === 'object' ? value.join(', ') : String(value));
  switch (unit) {
    case 'mm':
      return as === 'long' ? units.longOf(value) : as === 'fine' ? units.fine(value) : units.length(value);
    case 'mL':
      return value === 0 ? '-' : units.smallVolumeOf(value * 1000);
    case 'N':
      return units.pull(value);
    case 'kg':
      return units.massOf(value);
    case 'deg':
      return gaugeDegrees(value);
    default:
      return String(value);
  }
};
