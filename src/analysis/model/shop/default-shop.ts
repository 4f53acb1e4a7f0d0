/** What is taken when the builder names no shop: a small job shop. Common practice, no source. */
import type { Shop, Tub } from '../tub.js';

/**
 * A 25 t press brake of 1250 mm with a divided punch, a hand folding brake of 1250 mm for 1.5 mm mild steel, a plasma
 * cutter of 1500 x 3000 mm and a spot welder. Forces N, lengths mm, angles rad. The numbers are listed on the page of
 * the rule `make/default-shop`; a builder who names a shop replaces all of them.
 */
export const DEFAULT_SHOP: Shop = {
  name: 'default shop',
  at: 0,
  pressBrakes: [
    {
      name: 'press brake',
      at: 0,
      forceN: 250_000,
      bed: 1250,
      dies: [6, 8, 10, 12, 16, 20, 25, 32],
      punchRadius: 1,
      nose: Math.PI / 6,
      fingers: [20, 25, 30, 40, 50, 75, 100, 150, 200, 300],
      depth: 125,
      opening: 200,
      punchProfile: undefined,
      dieProfile: undefined,
    },
  ],
  foldingBrakes: [
    {
      name: 'folding brake',
      at: 0,
      width: 1250,
      capacity: 1.5,
      depth: 75,
      nose: Math.PI / 4,
      angleAtMost: (3 * Math.PI) / 4,
      fingers: [25, 50, 75, 100, 150, 200],
      clampProfile: undefined,
      leafProfile: undefined,
    },
  ],
  cutters: [{ name: 'plasma cutter', at: 0, bed: [1500, 3000], kerf: 1.5, smallestHole: 3, penOffset: [0, 0] }],
  spotWelders: [{ name: 'spot welder', at: 0, throat: 250, opening: 160, sheetsAtMost: [3, 3] }],
  bendsWithin: (0.5 * Math.PI) / 180,
  marksWithin: 0.3,
  clampAtMostN: undefined,
  stock: [],
};

/** The shop that a tub is judged by. */
export const shopOf = (tub: Tub): Shop => tub.shop ?? DEFAULT_SHOP;

/** rad, ±. How true a bend is held when the shop states nothing: 0.5 to 1 deg is trade practice, no source. */
export const bendsWithinOf = (shop: Shop): number => shop.bendsWithin ?? (0.5 * Math.PI) / 180;

/** mm, ±. How true a mark is placed when the shop states nothing: common practice, no source. */
export const marksWithinOf = (shop: Shop): number => shop.marksWithin ?? 0.3;

/** mm. Narrowest cut of the shop's cutters: nothing narrower can be cut out. 0 without a cutter. */
export const leastKerfOf = (tub: Tub): number => {
  const kerfs = shopOf(tub).cutters.map(({ kerf }) => kerf);
  return kerfs.length > 0 ? Math.min(...kerfs) : 0;
};

/** rad, ±. A digital gauge that shows tenths of a degree. Common practice, no source. */
export const GAUGE_WITHIN = (0.1 * Math.PI) / 180;

/** mm, ±. A tape read by eye. Common practice, no source. */
export const TAPE_WITHIN = 0.5;
