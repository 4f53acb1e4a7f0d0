import type { Curve } from '../../../analysis/solve/curve.js';
import type { FoundValue, FoundWish, Outcome, Told, Yields } from '../../solve/outcome.js';
import { wordsIn, type TextUnits } from '../../../analysis/model/in-inches.js';
import type { Paint } from '../paint.js';

interface Telling {
  readonly paint: Paint;
  readonly units: TextUnits | undefined;
}

/** Values before and after, what keeps each from going on, every wish, and where they conflict which and by how much. */
export const outcomeText = (file: string, outcome: Outcome, { paint, units }: Telling): string => {
  const { isMet, tried, values, wishes, conflicts, curve, variants } = outcome;
  const head = isMet ? 'all wishes are met' : 'the wishes cannot all be met';
  const widths = columnsOf(
    values.map(({ name, unit, before, after }) => [name, `${told(before, unit)} ->`, told(after, unit)]),
  );
  const lines = [
    `${file}: ${head}; ${tried} tubs tried`,
    ...values.flatMap((value, i) => [
      widths[i],
      ...value.beside.map((each) => `      ${paint.quiet(besideText(value, each))}`),
    ]),
    ...columnsOf(wishes.map((wish) => [wish.text, wish.isMet ? 'met' : 'not met', hasText(wish)])),
    ...conflicts.flatMap((conflict) => [
      conflictHead(conflict),
      ...conflict.map((each) => `  ${yieldsText(each, conflict)}`),
    ]),
    ...variants.map(({ name, missed }) => `Variant "${name}" misses ${missed.join(', ')} with these values`),
    ...(curve ? curveText(curve) : []),
  ];
  return lines.map((line) => wordsIn(units, line)).join('\n');
};

const plain = (value: number): string => String(Number(value.toPrecision(6)));

const told = (value: number, unit: string): string => `${plain(value)}${unit === '' ? '' : ` ${unit}`}`;

const toldOf = ({ value, unit }: Told): string => told(value, unit);

const columnsOf = (rows: readonly (readonly string[])[]): readonly string[] => {
  const widths = (rows[0] ?? []).map((_, i) => Math.max(...rows.map((row) => row[i].length)));
  return rows.map((row) => `  ${row.map((cell, i) => cell.padEnd(widths[i])).join('  ')}`.trimEnd());
};

const besideText = (
  { unit }: FoundValue,
  { way, value, missed, found, change }: FoundValue['beside'][number],
): string => {
  if (value === undefined) return `${way}: its limit is reached`;
  const why = found.length > 0 ? ` (${found[0]})` : '';
  if (missed.length > 0) return `${way} to ${told(value, unit)}: misses ${missed.join(', ')}${why}`;
  if (change.length === 0) return `${way} to ${told(value, unit)}: makes no difference to what is wished`;
  const words = change.map(({ wish, by }) => `${wish} ${by.value > 0 ? '+' : ''}${toldOf(by)}`);
  return `${way} to ${told(value, unit)}: ${words.join(', ')}`;
};

const hasText = ({ has, before, found }: FoundWish): string => {
  if (has) return before && before.value !== has.value ? `${toldOf(has)}, before ${toldOf(before)}` : toldOf(has);
  return found.length === 0 ? '' : found.length === 1 ? found[0] : `${found[0]}, and ${found.length - 1} more`;
};

const conflictHead = (conflict: readonly Yields[]): string =>
  conflict.length === 1
    ? 'No values within the limits were found that meet this:'
    : 'No values were found that meet these together; one has to give way:';

const yieldsText = ({ wish, has, needs, found }: Yields, conflict: readonly Yields[]): string => {
  const others = conflict.length > 1 ? ' while the others are met' : '';
  if (has && needs) return `${wish}: ${toldOf(has)} is the nearest to ${toldOf(needs)} found${others}`;
  if (found.length === 0) return wish;
  return `${wish}: ${found[0]}${found.length > 1 ? `, and ${found.length - 1} more` : ''}`;
};

