/** Pieces laid out on stock sheets: what is cut from which sheet, where and how turned, and how that is told. */
import type { FlatPattern } from '../fold/flat-pattern.js';
import type { Vec2 } from '../geometry/vec.js';
import { ROUND_OFF } from '../geometry/tolerance.js';
import { groupBy } from '../model/group-by.js';
import { plain } from '../model/wording.js';
import { blanksIn, type Shear } from '../making/blanks.js';
import type { Material } from '../model/tub.js';

export interface Nest {
  readonly sheets: readonly NestSheet[];
  readonly unplaced: readonly Unplaced[];
}

/** One blank: a stock sheet, or the part of it that fits the cutter. The rolling direction is x. */
export interface NestSheet {
  readonly material: Material;
  readonly thickness: number;
  /** Of the blank, mm: along and across the rolling direction. */
  readonly size: Vec2;
  /** The stock sheet that it is sheared from, along and across, and how; of one length and width: it is the sheet as it comes. */
  readonly stockSize: Vec2;
  readonly shear: Shear;
  /** Which of the blanks of its size it is, from 1: what a pin names it by. */
  readonly number: number;
  /** Left over from another job. */
  readonly isRemnant: boolean;
  readonly placed: readonly Placement[];
  /** Metal of the pieces, holes taken out, mm2. */
  readonly usedArea: number;
  /** Length along x and width along y that the pieces take, from the corner, mm: what lies beyond either is whole. */
  readonly usedLength: number;
  readonly usedWidth: number;
}

/** A point `p` of the flat lies at `turn(p) + offset` on the blank; the flat is never turned over. */
export interface Placement {
  readonly flat: FlatPattern;
  /** Which of the flat's `quantity` it is, from 0. */
  readonly copy: number;
  /** rad, counter-clockwise. */
  readonly turn: number;
  readonly offset: Vec2;
  /** It stays where it is. */
  readonly isPinned?: true;
}

export interface Unplaced {
  readonly flat: FlatPattern;
  readonly count: number;
  readonly reason: 'no stock of this sheet' | 'larger than every blank' | 'stock used up';
}

/** How far a nest is. While it is laid, pieces are counted; while it is tightened, places tried. */
export interface NestProgress {
  readonly stage: 'laying' | 'tightening';
  readonly done: number;
  readonly total: number;
  /** Share of the sheet used by the first layout that has been saved since, 0..1. */
  readonly saved: number;
  /** The best nest so far, to stop with; undefined until all has been laid once. */
  readonly best: () => Nest | undefined;
  /** The best first layout, once pieces are moved. */
  readonly first: () => Nest | undefined;
}

/** A nest as far as it has come. */
export interface NestCourse {
  /** As first laid, and the best so far. */
  readonly first: Nest;
  readonly best: Nest;
  /** `earlier`: of an earlier text; that of the text as it is now follows. */
  readonly state: 'laying' | 'moving' | 'stopped' | 'done' | 'earlier';
  /** Share of the work that is done, 0..1. */
  readonly done: number;
}

/** Utilisation of a blank: metal of the pieces over all of its area, 0..1. */
export const utilisationOf = (sheet: NestSheet): number => sheet.usedArea / (sheet.size[0] * sheet.size[1]);

export const placePoint = ({ turn, offset }: Pick<Placement, 'turn' | 'offset'>, [x, y]: Vec2): Vec2 => {
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
  return [x * cos - y * sin + offset[0], x * sin + y * cos + offset[1]];
};

/** mm. Remnants narrower than this go to scrap. Common practice, no source. */
const LEAST_OFFCUT = 100;

/** How much more has to be left along the whole length of a sheet than across its end for pieces to be pushed that way. */
const WORTH_MORE = 1.15;

/** A rectangle of a sheet, mm, from its corner. */
export interface Offcut {
  readonly corner: Vec2;
  readonly size: Vec2;
}

/** What is left whole: across the end of the sheet or along all of its length. Undefined: nothing worth keeping. */
export const offcutOf = (sheet: NestSheet): Offcut | undefined => {
  const { size, usedLength, usedWidth } = sheet;
  return isWholeAlong(sheet)
    ? keptOf({ corner: [0, usedWidth], size: [size[0], size[1] - usedWidth] })
    : keptOf({ corner: [usedLength, 0], size: [size[0] - usedLength, size[1]] });
};

/** What is left whole, as it is told. */
export interface ToldOffcut {
  /** mm: whole from here on, along the sheet or across it. */
  readonly from: number;
  readonly isAlong: boolean;
  /** mm, along and across the rolling direction. Undefined: nothing worth keeping. */
  readonly size: Vec2 | undefined;
}

