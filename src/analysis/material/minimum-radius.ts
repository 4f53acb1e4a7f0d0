/** Smallest inside radius that a sheet takes without cracking. */
import { NOISE } from '../geometry/tolerance.js';
import type { Metal } from '../model/tub.js';
import { propertiesOf, type Property } from './properties.js';

export interface RadiusQuestion {
  readonly metal: Metal;
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
 * DIN 6935 for the strength that their force is reckoned with; beyond its 12 mm the last row's ratio is kept. Aluminium goes by its
 * grade; the others are trade rules in thicknesses.
 */
export const minimumRadiusOf = ({ metal, thickness, angle, grain }: RadiusQuestion): Property => {
  const { tensileMPa, radius } = propertiesOf(metal);
  if (radius) return { value: radius.rows[rowOf(radius.rows, thickness)][1] * thickness, source: radius.source };
  const next = grain === 'along bends' || angle > FULL_DIN_ANGLE + NOISE ? 1 : 0;
  return { value: steelRadius(tensileMPa.value, thickness, next), source: DIN_SOURCE };
};
