import { describe, expect, it } from 'vitest';
import { overbendBand, overbendOf, springbackRatio } from '../../src/analysis/material/springback.js';

describe('springback', () => {
  it('is that of the textbook example', () => {
    // S. Kalpakjian & S. Schmid, Manufacturing Processes for Engineering Materials, springback example, 20-gage steel
    // sheet (from memory): Ri 0.5 in, Y 40 000 psi, E 29e6 psi, T 0.0359 in: Ri / Rf = 0.942, Rf = 0.531 in.
    const ratio = springbackRatio({ radius: 0.5, thickness: 0.0359, yieldMPa: 40_000, modulusMPa: 29e6 });
    expect(ratio).toBeCloseTo(0.942, 3);
    expect(0.5 / ratio).toBeCloseTo(0.531, 3);
    // … and the tool has to bend 95.4 deg for 90 deg: 90 (2 Rf + T) / (2 Ri + T); +- 0.2 deg.
    expect(Math.abs((90 * (2 * (0.5 / ratio) + 0.0359)) / (2 * 0.5 + 0.0359) - 95.4)).toBeLessThan(0.2);
  });

  it('agrees with the formula evaluated by hand', () => {
    // Derived: Gardiner's formula with handbook values.
    expect(springbackRatio({ radius: 1.5, thickness: 1.5, yieldMPa: 290, modulusMPa: 193_000 })).toBeCloseTo(
      0.99549,
      5,
    );
    expect(springbackRatio({ radius: 2, thickness: 1.5, yieldMPa: 193, modulusMPa: 70_300 })).toBeCloseTo(0.98902, 4);
    expect(springbackRatio({ radius: 1.5, thickness: 1.5, yieldMPa: 200, modulusMPa: 205_000 })).toBeCloseTo(
      0.99707,
      5,
    );
  });

  it('asks for about the overbend that the springback factor of DC01 gives', () => {
    // Springback factor kR = 0.96 for DC01 at r / s = 10: 90 / 0.96 = 93.75 deg (table factor, evaluated).
    const { bendTo } = overbendOf({ metal: { material: 'steel' }, thickness: 1, radius: 10, angle: Math.PI / 2 });
    expect(Math.abs((bendTo * 180) / Math.PI - 93.75)).toBeLessThan(1);
  });

  it('leaves the radius and the angle that were asked for', () => {
    for (const material of ['steel', 'stainless', 'aluminium', 'copper', 'brass', 'galvanized'] as const) {
      const [thickness, radius, angle] = [1.2, 2.5, 1.3];
      const { loadedRadius, bendTo } = overbendOf({ metal: { material }, thickness, radius, angle });
      expect(loadedRadius).toBeLessThan(radius);
      expect(bendTo).toBeGreaterThan(angle);
      expect((bendTo * (2 * loadedRadius + thickness)) / (2 * radius + thickness)).toBeCloseTo(angle, 9);
    }
  });

  it('never asks for more than can be set, however springy the sheet is', () => {
    const { loadedRadius, bendTo } = overbendOf({
      metal: { material: 'stainless' },
      thickness: 0.5,
      radius: 400,
      angle: 1,
    });
    expect(loadedRadius).toBeLessThanOrEqual(400);
    expect(Number.isFinite(bendTo)).toBe(true);
  });

  // Springback factors of stainless (18 % Cr, 8 % Ni) by r/s, German trade table book, from memory, to two figures.
  it.each([
    [1, 0.99],
    [1.6, 0.98],
    [2.5, 0.97],
    [4, 0.95],
    [6.3, 0.93],
    [10, 0.89],
    [16, 0.84],
    [25, 0.76],
  ])('of stainless lies in the band at r/s = %d, whose table factor is %d', (ratio, factor) => {
    const thickness = 1.2;
    const angle = Math.PI / 2;
    const { least, most } = overbendBand({
      metal: { material: 'stainless' },
      thickness,
      radius: ratio * thickness,
      angle,
      opening: undefined,
    });
    expect(least).toBeLessThanOrEqual(angle / (factor - 0.005));
    expect(most).toBeGreaterThanOrEqual(angle / (factor + 0.005));
  });

  it('of stainless over a die reaches what shops allow for, 2 to 3 deg at 90 deg (common practice, no source)', () => {
    const band = overbendBand({
      metal: { material: 'stainless' },
      thickness: 1.2,
      radius: 2,
      angle: Math.PI / 2,
      opening: 10,
    });
    const [least, most] = [band.least, band.most].map((angle) => (angle * 180) / Math.PI - 90);
    expect(least).toBeLessThan(1);
    expect(most).toBeGreaterThan(2);
    expect(most).toBeLessThan(5);
  });
});
