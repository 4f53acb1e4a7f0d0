/** Gauge tables against printed ones. */
import { describe, expect, it } from 'vitest';
import { gaugeSeriesOf, thicknessOfGauge } from '../../src/analysis/material/gauges.js';
import type { Material } from '../../src/analysis/model/tub.js';

const inches = (material: Material, gauge: number): number => (thicknessOfGauge(material, gauge) ?? NaN) / 25.4;

describe('nominal thickness, three independent public gauge tables that agree (found)', () => {
  it.each<[Material, number, number]>([
    ['steel', 11, 0.1196],
    ['steel', 12, 0.1046],
    ['steel', 13, 0.0897],
    ['steel', 14, 0.0747],
    ['steel', 16, 0.0598],
    ['steel', 18, 0.0478],
    ['steel', 20, 0.0359],
    ['steel', 22, 0.0299],
    ['galvanized', 10, 0.1382],
    ['galvanized', 13, 0.0934],
    ['galvanized', 14, 0.0785],
    ['galvanized', 18, 0.0516],
    ['galvanized', 20, 0.0396],
    ['galvanized', 22, 0.0336],
    ['galvanized', 24, 0.0276],
    ['stainless', 10, 0.1406],
    ['stainless', 11, 0.125],
    ['stainless', 12, 0.1094],
    ['stainless', 13, 0.0937],
    ['stainless', 14, 0.0781],
    ['stainless', 22, 0.0312],
    ['stainless', 24, 0.025],
    ['aluminium', 10, 0.1019],
    ['aluminium', 11, 0.0907],
    ['aluminium', 12, 0.0808],
    ['aluminium', 14, 0.0641],
    ['aluminium', 16, 0.0508],
    ['aluminium', 18, 0.0403],
    ['aluminium', 20, 0.032],
    ['aluminium', 22, 0.0253],
    ['aluminium', 24, 0.0201],
  ])('%s %d ga is %d in', (material, gauge, thickness) => {
    expect(Math.abs(inches(material, gauge) - thickness)).toBeLessThanOrEqual(0.0002);
  });
});

describe("manufacturers' standard gauge weights (from memory)", () => {
  it.each([
    [3, 10],
    [4, 9.375],
    [5, 8.75],
    [6, 8.125],
    [7, 7.5],
    [8, 6.875],
    [9, 6.25],
    [10, 5.625],
    [11, 5],
    [12, 4.375],
    [13, 3.75],
    [14, 3.125],
    [15, 2.8125],
    [16, 2.5],
    [17, 2.25],
    [18, 2],
    [19, 1.75],
    [20, 1.5],
    [21, 1.375],
    [22, 1.25],
    [23, 1.125],
    [24, 1],
    [25, 0.875],
    [26, 0.75],
    [27, 0.6875],
    [28, 0.625],
    [29, 0.5625],
    [30, 0.5],
  ])('%d ga weighs %d lb per sq ft at 41.82 lb per sq ft and inch', (gauge, weight) => {
    expect(Math.abs(41.82 * inches('steel', gauge) - weight)).toBeLessThanOrEqual(0.003);
  });
});

describe('series', () => {
  it('galvanized sheet is 0.0037 in thicker than plain sheet of the same gauge (difference of the tables: derived)', () => {
    for (let gauge = 8; gauge <= 30; gauge++) {
      expect(Math.abs(inches('galvanized', gauge) - inches('steel', gauge) - 0.0037)).toBeLessThanOrEqual(0.0002);
    }
  });

  // United States Standard gauge of 1893, fractions of an inch: from memory. The tables cut them to four decimals.
  it.each([
    [7, 3 / 16],
    [8, 11 / 64],
    [9, 5 / 32],
    [10, 9 / 64],
    [11, 1 / 8],
    [12, 7 / 64],
    [13, 3 / 32],
    [14, 5 / 64],
    [15, 9 / 128],
    [16, 1 / 16],
    [17, 9 / 160],
    [18, 1 / 20],
    [19, 7 / 160],
    [20, 3 / 80],
    [21, 11 / 320],
    [22, 1 / 32],
    [23, 9 / 320],
    [24, 1 / 40],
    [25, 7 / 320],
    [26, 3 / 160],
    [27, 11 / 640],
    [28, 1 / 64],
    [29, 9 / 640],
    [30, 1 / 80],
  ])('stainless %d ga is %d in', (gauge, thickness) => {
    expect(Math.abs(inches('stainless', gauge) - thickness)).toBeLessThanOrEqual(0.00006);
  });

  // Brown & Sharpe gauge as wire tables print it: from memory.
  it.each([
    [6, 0.162],
    [7, 0.1443],
    [8, 0.1285],
    [9, 0.1144],
    [13, 0.072],
    [15, 0.0571],
    [17, 0.0453],
    [19, 0.0359],
    [21, 0.0285],
    [23, 0.0226],
    [25, 0.0179],
    [26, 0.0159],
    [27, 0.0142],
    [28, 0.0126],
    [29, 0.0113],
    [30, 0.01],
  ])('copper, brass and aluminium of %d ga are %d in', (gauge, thickness) => {
    for (const material of ['copper', 'brass', 'aluminium'] as const)
      expect(inches(material, gauge)).toBeCloseTo(thickness, 6);
  });

  it('16 ga stainless is 1/16 in; the other published series (0.0595 in, found) is named in the source', () => {
    expect(inches('stainless', 16)).toBeCloseTo(0.0625, 10);
    expect(gaugeSeriesOf('stainless').source).toContain('0.0595 in');
  });

  it.each<Material>(['steel', 'galvanized', 'stainless', 'aluminium', 'copper', 'brass'])(
    'a higher gauge number of %s is thinner',
    (material) => {
      const column = [...gaugeSeriesOf(material).inches.values()];
      expect(column).toEqual([...column].sort((a, b) => b - a));
      expect(new Set(column).size).toBe(column.length);
    },
  );

  it('a number that a series does not have has no thickness', () => {
    expect(thicknessOfGauge('steel', 2)).toBeUndefined();
    expect(thicknessOfGauge('stainless', 18.5)).toBeUndefined();
    expect(thicknessOfGauge('galvanized', 31)).toBeUndefined();
    expect(thicknessOfGauge('steel', NaN)).toBeUndefined();
  });
});
