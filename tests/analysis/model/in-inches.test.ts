import fc from 'fast-check';
import { expect, test } from 'vitest';
import { inInches } from '../../../src/analysis/model/in-inches.js';

// An inch is 25.4 mm and a US gallon 231 cubic inches: NIST Handbook 44, Appendix C.
test.each([
  ['Width 460.0 mm', 'Width 18.11 in'],
  ['765.6 × 460 mm', '30.142 × 18.11 in'],
  ['fingers 260 + 200 mm', 'fingers 10.236 + 7.874 in'],
  ['Dies of 6.35, 12.7, 25.4 mm; thicker than 1.27 mm', 'Dies of 0.25, 0.5, 1 in; thicker than 0.05 in'],
  ['lies between 25.4 and 50.8 mm', 'lies between 1 and 2 in'],
  ['76.2 or 50.8 mm', '3 or 2 in'],
  ['sheet 2 of 3, 25.4 mm', 'sheet 2 of 3, 1 in'],
  ['12.7 mL over 64.516 cm2', '0.4294 fl oz over 10 in2'],
  ['0.5 to 1.27 mm', '0.0197 to 0.05 in'],
  ['9.52 mm die of galvanized, 1.006 mm', '0.375 in die of galvanized, 0.0396 in'],
  ['stands at (25.4, 0, -50.8)', 'stands at (1, 0, -2)'],
  ['let p = (25.4, 0, 254) mm', 'let p = (1, 0, 10) in'],
  ['12.7 mm (0.5 in)', '0.5 in (12.7 mm)'],
  ['holds 3.785 L at 2 L/min', 'holds 1 gal at 0.528 gal/min'],
  ['bend to 86.4 deg ± 0.5 deg', 'bend to 86.4 deg ± 0.5 deg'],
  ['645.16 mm2 of 2000 kg/m3', '1 in2 of 2000 kg/m3'],
  ['write `radius 3 mm`, not 25.4 mm', 'write `radius 3 mm`, not 1 in'],
])('%s is told as %s', (metric, inches) => {
  expect(inInches(metric)).toBe(inches);
});

test('a length is the one that was told, as far as that was rounded, and a longer one is not told as shorter', () => {
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 3_000_000 }), fc.integer({ min: 0, max: 4 }), (n, places) => {
      const [a, b] = [n, n + 1].map((value) => (value / 10 ** places).toFixed(places));
      const [x, y] = [a, b].map((text) => Number(inInches(`${text} mm`).split(' ')[0]));
      expect(y).toBeGreaterThanOrEqual(x);
      const rounding = places < 2 ? 0.013 : 0.5 * 10 ** -places;
      expect(Math.abs(x * 25.4 - Number(a))).toBeLessThan(rounding * 1.001);
    }),
  );
});
