import { describe, expect, it, test } from 'vitest';
import { gradesOf } from '../../src/analysis/material/grades.js';
import { minimumRadiusOf } from '../../src/analysis/material/minimum-radius.js';
import type { Material } from '../../src/analysis/model/tub.js';

const QUARTER = Math.PI / 2;

const least = (material: Material, thickness: number, angle = QUARTER, grain: 'any' | 'along bends' = 'any'): number =>
  minimumRadiusOf({ metal: { material }, thickness, angle, grain }).value;

describe('least inside radius of steel', () => {
  // DIN 6935 (1975-10), smallest permissible bend radius, Rm up to 390 MPa, as quoted in a trade-school worksheet.
  test.each([
    [0.8, 1],
    [2, 2.5],
    [3, 3],
    [4, 5],
    [5, 6],
    [8, 12],
  ])('of %d mm is %d mm up to 120 deg across the grain', (thickness, radius) => {
    expect(least('steel', thickness)).toBe(radius);
  });

  it('takes the next thicker row along the grain and beyond 120 deg', () => {
    // As the worksheet says: along the grain or > 120 deg take the next thickness column.
    expect(least('steel', 2, QUARTER, 'along bends')).toBe(3);
    expect(least('steel', 2, (130 * Math.PI) / 180)).toBe(3);
    expect(least('steel', 2, (120 * Math.PI) / 180)).toBe(2.5);
  });
});

describe('least inside radius of 5052-H32', () => {
  // Recommended minimum bend radii for 90 deg cold bends of sheet and plate, Aluminum Design Manual Part VII (January 2005) table 3-1.
  test.each([
    [25.4 / 32, 0],
    [25.4 / 16, 1],
    [25.4 / 8, 1.5],
    [25.4 / 4, 1.5],
  ])('of %d mm is %d thicknesses', (thickness, multiple) => {
    expect(least('aluminium', thickness) / thickness).toBeCloseTo(multiple, 9);
  });
});

describe('least inside radius by grade', () => {
  const multiple = (grade: string | undefined, inches: number, material: Material = 'aluminium'): number =>
    minimumRadiusOf({ metal: { material, grade }, thickness: inches * 25.4, angle: QUARTER, grain: 'any' }).value /
    (inches * 25.4);

  // The same table, in thicknesses (found); cells that are not among these are from memory.
  test.each([
    ['5052-O', 1 / 32, 0],
    ['5052-O', 1 / 16, 0],
    ['5052-O', 1 / 8, 0.5],
    ['5052-H34', 1 / 32, 1],
    ['5052-H34', 1 / 16, 1.5],
    ['5052-H34', 1 / 8, 2],
    ['3003-H14', 1 / 32, 0],
    ['3003-H14', 1 / 16, 0],
    ['3003-H14', 1 / 4, 1.5],
    ['6061-O', 1 / 32, 0],
    ['6061-O', 1 / 16, 0],
    ['6061-O', 1 / 8, 1],
    ['6061-T4', 1 / 32, 0],
    ['6061-T4', 1 / 16, 1],
    ['6061-T4', 1 / 8, 1.5],
    ['6061-T6', 1 / 32, 1],
    ['6061-T6', 1 / 8, 2.5],
  ])('of %s, %d in, is %d thicknesses', (grade, inches, thicknesses) => {
    expect(multiple(grade, inches)).toBeCloseTo(thicknesses, 9);
  });

  // From memory.
  test.each([
    ['5052-O', 1 / 4, 1],
    ['5052-H34', 1 / 4, 2.5],
    ['3003-H14', 1 / 8, 1],
    ['6061-O', 1 / 4, 1],
    ['6061-T4', 1 / 4, 2.5],
    ['6061-T6', 1 / 16, 1.5],
    ['6061-T6', 1 / 4, 3.5],
  ])('of %s, %d in, is %d thicknesses, from memory', (grade, inches, thicknesses) => {
    expect(multiple(grade, inches)).toBeCloseTo(thicknesses, 9);
  });

  it('of a grade that is not known is the largest of those that are', () => {
    const known = gradesOf('aluminium').map((grade) => multiple(grade, 1 / 8));
    expect(multiple('7075-T6', 1 / 8)).toBeCloseTo(Math.max(...known), 9);
    expect(multiple(undefined, 1 / 8)).toBeCloseTo(multiple('5052-H32', 1 / 8), 9);
  });

  it('of aluminium whose strength alone is stated is that of a grade as strong', () => {
    const stated = (tensileMPa: number): number =>
      minimumRadiusOf({
        metal: { material: 'aluminium', tensileMPa },
        thickness: 25.4 / 8,
        angle: QUARTER,
        grain: 'any',
      }).value /
      (25.4 / 8);
    // As 6061-O up to 150 MPa, 5052-H32 up to 265, 6061-T6 up to 310 and beyond.
    expect([stated(140), stated(265), stated(310), stated(400)].map((each) => Number(each.toFixed(9)))).toEqual([
      1, 1.5, 2.5, 2.5,
    ]);
  });

  it('of galvanized sheet goes by the strength that is stated', () => {
    // DIN 6935, over 490 up to 640 MPa, over 1.5 up to 2.5 mm: 4 mm; up to 390 MPa 2.5 mm (found).
    const least2 = (tensileMPa: number): number =>
      minimumRadiusOf({ metal: { material: 'galvanized', tensileMPa }, thickness: 2.5, angle: QUARTER, grain: 'any' })
        .value;
    expect([least2(600), least2(390)]).toEqual([4, 2.5]);
  });
});

describe('least inside radius of 304', () => {
  it('lies in the range of the trade rule', () => {
    // 0.5 to 1.5 thicknesses, annealed: common practice, no source.
    expect(least('stainless', 1.5) / 1.5).toBeGreaterThanOrEqual(0.5);
    expect(least('stainless', 1.5) / 1.5).toBeLessThanOrEqual(1.5);
  });

  it('is half of what a design-book table asks for: the sources disagree', () => {
    // Industrial design-book page "Sheet bending": 304, 0.063 in: 0.125 in, 2.0 thicknesses.
    expect(least('stainless', 0.063 * 25.4) / (0.125 * 25.4)).toBeCloseTo(0.5, 1);
  });
});
