/** Material numbers and smallest bend radii against printed ones. */
import { describe, expect, it } from 'vitest';
import { minimumRadiusOf, steelRadius } from '../../src/analysis/material/minimum-radius.js';
import { massOf, materialProperties, propertiesOf } from '../../src/analysis/material/properties.js';
import type { Material } from '../../src/analysis/model/tub.js';

const deg = (degrees: number): number => (degrees * Math.PI) / 180;

/** Density kg/m3, Young's modulus GPa, Poisson's ratio, yield and tensile strength MPa. */
type Row = readonly [density: number, modulus: number, poisson: number, yields: number, tensile: number];

describe('what each sheet is taken to be', () => {
  // Steel: yield at most 280 and tensile strength up to 410 MPa, DC01, EN 10139 / EN 10130 tables of two stockists (found).
  // Galvanized: DX51D+Z up to 500 MPa, EN 10346 (from memory); its yield as DC01. All others: handbook values, from memory.
  it.each<[Material, ...Row]>([
    ['steel', 7850, 205, 0.3, 280, 410],
    ['galvanized', 7850, 205, 0.3, 280, 500],
    ['stainless', 7930, 193, 0.3, 290, 720],
    ['aluminium', 2680, 70.3, 0.33, 193, 265],
    ['copper', 8940, 117, 0.34, 250, 300],
    ['brass', 8530, 110, 0.35, 275, 420],
  ])('%s: %d kg/m3, %d GPa, %d, yield %d, tensile %d MPa', (material, ...row) => {
    const { densityKgM3, youngsModulusMPa, poissonsRatio, yieldMPa, tensileMPa } = materialProperties[material];
    expect([
      densityKgM3.value,
      youngsModulusMPa.value / 1000,
      poissonsRatio.value,
      yieldMPa.value,
      tensileMPa.value,
    ]).toEqual(row);
  });

  it('tensile strength of 304 lies in 580 to 1180 MPa, annealed to cold-worked, material comparison pages (found)', () => {
    const { value } = materialProperties.stainless.tensileMPa;
    expect(value).toBeGreaterThanOrEqual(580);
    expect(value).toBeLessThanOrEqual(1180);
  });

  it('304 agrees with the two-figure 7.8 g/cm3 of material comparison pages (found)', () => {
    expect(Math.abs(materialProperties.stainless.densityKgM3.value / 1000 - 7.8)).toBeLessThanOrEqual(0.15);
  });

  it('1 m2 of 1 mm steel weighs 7.85 kg (arithmetic)', () => {
    expect(massOf({ material: 'steel' }, 1e6 * 1)).toBeCloseTo(7.85, 3);
  });

  it('a 4 x 10 ft sheet of 16 ga steel weighs within 3 % of 100 lb', () => {
    const pounds = massOf({ material: 'steel' }, 1219.2 * 3048 * 0.0598 * 25.4) / 0.45359237;
    expect(Math.abs(pounds / 100 - 1)).toBeLessThan(0.03);
  });
});

