/** Flats of many shapes from a seed, and tubs whose shop has the stock for them. */
import fc from 'fast-check';
import type { FlatPattern } from '../../../src/analysis/fold/flat-pattern.js';
import type { Contour } from '../../../src/analysis/geometry/contour.js';
import { circleContour, reverseContour, straightContour } from '../../../src/analysis/geometry/contour.js';
import type { Vec2 } from '../../../src/analysis/geometry/vec.js';
import type { Shop, Stock, Tub } from '../../../src/analysis/model/tub.js';
import { DEFAULT_SHOP } from '../../../src/analysis/model/shop/default-shop.js';
import { sheet18, tubOf } from '../../support/tub-of.js';

export const flatOf = (name: string, outline: Contour, rest: Partial<FlatPattern> = {}): FlatPattern => ({
  name,
  part: undefined,
  sheet: 0,
  thickness: sheet18.thickness,
  quantity: 1,
  outline,
  holes: [],
  bends: [],
  panels: [],
  marks: [],
  place: undefined,
  ...rest,
});

/** A rectangle of that size. */
export const plate = (name: string, w: number, h: number, rest: Partial<FlatPattern> = {}): FlatPattern =>
  flatOf(
    name,
    straightContour([
      [0, 0],
      [w, 0],
      [w, h],
      [0, h],
    ]),
    rest,
  );

const angle = (w: number, h: number, t: number): Vec2[] => [
  [0, 0],
  [w, 0],
  [w, t],
  [t, t],
  [t, h],
  [0, h],
];
const channel = (w: number, h: number, t: number): Vec2[] => [
  [0, 0],
  [w, 0],
  [w, h],
  [w - t, h],
  [w - t, t],
  [t, t],
  [t, h],
  [0, h],
];
const wedge = (w: number, h: number, t: number): Vec2[] => [
  [0, 0],
  [w, 0],
  [w - t, h],
  [t / 2, h],
];

const dome = (w: number, h: number): Contour => [
  { x: 0, y: 0, bulge: 0 },
  { x: w, y: 0, bulge: 0 },
  { x: w, y: h, bulge: 0.6 },
  { x: 0, y: h, bulge: 0 },
];

const frame = (name: string, w: number, h: number, t: number): FlatPattern =>
  plate(name, w, h, {
    holes: [
      {
        contour: reverseContour(circleContour([w / 2, h / 2], Math.min(w, h) / 2 - t / 2)),
        circle: undefined,
        opening: undefined,
      },
    ],
  });

export const someFlat = fc
  .record({
    kind: fc.constantFrom('angle', 'channel', 'wedge', 'dome', 'frame'),
    w: fc.integer({ min: 60, max: 420 }),
    h: fc.integer({ min: 60, max: 300 }),
    t: fc.integer({ min: 12, max: 28 }),
    quantity: fc.integer({ min: 1, max: 2 }),
  })
  .map(({ kind, w, h, t, quantity }): FlatPattern => {
    const name = `${kind} ${w} ${h} ${t}`;
    if (kind === 'frame') return { ...frame(name, w, h, t), quantity };
    if (kind === 'dome') return flatOf(name, dome(w, h), { quantity });
    const corners = kind === 'angle' ? angle(w, h, t) : kind === 'channel' ? channel(w, h, t) : wedge(w, h, t);
    return flatOf(name, straightContour(corners), { quantity });
  });

export const stockOf = (size: Vec2, rest: Partial<Stock> = {}): Stock => ({
  at: 0,
  material: sheet18.material,
  thickness: sheet18.thickness,
  size,
  count: undefined,
  ...rest,
});

export const tubWith = (stock: readonly Stock[], rest: Partial<Shop> = {}, sheets = [sheet18]): Tub =>
  tubOf({ panels: {}, sheets, shop: { ...DEFAULT_SHOP, name: 'test shop', stock, ...rest } });
