/** Smallest inside radius that a sheet takes without cracking. */
import { NOISE } from '../geometry/tolerance.js';
import type { Material } from '../model/tub.js';
import { materialProperties, type Property } from './properties.js';

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

/** mm. Thickness of the rows of the table, up to. */
const DIN_ROWS = [1, 1.5, 2.5, 3, 4, 5, 6, 7, 8, 10, 12];

function radii(...least: readonly number[]): RadiusTable {
  return least.map((radius, i) => [DIN_ROWS[i], radius] as const);
}

const DIN_SOURCE =
  'DIN 6935 (1975-10), smallest permissible bend radius, cold bending of steel up to 120 deg across the grain; along the grain or beyond 120 deg the next thicker row';

/**
 * By tensile strength up to that many MPa. As quoted in a trade-school worksheet, but from memory: up to 390 MPa the rows up to
 * 1.5, 5 to 7 and beyond 8 mm; up to 490 and 640 MPa the rows up to 1, 2.5 to 3 and beyond 8 mm, and of the last 7 to 8 mm.
 */
const steelTables: readonly { readonly upToMPa: number; readonly rows: RadiusTable }[] = [
  { upToMPa: 390, rows: radii(1, 1.6, 2.5, 3, 5, 6, 8, 10, 12, 16, 20) },
  { upToMPa: 490, rows: radii(1.2, 2, 3, 4, 5, 8, 10, 12, 16, 20, 25) },
  { upToMPa: 640, rows: radii(1.6, 2.5, 4, 5, 6, 8, 10, 12, 16, 20, 25) },
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
  copper: { value: 1, source: 'common practice, no source: half-hard copper takes 0 to 1 thickness, upper end' },
  brass: {
    value: 1,
    source: 'common practice, no source: quarter to half hard 70/30 brass takes 0 to 1 thickness, upper end',
  },
};

const rowOf = (table: RadiusTable, thickness: number): number => {
  const row = table.findIndex(([upTo]) => thickness <= upTo + NOISE);
  return row < 0 ? table.length - 1 : row;
};

/** A twentieth more is still the table's steel: DC01 at its strongest, 410 MPa, is the mild steel of the first. */
const NEAR_ENOUGH = 1.06;

/** `strengthMPa`: the one that the bending force is reckoned with; a sheet that is stronger takes the last table. */
export const steelRadius = (strengthMPa: number, thickness: number, next: 0 | 1): number => {
  const { rows } =
    steelTables.find(({ upToMPa }) => strengthMPa <= NEAR_ENOUGH * upToMPa) ?? steelTables[steelTables.length - 1];
  const row = Math.min(rowOf(rows, thickness) + next, rows.length - 1);
  const [upTo, radius] = rows[row];
  return thickness > upTo ? (radius * thickness) / upTo : radius;
};

/**
 * Smallest inside radius in mm for one bend, with its source. Steel and galvanized follow the table of
 * DIN 6935 for the strength that their force is reckoned with; beyond its 12 mm the last row's ratio is kept. Aluminium is 5052-H32; the others are trade rules in thicknesses.
 */
export const minimumRadiusOf = ({ material, thickness, angle, grain }: RadiusQuestion): Property => {
  if (material === 'steel' || material === 'galvanized') {
    const next = grain === 'along bends' || angle > FULL_DIN_ANGLE + NOISE ? 1 : 0;
    return { value: steelRadius(materialProperties[material].tensileMPa.value, thickness, next), source: DIN_SOURCE };
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
