import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fitInBend, largestRadiusFor } from '../../../../src/analysis/join/tabs/edge-fit.js';

const RIGHT = Math.PI / 2;

describe('the edge of a panel in the bend of a clip', () => {
  // By hand, at 90 deg: R 1.6, edge T 1.2 less an inset of 0.8 from the corner: 1.2 along, R - sqrt(R2 - 1.2^2) = 0.5417 across.
  it('is bevelled from the tangent point to where the arc meets the edge', () => {
    const fit = fitInBend({ angle: RIGHT, radius: 1.6, thickness: 1.2, from: 0.4 });
    expect(fit?.along).toBeCloseTo(1.2, 9);
    expect(fit?.across).toBeCloseTo(1.6 - Math.sqrt(1.6 ** 2 - 1.2 ** 2), 9);
    expect(fit?.back).toBe(0);
  });

  it('stays square where the bend is sharp enough', () => {
    expect(fitInBend({ angle: RIGHT, radius: 1.2, thickness: 1.2, from: 1.2 })).toBeUndefined();
  });

  // By hand, a tab at 90 deg: R 3, T 1.2, the edge in the corner: R - sqrt(R2 - (R - T)2) = 0.6 back.
  it('stands back where no bevel leaves its wet side in the corner', () => {
    const fit = fitInBend({ angle: RIGHT, radius: 3, thickness: 1.2, from: 0 });
    expect(fit?.back).toBeCloseTo(0.6, 9);
    expect(largestRadiusFor({ angle: RIGHT, thickness: 1.2, from: 0 })).toBeCloseTo(1.2, 6);
  });

  it('once bevelled and set back lies within the arc, which it touches', () => {
    const real = (min: number, max: number): fc.Arbitrary<number> => fc.double({ min, max, noNaN: true });
    fc.assert(
      fc.property(real(0.5, 2.1), real(0.5, 10), real(0.6, 5), real(-1, 6), (angle, radius, thickness, from) => {
        const fit = fitInBend({ angle, radius, thickness, from });
        const tangent = radius * Math.tan(angle / 2);
        if (!fit) {
          expect(from).toBeGreaterThan(tangent - 2e-3);
          return;
        }
        expect(radius <= largestRadiusFor({ angle, thickness, from }) + 1e-6).toBe(fit.back < 1e-6);
        // The corners that the bevel leaves, seen from the axis: none farther than R within the turn of the bend.
        const corners = [
          [tangent, 0],
          [from + fit.back, fit.across],
          [from + fit.back, thickness],
        ];
        for (const [u, v] of corners) {
          const turn = Math.atan2(tangent - u, radius - v);
          if (turn > 1e-9 && turn < angle - 1e-9)
            expect(Math.hypot(tangent - u, radius - v)).toBeLessThan(radius + 1e-6);
        }
      }),
      { seed: 3, numRuns: 400 },
    );
  });
});
