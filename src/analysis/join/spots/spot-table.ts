import type { Material } from '../../model/tub.js';

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
  readonly source: string;
}

interface SpotRow {
  readonly thickness: number;
  readonly nugget: number;
  readonly pitch: number;
  readonly overlap: number;
}

const inch = 25.4;
const row = (thickness: number, nugget: number, pitch: number, overlap: number): SpotRow => ({
  thickness: thickness * inch,
  nugget: nugget * inch,
  pitch: pitch * inch,
  overlap: overlap * inch,
});

/**
 * Low-carbon steel, in inches as printed.
 * Source: resistance-welding application data sheet, "Optimum conditions schedules for spot welding low carbon steel -
 * SAE 1010" (Class A schedule). From memory, not seen there: nugget and overlap at 0.021, overlap at 0.050 and 0.078,
 * pitch at 0.062 and 0.094.
 */
const lowCarbonSteel: readonly SpotRow[] = [
  row(0.021, 0.13, 0.375, 0.4375),
  row(0.031, 0.161, 0.5, 0.4375),
  row(0.04, 0.181, 0.75, 0.5),
  row(0.05, 0.21, 0.875, 0.5625),
  row(0.062, 0.231, 1, 0.625),
  row(0.078, 0.268, 1.125, 0.6875),
  row(0.094, 0.304, 1.25, 0.75),
  row(0.109, 0.338, 1.3125, 0.8125),
  row(0.125, 0.375, 1.5, 0.875),
];

/**
 * Stainless steel of the 300 series, in inches as printed.
 * Source: resistance-welding supplier's data sheet, "Schedule for spot welding stainless steel" (300 series). From
 * memory, not seen there: nugget and pitch at 0.021, pitch and overlap at 0.050, pitch at 0.062, nugget and pitch at 0.078.
 */
const stainlessSteel: readonly SpotRow[] = [
  row(0.021, 0.1, 0.3125, 0.3125),
  row(0.031, 0.13, 0.5, 0.375),
  row(0.04, 0.16, 0.625, 0.4375),
  row(0.05, 0.19, 0.75, 0.5),
  row(0.062, 0.22, 1, 0.625),
  row(0.078, 0.275, 1.25, 0.6875),
  row(0.094, 0.29, 1.5, 0.75),
  row(0.125, 0.3, 2, 0.875),
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
  return { nugget: at.nugget, pitch, overlap: at.overlap, edge: at.overlap / 2, source: table.source };
};

/** Least fused diameter that a general spot must have: 4 sqrt(t), mm. Source: welding course slides, "d = 4 sqrt(t) general". */
export const leastNugget = (thickness: number): number => 4 * Math.sqrt(thickness);

const interpolate = (rows: readonly SpotRow[], thickness: number): SpotRow => {
  const last = rows[rows.length - 1];
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
  };
};

const scaleRow = (r: SpotRow, factor: number): SpotRow => ({
  thickness: r.thickness * factor,
  nugget: r.nugget,
  pitch: r.pitch * factor,
  overlap: r.overlap * factor,
});
