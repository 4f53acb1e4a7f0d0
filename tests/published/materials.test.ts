/** Material numbers and smallest bend radii against printed ones. */
import { describe, expect, it } from 'vitest';
import { minimumRadiusOf, steelRadius } from '../../src/analysis/material/minimum-radius.js';
import { massOf, materialProperties } from '../../src/analysis/material/properties.js';
import type { Material } from '../../src/analysis/model/tub.js';

const deg = (degrees: number): number => (degrees * Math.PI) / 180;

describe('density', () => {
  // Common handbook values, from memory.
  it.each<[Material, number, number]>([
    ['steel', 7850, 30],
    ['galvanized', 7850, 30],
    ['stainless', 7930, 80],
    ['aluminium', 2680, 15],
    ['copper', 8940, 30],
    ['brass', 8530, 30],
  ])('%s is near %d kg/m3', (material, density, off) => {
    expect(Math.abs(materialProperties[material].densityKgM3.value - density)).toBeLessThanOrEqual(off);
  });

  it('304 agrees with the two-figure 7.8 g/cm3 of material comparison pages (found)', () => {
    expect(Math.abs(materialProperties.stainless.densityKgM3.value / 1000 - 7.8)).toBeLessThanOrEqual(0.15);
  });

  it('1 m2 of 1 mm steel weighs 7.85 kg (arithmetic)', () => {
    expect(massOf('steel', 1e6 * 1)).toBeCloseTo(7.85, 3);
  });

  it("a 4 x 10 ft sheet of 16 ga steel weighs within 3 % of 100 lb; the gauge's 41.82 lb basis is 8.04 g/cm3 (derived)", () => {
    const pounds = massOf('steel', 1219.2 * 3048 * 0.0598 * 25.4) / 0.45359237;
    expect(Math.abs(pounds / 100 - 1)).toBeLessThan(0.03);
    expect((41.82 * 0.45359237) / (0.09290304 * 0.0254) / 1000).toBeCloseTo(8.04, 2);
  });
});

describe("Young's modulus, common handbook values, from memory", () => {
  it.each<[Material, number, number]>([
    ['steel', 205, 6],
    ['aluminium', 70.3, 1],
    ['copper', 117, 8],
  ])('%s is near %d GPa', (material, modulus, off) => {
    expect(Math.abs(materialProperties[material].youngsModulusMPa.value / 1000 - modulus)).toBeLessThanOrEqual(off);
  });
});

describe('strength', () => {
  it.each<[Material, number, number, string]>([
    ['steel', 270, 410, 'DC01, EN 10139 / EN 10130 tables of two stockists (found)'],
    ['galvanized', 270, 500, 'DX51D+Z, standard value (from memory)'],
    ['stainless', 580, 1180, '304, annealed to cold-worked, material comparison pages (found)'],
    ['aluminium', 215, 265, '5052-H32 (from memory)'],
  ])('tensile strength of %s lies in %d to %d MPa: %s', (material, low, high) => {
    const { value } = materialProperties[material].tensileMPa;
    expect(value).toBeGreaterThanOrEqual(low);
    expect(value).toBeLessThanOrEqual(high);
  });

  it('yield of DC01 is at most 280 MPa, EN 10139 / EN 10130 tables (found)', () => {
    expect(materialProperties.steel.yieldMPa.value).toBeLessThanOrEqual(280);
  });

  it('yield lies below tensile strength for every material', () => {
    for (const { yieldMPa, tensileMPa } of Object.values(materialProperties)) {
      expect(yieldMPa.value).toBeLessThan(tensileMPa.value);
    }
  });
});

describe('smallest inside radius', () => {
  const steel = (thickness: number, grain: 'any' | 'along bends' = 'any', angle = 90): number =>
    minimumRadiusOf({ material: 'steel', thickness, angle: deg(angle), grain }).value;

  // DIN 6935 (1975-10) by tensile strength in MPa, as quoted in a trade-school worksheet (found); thickness over to.
  it.each([
    [390, 1, 1],
    [390, 2.5, 2.5],
    [390, 3, 3],
    [390, 4, 5],
    [390, 5, 6],
    [390, 8, 12],
    [490, 1.5, 2],
    [490, 2.5, 3],
    [490, 4, 5],
    [490, 5, 8],
    [490, 6, 10],
    [490, 7, 12],
    [490, 8, 16],
    [640, 1.5, 2.5],
    [640, 2.5, 4],
    [640, 4, 6],
    [640, 5, 8],
    [640, 6, 10],
    [640, 7, 12],
  ])('steel of up to %d MPa and %d mm bends at %d mm', (strength, thickness, radius) => {
    expect(steelRadius(strength, thickness, 0)).toBe(radius);
  });

  it.each<Material>(['steel', 'galvanized'])('%s is as strong for its radius as for its force', (material) => {
    const { tensileMPa } = materialProperties[material];
    for (const thickness of [0.8, 1.2, 1.5, 2, 3, 4, 6])
      expect(minimumRadiusOf({ material, thickness, angle: deg(90), grain: 'any' }).value).toBe(
        steelRadius(tensileMPa.value, thickness, 0),
      );
  });

  it('along the grain, or beyond 120 deg, steel takes the next thicker row (same source)', () => {
    expect(steel(3, 'along bends')).toBe(5);
    expect(steel(3, 'any', 130)).toBe(5);
    expect(steel(3, 'any', 120)).toBe(3);
  });

  // Recommended minimum bend radii for 90 deg cold bends, 5052-H32, table 3-1 of January 2005 (found), in thicknesses.
  it.each([
    [25.4 / 32, 0],
    [25.4 / 16, 1],
    [25.4 / 8, 1.5],
    [25.4 / 4, 1.5],
  ])('5052-H32 of %d mm bends at %d thicknesses', (thickness, multiple) => {
    const { value } = minimumRadiusOf({ material: 'aluminium', thickness, angle: deg(90), grain: 'any' });
    expect(value / thickness).toBeCloseTo(multiple, 9);
  });

  it('304 lies in the trade range of 0.5 to 1.5 thicknesses (common practice, no source)', () => {
    const { value } = minimumRadiusOf({ material: 'stainless', thickness: 1.2, angle: deg(90), grain: 'any' });
    expect(value).toBeGreaterThanOrEqual(0.6);
    expect(value).toBeLessThanOrEqual(1.8);
  });

  it('mild steel is near one thickness (common practice, no source)', () => {
    expect(Math.abs(steel(1.2) / 1.2 - 1)).toBeLessThanOrEqual(0.35);
  });
});
