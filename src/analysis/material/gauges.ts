/** Sheet gauge numbers to thickness. A gauge number means a different thickness for each kind of metal. */
import type { Material } from '../model/tub.js';

const MM_PER_INCH = 25.4;

export interface GaugeSeries {
  readonly name: string;
  readonly source: string;
  /** Nominal thickness in inches by gauge number. */
  readonly inches: ReadonlyMap<number, number>;
}

const tableOf = (first: number, inches: readonly number[]): ReadonlyMap<number, number> =>
  new Map(inches.map((value, i) => [first + i, value]));

const standardGauge: GaugeSeries = {
  name: "manufacturers' standard gauge",
  source:
    "Manufacturers' Standard Gage for uncoated steel sheet (weight / 41.82 lb per sq ft and inch), as printed alike in three public gauge tables; 3 to 9, 15, 17, 19, 21, 23 and 25 to 30 from memory",
  inches: tableOf(
    3,
    [
      0.2391, 0.2242, 0.2092, 0.1943, 0.1793, 0.1644, 0.1495, 0.1345, 0.1196, 0.1046, 0.0897, 0.0747, 0.0673, 0.0598,
      0.0538, 0.0478, 0.0418, 0.0359, 0.0329, 0.0299, 0.0269, 0.0239, 0.0209, 0.0179, 0.0164, 0.0149, 0.0135, 0.012,
    ],
  ),
};

const galvanizedGauge: GaugeSeries = {
  name: 'galvanized sheet gauge',
  source:
    'Galvanized Sheet Gage (standard gauge + 0.0037 in of zinc), as printed alike in three public gauge tables; 8, 9, 15, 17, 19, 21, 23 and 25 to 30 from memory',
  inches: tableOf(
    8,
    [
      0.1681, 0.1532, 0.1382, 0.1233, 0.1084, 0.0934, 0.0785, 0.071, 0.0635, 0.0575, 0.0516, 0.0456, 0.0396, 0.0366,
      0.0336, 0.0306, 0.0276, 0.0247, 0.0217, 0.0202, 0.0187, 0.0172, 0.0157,
    ],
  ),
};

/**
 * Two stainless series are in print and differ by up to 6 %: this one, the United States Standard fractions (16 ga is
 * 1/16 in = 0.0625 in), and a mill series near the steel gauge (16 ga is 0.0595 or 0.060 in). The first is taken because
 * three independent tables agree on it; the difference matters, so a builder should measure and state the decimals.
 */
const stainlessGauge: GaugeSeries = {
  name: 'stainless sheet gauge (United States Standard fractions)',
  source:
    'United States Standard gauge as used for stainless sheet, as printed alike in three public gauge tables; 7 to 9, 15 to 21, 23 and 25 to 30 from memory. A second published series gives 0.0595 in for 16 ga: state the decimal thickness where it matters',
  inches: tableOf(
    7,
    [
      0.1875, 0.1719, 0.1563, 0.1406, 0.125, 0.1094, 0.0937, 0.0781, 0.0703, 0.0625, 0.0563, 0.05, 0.0438, 0.0375,
      0.0344, 0.0312, 0.0281, 0.025, 0.0219, 0.0188, 0.0172, 0.0156, 0.0141, 0.0125,
    ],
  ),
};

const FIRST_NONFERROUS = 6;
const LAST_NONFERROUS = 30;

/** `0.005 x 92^((36 - n) / 39)` in, to the four decimals that tables print. */
const brownAndSharpeInches = (gauge: number): number => Math.round(50 * 92 ** ((36 - gauge) / 39)) / 1e4;

const nonferrousGauge: GaugeSeries = {
  name: 'American wire gauge (Brown & Sharpe)',
  source:
    'Brown & Sharpe gauge, 0.005 in x 92^((36 - n)/39), as printed alike in three public gauge tables for aluminium; its use for copper and brass sheet from memory',
  inches: tableOf(
    FIRST_NONFERROUS,
    Array.from({ length: LAST_NONFERROUS - FIRST_NONFERROUS + 1 }, (_, i) =>
      brownAndSharpeInches(FIRST_NONFERROUS + i),
    ),
  ),
};

const seriesOf: Readonly<Record<Material, GaugeSeries>> = {
  steel: standardGauge,
  galvanized: galvanizedGauge,
  stainless: stainlessGauge,
  aluminium: nonferrousGauge,
  copper: nonferrousGauge,
  brass: nonferrousGauge,
};

/** The series that a gauge number of this material belongs to, with its source. */
export const gaugeSeriesOf = (material: Material): GaugeSeries => seriesOf[material];

/** Nominal thickness in mm of a sheet of that gauge; undefined when the material's series has no such number. */
export const thicknessOfGauge = (material: Material, gauge: number): number | undefined => {
  const inches = seriesOf[material].inches.get(gauge);
  return inches === undefined ? undefined : inches * MM_PER_INCH;
};