const curveText = ({ across, up, points }: Curve): readonly string[] => [
  `Choices between ${across.wish} and ${up.wish}:`,
  ...columnsOf(
    points.map((point) => [
      told(point.across, across.unit),
      told(point.up, up.unit),
      point.values.map(({ name, text }) => `${name} ${text}`).join(', '),
    ]),
  ),
];

/** What `tubwright solve --json` prints; `src/language/cli/solve.schema.json` is made from it. */
export interface SolveOutput {
  readonly version: 1;
  readonly file: string;
  readonly met: boolean;
  readonly tried_count: number;
  /** Numbers have their unit in the name, as in `after_mm`; without one they are in the unit that the text writes. */
  readonly values: readonly {
    readonly name: string;
    /** As it is written in the text. */
    readonly written: string;
    readonly [quantity: string]: string | number;
  }[];
  /** `has_L`, `before_L` and `needs_L`, in the unit of what is wished. */
  readonly wishes: readonly {
    readonly wish: string;
    readonly met: boolean;
    readonly found: readonly string[];
    readonly [quantity: string]: string | number | boolean | readonly string[];
  }[];
  /** Sets of wishes that no values were found to meet together, the smallest first, and what is left of each wish where the others of its set are met. */
  readonly conflicts: readonly (readonly {
    readonly wish: string;
    readonly found: readonly string[];
    readonly [quantity: string]: string | number | readonly string[];
  }[])[];
  /** Variants that miss wishes with these values. */
  readonly variants: readonly { readonly name: string; readonly missed: readonly string[] }[];
  /** Empty unless asked for, or where there is nothing to choose. */
  readonly choices: readonly {
    readonly chosen: boolean;
    readonly values: Readonly<Record<string, number>>;
    readonly [quantity: string]: number | boolean | Readonly<Record<string, number>>;
  }[];
}

export const outcomeJson = (file: string, outcome: Outcome): string =>
  JSON.stringify(solveOutput(file, outcome), undefined, 2);

const solveOutput = (
  file: string,
  { isMet, tried, values, wishes, conflicts, curve, variants }: Outcome,
): SolveOutput => ({
  version: 1,
  file,
  met: isMet,
  tried_count: tried,
  values: values.map(({ name, unit, text, before, after, low, high }) => ({
    name,
    written: text,
    ...keyed({ before, after, low, high }, unit),
  })),
  wishes: wishes.map(({ text, isMet: met, found, has, before, needs }) => ({
    wish: text,
    met,
    found,
    ...keyedTold({ has, before, needs }),
  })),
  conflicts: conflicts.map((conflict) =>
    conflict.map(({ wish, found, has, needs }) => ({ wish, found, ...keyedTold({ has, needs }) })),
  ),
  variants,
  choices: (curve?.points ?? []).map((point) => ({
    chosen: point.isChosen,
    values: Object.fromEntries(point.values.map(({ name, value }) => [name, value])),
    ...keyed({ first: point.across }, curve!.across.unit),
    ...keyed({ second: point.up }, curve!.up.unit),
  })),
});

/** `after_mm`, `has_L_min`: every number with its unit in its name. */
const keyed = (numbers: Readonly<Record<string, number>>, unit: string): Readonly<Record<string, number>> =>
  Object.fromEntries(Object.entries(numbers).map(([name, value]) => [`${name}${endingOf(unit)}`, value]));

const keyedTold = (numbers: Readonly<Record<string, Told | undefined>>): Readonly<Record<string, number>> =>
  Object.fromEntries(
    Object.entries(numbers).flatMap(([name, number]) =>
      number ? [[`${name}${endingOf(number.unit)}`, number.value]] : [],
    ),
  );

const endingOf = (unit: string): string => (unit === '' ? '' : `_${unit.replace('%', 'percent').replaceAll('/', '_')}`);
