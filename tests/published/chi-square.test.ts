import { expect, test } from 'vitest';
import { chiSquareAbove } from '../../src/analysis/geometry/fitting/chi-square.js';

// A statistical table printed in a university examination paper.
test.each([
  [1, 0.05, 3.84146],
  [5, 0.05, 11.0705],
  [10, 0.05, 18.30704],
  [10, 0.025, 20.48318],
  [10, 0.975, 3.24697],
  [4, 0.975, 0.48442],
  [14, 0.05, 23.68479],
])('of %d degrees a share of %d lies above %d', (freedom, share, value) => {
  expect(chiSquareAbove(value, freedom)).toBeCloseTo(share, 5);
});

test('of two degrees it is exp(-x / 2), of one twice the tail of the normal curve', () => {
  for (const x of [0.01, 0.5, 3, 9, 40, 200]) expect(chiSquareAbove(x, 2) / Math.exp(-x / 2)).toBeCloseTo(1, 9);
  // 3 sigma: 0.0026998.
  expect(chiSquareAbove(9, 1)).toBeCloseTo(0.0026998, 7);
  expect(chiSquareAbove(0, 3)).toBe(1);
});
