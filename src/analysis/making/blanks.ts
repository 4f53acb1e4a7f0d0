/** What the shop can lay on its cutter for a sheet, and the room that its cuts take. */
import { shopOf } from '../model/default-shop.js';
import type { Cutter, Sheet, Shop, Stock, Tub } from '../model/tub.js';
import type { Vec2 } from '../geometry/vec.js';
import { SAME_THICKNESS } from '../model/tolerance.js';

/** Room that a cut takes. All mm. */
export interface NestRoom {
  /** Between two pieces: kerf and the web that holds the sheet together. */
  readonly gap: number;
  /** Between a piece and the edge of the blank. */
  readonly margin: number;
}

export interface Blank {
  readonly stock: Stock;
  /** Along and across the rolling direction, mm. */
  readonly size: Vec2;
  readonly perSheet: number;
  /** How many there are; undefined: as many as it takes. */
  readonly count: number | undefined;
  /** Left over from another job: counted, and smaller than the sheets that the shop has of the kind. Used first. */
  readonly isRemnant: boolean;
}

/** mm. Least web between two cuts; thicker sheet holds heat longer and gets its own thickness. Common practice, no source. */
const LEAST_WEB = 3;
/** mm. Left along the edges, which are bruised and not square. Common practice, no source. */
const EDGE_MARGIN = 10;

/**
 * Blanks of the sheet's material and thickness that the shop has: remnants first, the smallest of them before the others,
 * then in the order stated. Empty: none.
 */
export const blanksOf = (tub: Tub, sheet: Sheet): Blank[] => {
  const shop = shopOf(tub);
  const stock = stockOf(shop, sheet);
  const largest = Math.max(...stock.map(areaOf));
  const blanks = stock.map((of) =>
    shearedBlank(of, largestCutter(shop), of.count !== undefined && areaOf(of) < largest),
  );
  const remnants = blanks.filter(({ isRemnant }) => isRemnant).sort((a, b) => areaOf(a) - areaOf(b));
  return [...remnants, ...blanks.filter(({ isRemnant }) => !isRemnant)];
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

const largestCutter = (shop: Shop): Cutter | undefined =>
  shop.cutters.reduce<Cutter | undefined>(
    (best, c) => (!best || c.bed[0] * c.bed[1] > best.bed[0] * best.bed[1] ? c : best),
    undefined,
  );

/** The sheet in as few equal pieces as fit the bed, either way round. */
const shearedBlank = (stock: Stock, cutter: Cutter | undefined, isRemnant: boolean): Blank => {
  const [long, short] = [Math.max(...stock.size), Math.min(...stock.size)];
  const pieces = (bed: Vec2): Vec2 => [Math.ceil(long / bed[0]), Math.ceil(short / bed[1])];
  const ways: readonly Vec2[] = cutter ? [pieces(cutter.bed), pieces([cutter.bed[1], cutter.bed[0]])] : [[1, 1]];
  const [along, across] = ways.reduce((best, way) => (way[0] * way[1] < best[0] * best[1] ? way : best));
  const perSheet = along * across;
  return {
    stock,
    perSheet,
    size: [long / along, short / across],
    count: stock.count === undefined ? undefined : stock.count * perSheet,
    isRemnant,
  };
};
