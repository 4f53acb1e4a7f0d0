import { describe, expect, it } from 'vitest';
import { leastNugget, spotLimits } from '../../src/analysis/join/spots/spot-table.js';

type Row = readonly [thicknessIn: number, what: 'nugget' | 'pitch' | 'overlap', valueIn: number, withinIn: number];

// Source: resistance-welding application data sheet, "Optimum conditions schedules for spot welding low carbon steel - SAE 1010"
// (Class A type schedule), inches.
const lowCarbon: readonly Row[] = [
  [0.021, 'pitch', 0.375, 0.001],
  [0.031, 'nugget', 0.161, 0.002],
  [0.031, 'pitch', 0.5, 0.001],
  [0.031, 'overlap', 0.4375, 0.001],
  [0.04, 'nugget', 0.181, 0.002],
  [0.04, 'pitch', 0.75, 0.001],
  [0.04, 'overlap', 0.5, 0.001],
  [0.05, 'nugget', 0.21, 0.002],
  [0.05, 'pitch', 0.875, 0.001],
  [0.062, 'nugget', 0.231, 0.002],
  [0.062, 'overlap', 0.625, 0.001],
  [0.078, 'nugget', 0.268, 0.002],
  [0.078, 'pitch', 1.125, 0.001],
  [0.094, 'nugget', 0.304, 0.002],
  [0.094, 'overlap', 0.75, 0.001],
  [0.109, 'nugget', 0.338, 0.002],
  [0.109, 'pitch', 1.3125, 0.001],
  [0.109, 'overlap', 0.8125, 0.001],
  [0.125, 'nugget', 0.375, 0.002],
  [0.125, 'pitch', 1.5, 0.001],
  [0.125, 'overlap', 0.875, 0.001],
];

// Source: resistance-welding supplier's data sheet, "Schedule for spot welding stainless steel" (300 series), inches.
const stainless: readonly Row[] = [
  [0.021, 'overlap', 0.3125, 0.001],
  [0.031, 'nugget', 0.13, 0.002],
  [0.031, 'pitch', 0.5, 0.001],
  [0.031, 'overlap', 0.375, 0.001],
  [0.04, 'nugget', 0.16, 0.002],
  [0.04, 'pitch', 0.625, 0.001],
  [0.04, 'overlap', 0.4375, 0.001],
  [0.05, 'nugget', 0.19, 0.002],
  [0.062, 'nugget', 0.22, 0.002],
  [0.062, 'overlap', 0.625, 0.001],
  [0.078, 'overlap', 0.6875, 0.001],
  [0.094, 'nugget', 0.29, 0.002],
  [0.094, 'pitch', 1.5, 0.001],
  [0.094, 'overlap', 0.75, 0.001],
  [0.125, 'nugget', 0.3, 0.002],
  [0.125, 'pitch', 2.0, 0.001],
  [0.125, 'overlap', 0.875, 0.001],
];

const inch = 25.4;

describe('spot welds against the printed schedules', () => {
  it.each(lowCarbon)('low-carbon steel of %s in: %s is %s in', (thickness, what, value, within) => {
    const limits = spotLimits('steel', [thickness * inch, thickness * inch]);
    expect(Math.abs(limits![what] - value * inch)).toBeLessThanOrEqual(within * inch);
  });

  it.each(stainless)('stainless of %s in: %s is %s in', (thickness, what, value, within) => {
    const limits = spotLimits('stainless', [thickness * inch, thickness * inch]);
    expect(Math.abs(limits![what] - value * inch)).toBeLessThanOrEqual(within * inch);
  });

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
  // table: it agrees with the schedule within a quarter over the thicknesses tubs are made of.
  it.each([
    [1.0, 16],
    [1.2, 20],
    [2.0, 32],
  ])('stainless of %s mm: the least pitch is within a quarter of %s mm', (thickness, pitch) => {
    const own = spotLimits('stainless', [thickness, thickness])!.pitch;
    expect(Math.abs(own - pitch) / pitch).toBeLessThan(0.25);
  });

  // Source: the same manual, minimum overlapping in mm.
  it.each([
    [0.8, 10],
    [1.0, 11],
    [1.2, 12],
    [1.6, 16],
  ])('stainless of %s mm: the least overlap is within 10 %% of %s mm', (thickness, overlap) => {
    const own = spotLimits('stainless', [thickness, thickness])!.overlap;
    expect(Math.abs(own - overlap) / overlap).toBeLessThan(0.1);
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
