import type { Material } from '../../model/tub.js';
import { NOISE } from '../../geometry/tolerance.js';

/** What one spot weld needs, mm. */
export interface SpotLimits {
  /** Diameter of the fused zone that the schedule gives. */
  readonly nugget: number;
  /** Least distance between spots, centre to centre: nearer, current is shunted through the neighbour. */
  readonly pitch: number;
  /** Least contacting overlap of the sheets. */
  readonly overlap: number;
  /** Least distance from the centre of a spot to any edge: the spot stands in the middle of the least overlap. */
  readonly edge: number;
  /** Largest diameter of the electrode's face: that of the next thinner row, as a wider one spreads the current. */
  readonly electrode: number;
  readonly source: string;
}

interface SpotRow {
  readonly thickness: number;
  readonly nugget: number;
  readonly pitch: number;
  readonly overlap: number;
  readonly electrode: number;
}

const inch = 25.4;
const row = (thickness: number, nugget: number, pitch: number, overlap: number, electrode: number): SpotRow => ({
  thickness: thickness * inch,
  nugget: nugget * inch,
  pitch: pitch * inch,
  overlap: overlap * inch,
  electrode: electrode * inch,
});

/**
 * Low-carbon steel, in inches: thickness of the thinnest outside piece, fused zone, weld spacing, contacting overlap,
 * electrode face at most.
 * Source: resistance-welding application data sheet, "Optimum conditions schedules for spot welding low carbon steel -
 * SAE 1010" (Class A), all cells.
 */
const lowCarbonSteel: readonly SpotRow[] = [
  row(0.01, 0.113, 1 / 4, 3 / 8, 0.125),
  row(0.021, 0.139, 3 / 8, 7 / 16, 0.187),
  row(0.031, 0.161, 1 / 2, 7 / 16, 0.187),
  row(0.04, 0.181, 3 / 4, 1 / 2, 0.25),
  row(0.05, 0.21, 7 / 8, 9 / 16, 0.25),
  row(0.062, 0.231, 1, 5 / 8, 0.25),
  row(0.078, 0.268, 1 + 1 / 8, 11 / 16, 0.312),
  row(0.094, 0.304, 1 + 1 / 4, 3 / 4, 0.312),
  row(0.109, 0.338, 1 + 5 / 16, 13 / 16, 0.375),
  row(0.125, 0.375, 1 + 1 / 2, 7 / 8, 0.375),
  row(0.156, 0.446, 1 + 3 / 4, 1, 0.5),
  row(0.187, 0.516, 2, 1 + 1 / 2, 0.625),
  row(0.25, 0.66, 4, 1 + 1 / 2, 0.75),
];

/**
 * Stainless steel of the 300 series, in inches, the same columns.
 * Source: resistance-welding supplier's data sheet, "Schedule for spot welding stainless steel", all cells.
 */
const stainlessSteel: readonly SpotRow[] = [
  row(0.006, 0.045, 3 / 16, 3 / 16, 3 / 32),
  row(0.008, 0.065, 3 / 16, 3 / 16, 3 / 32),
  row(0.012, 0.076, 1 / 4, 1 / 4, 1 / 8),
  row(0.014, 0.082, 1 / 4, 1 / 4, 1 / 8),
  row(0.016, 0.088, 5 / 16, 1 / 4, 1 / 8),
  row(0.018, 0.093, 5 / 16, 1 / 4, 1 / 8),
  row(0.021, 0.1, 5 / 16, 5 / 16, 5 / 32),
  row(0.025, 0.12, 7 / 16, 3 / 8, 5 / 32),
  row(0.031, 0.13, 1 / 2, 3 / 8, 3 / 16),
  row(0.034, 0.15, 9 / 16, 7 / 16, 3 / 16),
  row(0.04, 0.16, 5 / 8, 7 / 16, 3 / 16),
  row(0.044, 0.18, 11 / 16, 7 / 16, 3 / 16),
  row(0.05, 0.19, 3 / 4, 1 / 2, 1 / 4),
  row(0.056, 0.21, 7 / 8, 9 / 16, 1 / 4),
  row(0.062, 0.22, 1, 5 / 8, 1 / 4),
  row(0.07, 0.25, 1 + 1 / 8, 5 / 8, 1 / 4),
  row(0.078, 0.275, 1 + 1 / 4, 11 / 16, 5 / 16),
  row(0.094, 0.29, 1 + 1 / 2, 3 / 4, 5 / 16),
  row(0.109, 0.29, 1 + 1 / 2, 13 / 16, 3 / 8),
  row(0.125, 0.3, 2, 7 / 8, 3 / 8),
];

const tables: Partial<Record<Material, { readonly rows: readonly SpotRow[]; readonly source: string }>> = {
  steel: { rows: lowCarbonSteel, source: 'spot welding schedule for low-carbon steel, Class A' },
  galvanized: {
    rows: lowCarbonSteel,
    source: 'spot welding schedule for low-carbon steel, Class A (bare; zinc asks for more)',
  },
  stainless: { rows: stainlessSteel, source: 'spot welding schedule for 300-series stainless steel' },
};

/** Three sheets: spacing 30 % wider. Source: footnote of the same spot-welding tables. */
const THREE_SHEETS = 1.3;

/** Thickness ratio of outer sheets that a spot still joins: 3 to 1. Source: the same schedules, note on unequal sheets. */
export const SPOT_RATIO = 3;

/**
 * What a spot through sheets of these thicknesses needs, between the rows of the published table.
 *
 * The thinnest outer sheet governs. Below the table's first row and above its last the end row holds (scaled with
 * thickness above). Undefined for a material that the tables do not cover (aluminium, copper, brass).
 */
export const spotLimits = (material: Material, thicknesses: readonly number[]): SpotLimits | undefined => {
  const table = tables[material];
  const governing = Math.min(thicknesses[0], thicknesses[thicknesses.length - 1]);
  if (!table || !(governing > 0)) return undefined;
  const at = interpolate(table.rows, governing);
  const pitch = at.pitch * (thicknesses.length > 2 ? THREE_SHEETS : 1);
  const { nugget, overlap, electrode } = at;
  return { nugget, pitch, overlap, edge: overlap / 2, electrode, source: table.source };
};

/** Least fused diameter that a general spot must have: 4 sqrt(t), mm. Source: welding course slides, "d = 4 sqrt(t) general". */
export const leastNugget = (thickness: number): number => 4 * Math.sqrt(thickness);

const interpolate = (rows: readonly SpotRow[], thickness: number): SpotRow => {
  const last = rows[rows.length - 1];
  const exact = rows.find((r) => Math.abs(r.thickness - thickness) < NOISE);
  if (exact) return exact;
  if (thickness <= rows[0].thickness) return rows[0];
  if (thickness >= last.thickness) return scaleRow(last, thickness / last.thickness);
  const above = rows.findIndex((r) => r.thickness >= thickness);
  const [low, high] = [rows[above - 1], rows[above]];
  const share = (thickness - low.thickness) / (high.thickness - low.thickness);
  const between = (a: number, b: number): number => a + (b - a) * share;
  return {
    thickness,
    nugget: between(low.nugget, high.nugget),
    pitch: between(low.pitch, high.pitch),
    overlap: between(low.overlap, high.overlap),
    electrode: low.electrode,
  };
};

const scaleRow = (r: SpotRow, factor: number): SpotRow => ({
  thickness: r.thickness * factor,
  nugget: r.nugget,
  pitch: r.pitch * factor,
  overlap: r.overlap * factor,
  electrode: r.electrode,
});
