import type { Inflow } from '../../model/tub.js';

export type SolidsKind = NonNullable<Inflow['solids']>['kind'];

export interface SolidsData {
  /** Least inclination on which they keep moving with the water, rad. */
  readonly slope: number;
  /** Thickness of the layer that shuts a strainer, mm. */
  readonly layer: number;
}

/** All common practice, no source: what moves depends on size, shape and rinse. */
export const solidsData: Readonly<Record<SolidsKind, SolidsData>> = {
  sludge: { slope: (5 * Math.PI) / 180, layer: 2 },
  chips: { slope: (8 * Math.PI) / 180, layer: 10 },
  scraps: { slope: (10 * Math.PI) / 180, layer: 15 },
};

export const SOLIDS_SOURCE = 'common practice, no source';

/** Share of the strainer's filling time after which it is to be cleaned; common practice, no source. */
export const CLEAN_AFTER = 0.5;

/**
 * Seconds until solids have shut a strainer from `from` to `to` of its area, when all of them stay on it as a layer of
 * the kind's thickness; Infinity without solids.
 */
export const fillingTime = (kind: SolidsKind, rateMm3S: number, area: number, from: number, to: number): number =>
  rateMm3S > 0 ? (Math.max(0, to - from) * area * solidsData[kind].layer) / rateMm3S : Infinity;
