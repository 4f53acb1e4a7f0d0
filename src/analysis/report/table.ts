/**
 * A list of rows told in columns: the one description from which the terminal, the spreadsheet and the paper take their
 * tables. A row is what JSON says; a column names a value of it by the same key, with the unit in the key.
 */
import { columnInInches, wordsIn, type TextUnits } from '../model/in-inches.js';
import { csvCell } from '../../files/own-mark.js';
import { textTable } from './text-table.js';
import { fixed } from '../model/wording.js';

export type Value = number | string | boolean | readonly string[] | null | undefined;

export interface Column<Row> {
  /** As in JSON; `gap.nominal_mm`: `nominal_mm` of `gap`. */
  readonly key: string;
  /** For people, without the unit. */
  readonly head: string;
  readonly value: (row: Row) => Value;
  /** Decimals for people, in the unit of the key. */
  readonly places?: number;
  /** Only for a spreadsheet: too much for a terminal. */
  readonly isDetail?: true;
}

/** `mm` of `width_mm`, `L/min` of `rate_L_min`; undefined for words and counts. */
export const unitOf = (key: string): string | undefined => {
  const [, unit] = key.match(/_(mm[23]?|deg|kg|kN|N|MPa|mL|L_min|L|percent)$/) ?? [];
  return unit === 'percent' ? '%' : unit?.replace('_', '/');
};

/** The table for a terminal: columns that are no detail, units in the heads; empty when there are no rows. */
export const toText = <Row>(columns: readonly Column<Row>[], rows: readonly Row[], units: TextUnits = 'mm'): string => {
  const shown = columns.filter(({ isDetail }) => !isDetail).map((column) => ({ ...column, ...toldIn(units, column) }));
  return textTable(
    shown.map(({ head, unit }) => [head, unit].join(' ').trim()),
    rows.map((row) => shown.map(({ value, told }) => told(value(row)))),
  );
};

/** The unit and the cells of a column. */
const toldIn = (
  units: TextUnits,
  { key, places }: Pick<Column<never>, 'key' | 'places'>,
): { readonly unit: string; readonly told: (value: Value) => string } => {
  const unit = unitOf(key) ?? '';
  if (units === 'mm') return { unit, told: (value) => wordOf(value, places) };
  const larger = columnInInches(unit);
  if (!larger) return { unit, told: (value) => wordsIn(units, wordOf(value, places)) };
  const finer = Math.min(MOST_PLACES, (places ?? 0) + larger.morePlaces);
  return {
    unit: larger.unit,
    told: (value) => (typeof value === 'number' ? fixed(larger.of(value), finer) : wordOf(value, places)),
  };
};

/** A tenth of a thousandth of an inch is finer than any tool. */
const MOST_PLACES = 4;

const wordOf = (value: Value, places: number | undefined): string => {
  if (value === null || value === undefined) return '-';
  if (typeof value === 'number') return places === undefined ? String(value) : fixed(value, places);
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  return typeof value === 'string' ? value : value.join(', ');
};

/** One row in words, `Width 460.0 mm`: all but its name, which the first column holds, details, and what is not known. */
export const toFacts = <Row>(columns: readonly Column<Row>[], row: Row): readonly string[] =>
  columns.slice(1).flatMap(({ key, head, value, places, isDetail }) => {
    const told = value(row);
    if (isDetail || told === null || told === undefined || told === '') return [];
    return [[head, wordOf(told, places), unitOf(key) ?? ''].join(' ').trim()];
  });

/** The table for a spreadsheet, every column. RFC 4180: comma, CRLF line ends, quotes where needed; points of keys are underscores. */
export const toCsv = <Row>(columns: readonly Column<Row>[], rows: readonly Row[]): string =>
  [columns.map(({ key }) => key.replaceAll('.', '_')), ...rows.map((row) => columns.map(({ value }) => value(row)))]
    .map((cells) => `${cells.map(cellText).join(',')}\r\n`)
    .join('');

const cellText = (cell: Value): string =>
  csvCell(cell === null || cell === undefined ? '' : Array.isArray(cell) ? cell.join('; ') : String(cell));
