/** What the shop can lay on its cutter for a sheet, and the room that its cuts take. */
import { shopOf } from '../model/shop/default-shop.js';
import type { Cutter, Sheet, Shop, Stock, Tub } from '../model/tub.js';
import type { Vec2 } from '../geometry/vec.js';
import { NEST_CONTACT, PIN_SLACK, SAME_THICKNESS } from '../model/tolerance.js';

/** Room that a cut takes. All mm. */
export interface NestRoom {
  /** Between two pieces: kerf and the web that holds the sheet together. */
  readonly gap: number;
  /** Between a piece and the edge of the blank. */
  readonly margin: number;
}

/** A sheet of the rack and the ways to shear it into blanks that the cutter's bed takes. */
export interface Rack {
  readonly stock: Stock;
  /** Along and across the rolling direction, mm. */
  readonly size: Vec2;
  /** How many sheets there are; undefined: as many as it takes. */
  readonly count: number | undefined;
  /** Left over from another job: counted, and smaller than the sheets that the shop has of the kind. Used first. */
  readonly isRemnant: boolean;
  /** The fewest blanks first; any blank that the bed can take is in one of them. One of one length and width: the bed takes it whole. */
  readonly ways: readonly Shear[];
}

/** Straight cuts across all of a sheet and along all of it: the lengths and the widths between them, mm, from its corner. */
export interface Shear {
  readonly lengths: readonly number[];
  readonly widths: readonly number[];
}

/** Sizes of all blanks, along and across the rolling direction. */
export const blanksIn = ({ lengths, widths }: Shear): Vec2[] =>
  widths.flatMap((width) => lengths.map((length): Vec2 => [length, width]));

/** A blank that is on the cutter, or that another one was sheared off. */
export interface Blank {
  readonly rack: Rack;
  readonly shear: Shear;
  readonly size: Vec2;
  /** Which of the blanks of its size it is, from 1. */
  readonly number: number;
}

/** All blanks of one more sheet of a rack; `open`: those that there are. */
export const shearedFrom = (rack: Rack, shear: Shear, open: readonly Blank[]): Blank[] => {
  const fresh: Blank[] = [];
  for (const size of blanksIn(shear)) {
    const alike = [...open, ...fresh].filter((blank) => isSameSize(blank.size, size));
    fresh.push({ rack, shear, size, number: alike.length + 1 });
  }
  return fresh;
};

/** Either way round: a pin names a blank by its sides. */
export const isSameSize = (a: Vec2, b: Vec2): boolean =>
  Math.abs(Math.max(...a) - Math.max(...b)) < PIN_SLACK && Math.abs(Math.min(...a) - Math.min(...b)) < PIN_SLACK;

/** Is a sheet of the rack left to be sheared? */
export const isLeft = ({ stock, count }: Rack, open: readonly Blank[]): boolean => {
  const sheets = open
    .filter(({ rack }) => rack.stock === stock)
    .reduce((sum, { shear }) => sum + 1 / (shear.lengths.length * shear.widths.length), 0);
  return Math.round(sheets) < (count ?? Infinity);
};

/** mm. Least web between two cuts; thicker sheet holds heat longer and gets its own thickness. Common practice, no source. */
const LEAST_WEB = 3;
/** mm. Left along the edges, which are bruised and not square. Common practice, no source. */
const EDGE_MARGIN = 10;

/**
 * Stock of the sheet's material and thickness that the shop has: remnants first, the smallest of them before the others,
 * then in the order stated. Empty: none.
 */
export const racksOf = (tub: Tub, sheet: Sheet): Rack[] => {
  const shop = shopOf(tub);
  const stock = stockOf(shop, sheet);
  const largest = Math.max(...stock.map(areaOf));
  const racks = stock.map((of): Rack => {
    const size = rolledSize(of);
    return {
      stock: of,
      size,
      count: of.count,
      isRemnant: of.count !== undefined && areaOf(of) < largest,
      ways: waysToShear(size, largestCutter(shop)),
    };
  });
  const remnants = racks.filter(({ isRemnant }) => isRemnant).sort((a, b) => areaOf(a) - areaOf(b));
  return [...remnants, ...racks.filter(({ isRemnant }) => !isRemnant)];
};

/** Along and across the rolling direction, mm. */
export const rolledSize = ({ size, rolledAlong }: Stock): Vec2 => {
  const [width, length] = size;
  const isAlongWidth = rolledAlong === undefined ? width > length : rolledAlong === 'width';
  return isAlongWidth ? [width, length] : [length, width];
};

/** What the shop has of a sheet, in the order stated. */
export const stockOf = ({ stock }: Shop, sheet: Sheet): readonly Stock[] =>
  stock.filter(
    ({ material, thickness }) => material === sheet.material && Math.abs(thickness - sheet.thickness) <= SAME_THICKNESS,
  );

const areaOf = ({ size }: { readonly size: Vec2 }): number => size[0] * size[1];

export const roomOf = (tub: Tub, sheet: Sheet): NestRoom => {
  const kerf = largestCutter(shopOf(tub))?.kerf ?? 0;
  return { gap: kerf + Math.max(LEAST_WEB, sheet.thickness), margin: EDGE_MARGIN };
};

/** Does a box of this size go on a blank, with its margins? One that fits exactly does. */
export const fitsOn = (box: Vec2, blank: Vec2, { margin }: NestRoom): boolean =>
  box.every((side, axis) => side <= blank[axis] - 2 * margin + NEST_CONTACT);

const largestCutter = (shop: Shop): Cutter | undefined =>
  shop.cutters.reduce<Cutter | undefined>(
    (best, c) => (!best || c.bed[0] * c.bed[1] > best.bed[0] * best.bed[1] ? c : best),
    undefined,
  );

/** Either way round on the bed, into equal parts and into parts as long as the bed with a rest. */
const waysToShear = ([length, width]: Vec2, cutter: Cutter | undefined): Shear[] => {
  if (!cutter) return [{ lengths: [length], widths: [width] }];
  const [a, b] = cutter.bed;
  const ways = [
    [a, b],
    [b, a],
  ].flatMap(([along, across]) =>
    partsOf(length, along).flatMap((lengths) => partsOf(width, across).map((widths) => ({ lengths, widths }))),
  );
  const distinct = ways.filter((way, i) => ways.findIndex((other) => textOf(other) === textOf(way)) === i);
  const count = ({ lengths, widths }: Shear): number => lengths.length * widths.length;
  const least = distinct.reduce((fewest, way) => Math.min(fewest, count(way)), Infinity);
  return least === 1 ? distinct.filter((way) => count(way) === 1) : distinct.sort((p, q) => count(p) - count(q));
};

const textOf = ({ lengths, widths }: Shear): string => `${lengths.join()} ${widths.join()}`;

const partsOf = (whole: number, bed: number): number[][] => {
  const count = Math.ceil(whole / bed - NEST_CONTACT);
  if (count <= 1) return [[whole]];
  const equal = Array.from({ length: count }, () => whole / count);
  const full = Array.from({ length: count }, (_, i) => (i < count - 1 ? bed : whole - bed * (count - 1)));
  return whole === count * bed ? [equal] : [equal, full];
};
