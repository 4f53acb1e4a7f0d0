import { describe, expect, test } from 'vitest';
import { placesBetween, ticksOf } from '../../src/extension/webview/choices/scale.js';

describe('the axes of the choices', () => {
  test('the least number lies at the one end, the most at the other', () => {
    const { at } = placesBetween([195, 215, 200], 70, 470);
    expect([at(195), at(205), at(215)]).toEqual([70, 270, 470]);
    expect(placesBetween([5, 5], 0, 100).at(5)).toBe(50);
  });

  test.each([
    [195, 215, [195, 200, 205, 210, 215]],
    [2.5, 8, [3, 4, 5, 6, 7, 8]],
    [0.0012, 0.0031, [0.0015, 0.002, 0.0025, 0.003]],
    [7, 7, [7]],
  ])('round numbers from %d to %d', (low, high, ticks) => {
    expect(ticksOf(placesBetween([low, high], 0, 100))).toEqual(ticks);
  });
});
