import { expect, test } from 'vitest';
import { analyseText } from '../../support/analyse-text.js';

/** Findings of a tray whose front and back are said to be rims, by heights; its left and right walls are not. */
const lowEdgesWith = (front: number, back: number, sides: number): number =>
  analyseText(`units mm
sheet skin = stainless thickness 1.2 radius 1.2
point A = (0, 0, 0)
point B = (300, 0, 0)
point C = (300, 200, 0)
point D = (0, 200, 0)
panel base of skin = A B C D
flange front on base[A B] turned up 90 deg by ${front}
flange right on base[B C] turned up 90 deg by ${sides}
flange back on base[C D] turned up 90 deg by ${back}
flange left on base[D A] turned up 90 deg by ${sides}
rim front.end
rim back.end
`).findings.filter(({ code, about }) => code === 'seal/low-free-edge' && /left|right/.test(about.join())).length;

test('the lowest of all rims is what a free edge is to reach', () => {
  expect(lowEdgesWith(100, 140, 120)).toBe(0);
  expect(lowEdgesWith(140, 100, 120)).toBe(0);
  expect(lowEdgesWith(130, 140, 100)).toBe(2);
  // A millimetre short is a rim that is a little out, more is not.
  expect(lowEdgesWith(100.9, 140, 100)).toBe(0);
  expect(lowEdgesWith(101.1, 140, 100)).toBe(2);
});
