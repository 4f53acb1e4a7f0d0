import { describe, expect, it } from 'vitest';
import { leastNugget, spotLimits } from '../../src/analysis/join/spots/spot-table.js';

/** As printed, inches: thickness of the thinnest outside piece, fused zone, weld spacing, contacting overlap, electrode face. */
type Row = readonly [thickness: number, nugget: string, pitch: string, overlap: string, electrode: string];

// Source: resistance-welding application data sheet, "Optimum conditions schedules for spot welding low carbon steel - SAE 1010"
// (Class A), every row.
const lowCarbon: readonly Row[] = [
  [0.01, '0.113', '1/4', '3/8', '0.125'],
  [0.021, '0.139', '3/8', '7/16', '0.187'],
  [0.031, '0.161', '1/2', '7/16', '0.187'],
  [0.04, '0.181', '3/4', '1/2', '0.25'],
  [0.05, '0.21', '7/8', '9/16', '0.25'],
  [0.062, '0.231', '1', '5/8', '0.25'],
  [0.078, '0.268', '1-1/8', '11/16', '0.312'],
  [0.094, '0.304', '1-1/4', '3/4', '0.312'],
  [0.109, '0.338', '1-5/16', '13/16', '0.375'],
  [0.125, '0.375', '1-1/2', '7/8', '0.375'],
  [0.156, '0.446', '1-3/4', '1', '0.5'],
  [0.187, '0.516', '2', '1-1/2', '0.625'],
  [0.25, '0.66', '4', '1-1/2', '0.75'],
];

// Source: resistance-welding supplier's data sheet, "Schedule for spot welding stainless steel" (300 series), every row.
const stainless: readonly Row[] = [
  [0.006, '0.045', '3/16', '3/16', '3/32'],
  [0.008, '0.065', '3/16', '3/16', '3/32'],
  [0.012, '0.076', '1/4', '1/4', '1/8'],
  [0.014, '0.082', '1/4', '1/4', '1/8'],
  [0.016, '0.088', '5/16', '1/4', '1/8'],
  [0.018, '0.093', '5/16', '1/4', '1/8'],
  [0.021, '0.100', '5/16', '5/16', '5/32'],
  [0.025, '0.120', '7/16', '3/8', '5/32'],
  [0.031, '0.130', '1/2', '3/8', '3/16'],
  [0.034, '0.150', '9/16', '7/16', '3/16'],
  [0.04, '0.160', '5/8', '7/16', '3/16'],
  [0.044, '0.180', '11/16', '7/16', '3/16'],
  [0.05, '0.190', '3/4', '1/2', '1/4'],
  [0.056, '0.210', '7/8', '9/16', '1/4'],
  [0.062, '0.220', '1', '5/8', '1/4'],
  [0.07, '0.250', '1-1/8', '5/8', '1/4'],
  [0.078, '0.275', '1-1/4', '11/16', '5/16'],
  [0.094, '0.290', '1-1/2', '3/4', '5/16'],
  [0.109, '0.290', '1-1/2', '13/16', '3/8'],
  [0.125, '0.300', '2', '7/8', '3/8'],
];

/** `1-1/4`, `3/8` or `0.139`. */
const inches = (printed: string): number =>
  printed
    .split('-')
    .map((part) => part.split('/').map(Number))
    .reduce((sum, [above, below = 1]) => sum + above / below, 0);

const inch = 25.4;

describe('spot welds against the printed schedules', () => {
  const expectRow = (material: 'steel' | 'stainless', [thickness, ...printed]: Row): void => {
    const { nugget, pitch, overlap, electrode } = spotLimits(material, [thickness * inch, thickness * inch])!;
    expect([nugget, pitch, overlap, electrode].map((value) => Number((value / inch).toFixed(5)))).toEqual(
      printed.map((value) => Number(inches(value).toFixed(5))),
    );
  };

  it.each(lowCarbon)('low-carbon steel of %s in', (...row) => expectRow('steel', row));

  it.each(stainless)('stainless of %s in', (...row) => expectRow('stainless', row));

  it('galvanized takes the schedule of bare low-carbon steel', () => {
    expect(spotLimits('galvanized', [1, 1])?.pitch).toBe(spotLimits('steel', [1, 1])?.pitch);
  });

  it('the thinnest outer sheet governs', () => {
    expect(spotLimits('steel', [1, 2])).toEqual(spotLimits('steel', [1, 1]));
    expect(spotLimits('steel', [2, 1])).toEqual(spotLimits('steel', [1, 1]));
  });

  // Source: footnote of the same spot-welding tables: increase spacing 30 percent.
  it('three sheets stand 30 % wider', () => {
    expect(spotLimits('steel', [1, 1, 1])!.pitch / spotLimits('steel', [1, 1])!.pitch).toBeCloseTo(1.3, 12);
  });

  it.each(['aluminium', 'copper', 'brass'] as const)('%s has no table', (material) => {
    expect(spotLimits(material, [1, 1])).toBeUndefined();
  });

  // Source: spot-welder manual (2008, p. 28), table "Stainless steel 18/8 spot welding", minimum spot distance in mm. Another maker's
  // table: it agrees with the schedule within a tenth over the thicknesses tubs are made of.
  it.each([
    [1.0, 16],
    [1.2, 20],
    [2.0, 32],
  ])('stainless of %s mm: the least pitch is within a tenth of %s mm', (thickness, pitch) => {
    const own = spotLimits('stainless', [thickness, thickness])!.pitch;
    expect(Math.abs(own - pitch) / pitch).toBeLessThan(0.1);
  });

  // Source: the same manual, minimum overlapping in mm.
  it.each([
    [0.8, 10],
    [1.0, 11],
    [1.2, 12],
    [1.6, 16],
  ])('stainless of %s mm: the least overlap is within 5 %% of %s mm', (thickness, overlap) => {
    const own = spotLimits('stainless', [thickness, thickness])!.overlap;
    expect(Math.abs(own - overlap) / overlap).toBeLessThan(0.05);
  });

  // Source: the same manual, obtained nugget in mm; fitted to other electrodes.
  it.each([
    [0.8, 3.3],
    [1.0, 4.0],
    [1.2, 4.8],
    [1.6, 5.6],
    [2.0, 7.0],
    [3.0, 7.65],
  ])('stainless of %s mm: the nugget is within 3 %% of %s mm', (thickness, nugget) => {
    const own = spotLimits('stainless', [thickness, thickness])!.nugget;
    expect(Math.abs(own - nugget) / nugget).toBeLessThan(0.03);
  });

  // Source: slide deck "Spot welding parameters - basic calculation": d = 4 sqrt(t) general.
  it.each([
    [0.8, 3.578],
    [1, 4],
    [1.2, 4.382],
    [1.5, 4.899],
    [2, 5.657],
  ])('a general spot in %s mm is at least %s mm', (thickness, nugget) => {
    expect(leastNugget(thickness)).toBeCloseTo(nugget, 3);
  });
});