describe('grades', () => {
  // DC01 and DC04: tensile strength found in EN 10130 / EN 10139 tables; the rest handbook values, from memory: density, modulus, yield, upper end of the tensile strength.
  it.each([
    ['steel', 'DC01', 7850, 205_000, 280, 410],
    ['steel', 'DC03', 7850, 205_000, 240, 370],
    ['steel', 'DC04', 7850, 205_000, 210, 370],
    ['steel', 'S235JR', 7850, 205_000, 235, 510],
    ['steel', 'S355', 7850, 205_000, 355, 630],
    ['galvanized', 'DX52D', 7850, 205_000, 300, 420],
    ['galvanized', 'DX53D', 7850, 205_000, 260, 380],
    ['stainless', '316', 7980, 193_000, 290, 720],
    ['stainless', '316L', 7980, 193_000, 290, 720],
    ['aluminium', '5052-O', 2680, 70_300, 90, 215],
    ['aluminium', '5052-H34', 2680, 70_300, 215, 285],
    ['aluminium', '3003-H14', 2730, 70_300, 145, 180],
    ['aluminium', '6061-O', 2700, 68_900, 55, 150],
    ['aluminium', '6061-T4', 2700, 68_900, 145, 240],
    ['aluminium', '6061-T6', 2700, 68_900, 276, 310],
  ] as const)('%s %s', (material, grade, density, modulus, least, tensile) => {
    const found = propertiesOf({ material, grade });
    expect(found.grade).toBe(grade);
    expect(
      [found.densityKgM3, found.youngsModulusMPa, found.yieldMPa, found.tensileMPa].map(({ value }) => value),
    ).toEqual([density, modulus, least, tensile]);
  });

  it('a strength that is stated is reckoned with, the yield in its measure', () => {
    const { tensileMPa, yieldMPa, grade } = propertiesOf({ material: 'galvanized', tensileMPa: 600 });
    expect([tensileMPa.value, yieldMPa.value, grade]).toEqual([600, (280 * 600) / 500, '600 MPa as stated']);
  });

  it('one that is not known is judged by the strongest that is', () => {
    expect(propertiesOf({ material: 'aluminium', grade: '7075-T6' }).tensileMPa.value).toBe(310);
  });
});

describe('smallest inside radius', () => {
  const steel = (thickness: number, grain: 'any' | 'along bends' = 'any', angle = 90): number =>
    minimumRadiusOf({ metal: { material: 'steel' }, thickness, angle: deg(angle), grain }).value;

  // DIN 6935 (1975-10) by tensile strength in MPa, as quoted in a trade-school worksheet (found); thickness up to.
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
    // The rows that the worksheet does not quote: from memory.
    [390, 1.5, 1.6],
    [390, 6, 8],
    [390, 7, 10],
    [390, 10, 16],
    [390, 12, 20],
    [490, 1, 1.2],
    [490, 3, 4],
    [490, 10, 20],
    [490, 12, 25],
    [640, 1, 1.6],
    [640, 3, 5],
    [640, 8, 16],
    [640, 10, 20],
    [640, 12, 25],
  ])('steel of up to %d MPa and %d mm bends at %d mm', (strength, thickness, radius) => {
    expect(steelRadius(strength, thickness, 0)).toBe(radius);
  });

  it.each<Material>(['steel', 'galvanized'])('%s is as strong for its radius as for its force', (material) => {
    const { tensileMPa } = materialProperties[material];
    for (const thickness of [0.8, 1.2, 1.5, 2, 3, 4, 6])
      expect(minimumRadiusOf({ metal: { material }, thickness, angle: deg(90), grain: 'any' }).value).toBe(
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
    const { value } = minimumRadiusOf({ metal: { material: 'aluminium' }, thickness, angle: deg(90), grain: 'any' });
    expect(value / thickness).toBeCloseTo(multiple, 9);
  });

  // Annealed 304, half-hard copper, quarter to half hard 70/30 brass: common practice, no source.
  it.each<Material>(['stainless', 'copper', 'brass'])('%s is taken to bend at its thickness', (material) => {
    const { value } = minimumRadiusOf({ metal: { material }, thickness: 1.2, angle: deg(90), grain: 'any' });
    expect(value).toBeCloseTo(1.2, 9);
  });

  it('304 lies in the trade range of 0.5 to 1.5 thicknesses (common practice, no source)', () => {
    const { value } = minimumRadiusOf({
      metal: { material: 'stainless' },
      thickness: 1.2,
      angle: deg(90),
      grain: 'any',
    });
    expect(value).toBeGreaterThanOrEqual(0.6);
    expect(value).toBeLessThanOrEqual(1.8);
  });

  it('mild steel is near one thickness (common practice, no source)', () => {
    expect(Math.abs(steel(1.2) / 1.2 - 1)).toBeLessThanOrEqual(0.35);
  });
});
