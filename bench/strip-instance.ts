/** An open strip packing instance as flats and a shop: so large that the gap between pieces does not count. */
import type { FlatPattern } from '../src/analysis/fold/flat-pattern.js';
import { straightContour } from '../src/analysis/geometry/contour.js';
import { signedArea } from '../src/analysis/geometry/polygon.js';
import type { Vec2 } from '../src/analysis/geometry/vec.js';
import type { Tub } from '../src/analysis/model/tub.js';
import { roomOf } from '../src/analysis/making/blanks.js';
import { placePoint, type Nest } from '../src/analysis/nest/nest.js';
import { flatOf, stockOf, tubWith } from '../tests/analysis/nest/random-flats.js';

export interface Instance {
  readonly name: string;
  readonly width: number;
  readonly record_density: number;
  readonly source: string;
  readonly items: readonly { readonly demand: number; readonly points: readonly Vec2[] }[];
}

/** mm. Width that the strip is drawn with. */
const WIDTH = 100_000;

const scaleOf = ({ width }: Instance): number => WIDTH / width;

export const piecesIn = ({ items }: Instance): number => items.reduce((sum, { demand }) => sum + demand, 0);

export const flatsOf = (instance: Instance): FlatPattern[] =>
  instance.items.map(({ demand, points }, i) => {
    const scaled = points.map(([x, y]): Vec2 => [x * scaleOf(instance), y * scaleOf(instance)]);
    const outline = straightContour(signedArea(scaled) > 0 ? scaled : [...scaled].reverse());
    return flatOf(`piece ${i + 1}`, outline, { quantity: demand });
  });

const areaOf = (instance: Instance): number =>
  instance.items.reduce((sum, { demand, points }) => sum + demand * Math.abs(signedArea(points)), 0) *
  scaleOf(instance) ** 2;

/** A shop with one strip, wider by the margins, and so long that to fill it along its length would never leave more of it whole. */
export const tubFor = (instance: Instance): Tub => {
  const bare = tubWith([stockOf([1, 1])], { cutters: [] });
  const { gap, margin } = roomOf(bare, bare.sheets[0]);
  const length = Math.max(1.1 * WIDTH, (5 * areaOf(instance)) / WIDTH);
  return tubWith([stockOf([WIDTH + 2 * margin + gap, length])], { cutters: [] });
};

/** Pieces over the strip of its own width and of the length that they take. */
export const stripDensity = (instance: Instance, nest: Nest): number => {
  const xs = nest.sheets.flatMap(({ placed }) =>
    placed.flatMap((placement) => placement.flat.outline.map(({ x, y }) => placePoint(placement, [x, y])[0])),
  );
  return areaOf(instance) / (WIDTH * (Math.max(...xs) - Math.min(...xs)));
};
