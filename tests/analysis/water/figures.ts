import type { Tub } from '../../../src/analysis/model/tub.js';
import { buildShape } from '../../../src/analysis/shape/build-shape.js';
import { endsOf } from '../../../src/analysis/water/flow/inflows.js';
import { routeFlow } from '../../../src/analysis/water/flow/route/route.js';
import { waterOf } from '../../../src/analysis/water/water.js';

/** What must stay the same: numbers only, in an order that does not depend on coordinates. */
export const figuresOf = (tub: Tub): Readonly<Record<string, readonly number[]>> => {
  const shape = buildShape(tub);
  const water = waterOf(tub, shape);
  const sorted = (values: readonly number[]): readonly number[] => [...values].sort((p, q) => p - q);
  const { net } = water.open();
  const shares = shape.faces
    .filter((face) => face.usable && face.area > 100)
    .flatMap((face) => {
      const ends = endsOf(tub, net, routeFlow(net, { kind: 'face', face: face.panel, rate: 1 }), { rate: 1 });
      const share = (wanted: (kind: string, outlet: number) => boolean): number =>
        ends
          .filter((end) => wanted(end.kind, end.kind === 'outlet' ? end.outlet : -1))
          .reduce((sum, end) => sum + end.share, 0);
      return [
        share((kind, outlet) => kind === 'outlet' && outlet === 0),
        share((kind, outlet) => kind === 'outlet' && outlet === 1),
        share((kind) => kind === 'rim'),
      ];
    });
  return {
    volumes: sorted(water.open().pools.map((pool) => pool.volume)),
    depths: sorted(water.open().pools.map((pool) => pool.depth)),
    areas: sorted(water.open().pools.map((pool) => pool.area)),
    tilted: sorted(water.tilted().map((pool) => pool.depth)),
    basin: water
      .basins()
      .slice(0, 1)
      .flatMap(({ volume, level }) => [volume, level]),
    panels: sorted(water.panels().map(({ inclination }) => inclination)),
    creases: sorted(water.creases().map(({ inclination }) => inclination)),
    shares,
  };
};
