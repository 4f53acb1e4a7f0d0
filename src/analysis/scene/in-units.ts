import { gallonsOf, inchesOf, inInches } from '../model/in-inches.js';
import type { ChoiceAxesItem, ChoiceAxis, HoursLineItem } from './items/plot-items.js';
import type { SceneEntry, SceneItem, ScreenUnits } from './scene-items.js';

/** The words of a scene, and the charts in it, in the units that the text is written in. What is drawn stays in mm. */
export const inUnits = (entries: readonly SceneEntry[], units: ScreenUnits): readonly SceneEntry[] => {
  if (units === 'mm') return entries;
  const axes = entries.map(({ item }) => item).find((item) => item.kind === 'choice-axes');
  return entries.map((entry) => ({ ...entry, item: spoken(chartInInches(entry.item, axes)) }));
};

const chartInInches = (item: SceneItem, axes: ChoiceAxesItem | undefined): SceneItem => {
  if (item.kind === 'hours-line') return lineInInches(item);
  if (item.kind === 'choice-axes') return { ...item, across: axisInInches(item.across), up: axisInInches(item.up) };
  if (item.kind !== 'choice' || !axes) return item;
  const valueOn = ({ unit }: ChoiceAxis, value: number): number => LARGER[unit]?.of(value) ?? value;
  return { ...item, across: valueOn(axes.across, item.across), up: valueOn(axes.up, item.up) };
};

/** What a chart's unit becomes, and its numbers. */
const LARGER: Readonly<Record<string, { readonly unit: string; readonly of: (value: number) => number } | undefined>> =
  {
    mm: { unit: 'in', of: inchesOf },
    L: { unit: 'gal', of: gallonsOf },
  };

const axisInInches = (axis: ChoiceAxis): ChoiceAxis => ({ ...axis, unit: LARGER[axis.unit]?.unit ?? axis.unit });

/** What is made of words in an item. */
const WORDS: ReadonlySet<string> = new Set([
  'stop',
  'before',
  'told',
  'text',
  'stock',
  'sheet',
  'title',
  'saving',
  'what',
  'facts',
]);

const spoken = <T extends object>(value: T): T =>
  Object.fromEntries(Object.entries(value).map(([key, part]) => [key, WORDS.has(key) ? words(part) : part])) as T;

const words = (value: unknown): unknown => {
  if (typeof value === 'string') return inInches(value);
  if (Array.isArray(value)) return value.map(words);
  return typeof value === 'object' && value !== null ? spoken(value) : value;
};

const lineInInches = (line: HoursLineItem): HoursLineItem => {
  const larger = LARGER[line.unit];
  if (!larger) return line;
  return {
    ...line,
    unit: larger.unit,
    points: line.points.map(([hour, value]) => [hour, larger.of(value)] as const),
    limit: line.limit === undefined ? undefined : larger.of(line.limit),
  };
};