/** In steps of so many mm, and never more than is there: it begins no sooner and is no larger. */
export const toldOffcutOf = (sheet: NestSheet, step = 1): ToldOffcut => {
  const isAlong = isWholeAlong(sheet);
  const up = (value: number): number => step * Math.ceil(value / step - ROUND_OFF);
  const down = (value: number): number => step * Math.floor(value / step + ROUND_OFF);
  const axis = isAlong ? 1 : 0;
  const from = Math.min(sheet.size[axis], up(isAlong ? sheet.usedWidth : sheet.usedLength));
  const rest = down(sheet.size[axis] - from);
  const other = down(sheet.size[1 - axis]);
  return { from, isAlong, size: offcutOf(sheet) && (isAlong ? [other, rest] : [rest, other]) };
};

/** `stock stainless thickness 1.2 mm 251 mm by 700 mm count 1 grain along 251 mm`: a remnant as it is stated for the next job. */
export const remnantText = ({ material, thickness }: NestSheet, [along, across]: Vec2): string =>
  `stock ${material} thickness ${plain(thickness)} mm ${across} mm by ${along} mm count 1 grain along ${along} mm`;

/** `sheared from 2440 by 1220 mm across at 2000 mm`; undefined: it is the sheet as it comes. */
export const shearWords = (sheet: NestSheet, length: (mm: number) => string, unit: string): string | undefined => {
  if (!isSheared(sheet)) return undefined;
  const { stockSize, shear } = sheet;
  const cuts = (parts: readonly number[]): string =>
    parts
      .slice(0, -1)
      .map((_, i) => length(parts.slice(0, i + 1).reduce((sum, part) => sum + part, 0)))
      .join(', ');
  const across = shear.lengths.length > 1 ? [`across at ${cuts(shear.lengths)} ${unit}`] : [];
  const along = shear.widths.length > 1 ? [`along at ${cuts(shear.widths)} ${unit}`] : [];
  return `sheared from ${length(stockSize[0])} by ${length(stockSize[1])} ${unit}, ${[...across, ...along].join(' and ')}`;
};

/** Blanks of one size of which nothing is cut although their sheet is sheared. */
export interface LeftBlanks {
  readonly material: Material;
  readonly thickness: number;
  /** mm, along and across the rolling direction. */
  readonly size: Vec2;
  readonly count: number;
}

/** What sheets that are sheared leave whole: of each stock, as many sheets as the size that most are cut of takes. */
export const leftBlanksOf = (sheets: readonly NestSheet[]): LeftBlanks[] => {
  const stocks = groupBy(sheets.filter(isSheared), ({ material, thickness, stockSize, shear }) =>
    JSON.stringify([material, thickness, stockSize, shear.lengths, shear.widths]),
  );
  return [...stocks.values()].flatMap((cut) => {
    const [{ material, thickness, shear }] = cut;
    const sizes = groupBy(blanksIn(shear), String);
    const cutOf = groupBy(cut, ({ size }) => String(size));
    const cutOfSize = (key: string): number => cutOf.get(key)?.length ?? 0;
    const sheared = Math.max(...[...sizes].map(([key, of]) => Math.ceil(cutOfSize(key) / of.length)));
    return [...sizes]
      .map(([key, of]): LeftBlanks => ({
        material,
        thickness,
        size: of[0],
        count: sheared * of.length - cutOfSize(key),
      }))
      .filter(({ count }) => count > 0);
  });
};

const keptOf = (offcut: Offcut): Offcut | undefined => (Math.min(...offcut.size) < LEAST_OFFCUT ? undefined : offcut);

export const isSheared = ({ shear }: NestSheet): boolean => shear.lengths.length * shear.widths.length > 1;

/** Is more left along all of its length than across its end? */
export const isWholeAlong = ({ size, usedLength, usedWidth }: NestSheet): boolean =>
  size[1] - usedWidth >= LEAST_OFFCUT &&
  size[0] * (size[1] - usedWidth) > WORTH_MORE * size[1] * (size[0] - usedLength);

/** Sheet that is no longer whole, mm2: of every blank the length used by its width, or the width used by its length. */
export const spentArea = (sheets: readonly NestSheet[]): number =>
  sheets.reduce(
    (sum, sheet) => sum + (isWholeAlong(sheet) ? sheet.usedWidth * sheet.size[0] : sheet.usedLength * sheet.size[1]),
    0,
  );
