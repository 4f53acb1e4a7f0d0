import type { Vec3 } from '../src/analysis/geometry/vec.js';
import type { Tub } from '../src/analysis/model/tub.js';
import { buildShape } from '../src/analysis/shape/build-shape.js';
import { waterOf, type Water } from '../src/analysis/water/water.js';
import { crumpledPan } from '../tests/support/random/arbitrary-tub.js';
import { withOutlet } from '../tests/support/tub-of.js';
import type { Bench } from './bench.js';
import { lowered, loweredTub } from './linked-text.js';
import { chambersText } from './tub-text.js';

/** Everything that the water stage knows. */
const everything = (water: Water): readonly unknown[] => [
  water.panels(),
  water.creases(),
  water.pools(),
  water.tilted(),
  water.basins(),
  water.curve(),
  water.falls(),
  water.flows(),
  water.films(),
  water.outlets(),
  water.paths(),
  water.holdUp(),
  water.wetted(),
];

const inUse = (tub: Tub, panel: number): Tub => ({
  ...tub,
  level: { at: 0, within: 0.01 },
  inflows: [{ name: 'tap', at: 0, panel, point: undefined, rateMm3S: 4e5, solids: undefined }],
});

/** A pan whose floor is that many triangles at heights that repeat in no short period, so that it is full of pools. */
const roughPan = (panels: number): Tub => {
  const side = Math.max(2, Math.round(Math.sqrt(panels / 2)));
  const heights = Array.from({ length: side + 1 }, (_, r) =>
    Array.from({ length: side + 1 }, (_, c) => 20 + ((r * 7919 + c * 104_729) % 97) * 0.1 + r * 0.2),
  );
  const { tub } = crumpledPan(heights, 30, 400);
  const middle = [0, 1, 2].map((k) => tub.panels[0].corners.reduce((sum, p) => sum + p[k], 0) / 3) as unknown as Vec3;
  return inUse(withOutlet(tub, 0, middle, 8), Math.floor(tub.panels.length / 3));
};

/** The water stage with its surface, on the strip tub of the other stages and on a rough floor. */
export const waterBenches: readonly Bench[] = [
  {
    name: 'water, strip tub',
    prepare: async (panels) => {
      const tub = inUse(await loweredTub(panels), 1);
      const shape = buildShape(tub);
      return () => everything(waterOf(tub, shape));
    },
  },
  {
    name: 'water, chambers',
    prepare: async (panels) => {
      const tub = await lowered(chambersText(panels));
      const shape = buildShape(tub);
      return () => {
        const water = waterOf(tub, shape);
        return [water.chambers(), water.chambersAtWork(), water.outlets(), water.holdUp()];
      };
    },
  },
  {
    name: 'water, rough floor',
    prepare: (panels) => {
      const tub = roughPan(panels);
      const shape = buildShape(tub);
      return () => everything(waterOf(tub, shape));
    },
  },
];
