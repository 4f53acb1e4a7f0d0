/** Smallest inside radius that a sheet takes without cracking. */
import type { Material } from '../model/tub.js';
import type { Property } from './properties.js';

export interface RadiusQuestion {
  readonly material: Material;
  readonly thickness: number;
  /** Deviation from flat, rad. */
  readonly angle: number;
  /** How the bend line lies to the rolling direction. */
  readonly grain: 'any' | 'across bends' | 'along bends';
}

/** [up to this thickness in mm, smallest radius in mm]. */
type RadiusTable = readonly (readonly [number, number])[];

const DIN_SOURCE =
  'DIN 6935 (1975-10), smallest permissible bend radius, cold bending of steel up to 120 deg across the grain; along the grain or beyond 120 deg the next thicker row';

/** Rm up to 390 MPa. Rows up to 1.5 and 5 to 7 mm from memory, the others as quoted in a trade-school worksheet. */
const mildSteel: RadiusTable = [
  [1, 1],
  [1.5, 1.6],
  [2.5, 2.5],
  [3, 3],
  [4, 5],
  [5, 6],
  [6, 8],
  [7, 10],
  [8, 12],
  [10, 16],
  [12, 20],
];

const FULL_DIN_ANGLE = (120 * Math.PI) / 180;

/** Of thickness, by [up to mm]: 5052-H32 at 1/32, 1/16, 1/8, 1/4 in. */
const aluminiumMultiples: RadiusTable = [
  [25.4 / 32, 0],
  [25.4 / 16, 1],
  [25.4 / 8, 1.5],
  [25.4 / 4, 1.5],
];

const MULTIPLES: Readonly<Record<'stainless' | 'copper' | 'brass', Property>> = {
  stainless: { value: 1, source: 'common practice, no source: annealed 304 takes 0.5 to 1.5 thicknesses' },
  copper: { value: 0.5, source: 'common practice, no source: half-hard copper takes 0 to 1 thickness' },
  brass: { value: 0.5, source: 'common practice, no source: quarter to half hard 70/30 brass takes 0 to 1 thickness' },
};

const rowOf = (table: RadiusTable, thickness: number): number => {
  const row = table.findIndex(([upTo]) => thickness <= upTo + 1e-9);
  return row < 0 ? table.length - 1 : row;
};

const steelRadius = (thickness: number, next: 0 | 1): number => {
  const row = Math.min(rowOf(mildSteel, thickness) + next, mildSteel.length - 1);
  const [upTo, radius] = mildSteel[row];
  return thickness > upTo ? (radius * thickness) / upTo : radius;
};

/**
 * Smallest inside radius in mm for one bend, with its source. Steel and galvanized follow DIN 6935 for Rm up to 390 MPa;
 * beyond its 12 mm the last row's ratio is kept. Aluminium is 5052-H32; the others are trade rules in thicknesses.
 */
export const minimumRadiusOf = ({ material, thickness, angle, grain }: RadiusQuestion): Property => {
  if (material === 'steel' || material === 'galvanized') {
    const next = grain === 'along bends' || angle > FULL_DIN_ANGLE + 1e-9 ? 1 : 0;
    return { value: steelRadius(thickness, next), source: DIN_SOURCE };
  }
  if (material === 'aluminium') {
    const multiple = aluminiumMultiples[rowOf(aluminiumMultiples, thickness)][1];
    return {
      value: multiple * thickness,
      source:
        'recommended minimum bend radii for 90 deg cold bends, 5052-H32, Aluminum Design Manual Part VII (2005) table 3-1',
    };
  }
  const multiple = MULTIPLES[material];
  return { value: multiple.value * thickness, source: multiple.source };
};
