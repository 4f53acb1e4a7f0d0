/** The force that bends a flat of sheet: strip and plate against handbook formulas and an independent plate. */
import { describe, expect, it } from 'vitest';
import { pulledWidth, stiffnessOf, type HeldFlat } from '../../src/analysis/material/plate-stiffness.js';
import { materialProperties } from '../../src/analysis/material/properties.js';
import { plateDeflection } from '../support/oracles/plate-ritz.js';

const stainless = materialProperties.stainless;

describe('a strip, F = 3 E I d / L^3 (any handbook of strength of materials; E of stainless 193 GPa)', () => {
  const strip = (thickness: number, free: number): HeldFlat => ({
    metal: { material: 'stainless' },
    thickness,
    width: 100,
    free,
    pulledAt: 'middle',
  });

  it('100 mm wide, 2 mm thick, 150 mm free: 34.31 N close 3 mm (derived by hand)', () => {
    expect(3 * stiffnessOf(strip(2, 150))).toBeCloseTo(34.311, 2);
  });

  it('100 mm wide, 1 mm thick, 200 mm free: 1.2063 N close 2 mm (derived by hand)', () => {
    expect(2 * stiffnessOf(strip(1, 200))).toBeCloseTo(1.20625, 4);
  });
});

describe('a wide plate pulled at its far edge, deflection in P a^2 / D', () => {
  it('gives 0.168 in the middle: Timoshenko and Woinowsky-Krieger, cantilever plates, after Jaramillo (from memory)', () => {
    expect(plateDeflection(4, 0.3, 0, [8, 17])).toBeCloseTo(0.168, 2);
  });

  it('gives 0.416 at a corner, by the independent plate', () => {
    expect(plateDeflection(3, 0.3, 1, [8, 11])).toBeCloseTo(0.416, 3);
  });
});

describe('between narrow and wide', () => {
  const free = 100;
  const rigidity = stainless.youngsModulusMPa.value / (12 * (1 - 0.3 ** 2));
  // Held by the independent plate: at most a twentieth too soft and a quarter too stiff.
  it.each([
    [0.2, 'middle'],
    [0.2, 'corner'],
    [0.5, 'middle'],
    [0.5, 'corner'],
    [1, 'middle'],
    [1, 'corner'],
    [2, 'middle'],
    [2, 'corner'],
    [3, 'middle'],
    [3, 'corner'],
  ] as const)('width %d of the free length, pulled at the %s', (share, pulledAt) => {
    const told = stiffnessOf({ metal: { material: 'stainless' }, thickness: 1, width: share * free, free, pulledAt });
    const deflection = plateDeflection(share, 0.3, pulledAt === 'middle' ? 0 : 1, [7, 11]);
    const ratio = told / (rigidity / (deflection * free ** 2));
    expect(ratio).toBeGreaterThan(0.95);
    expect(ratio).toBeLessThan(1.25);
  });

  it('a pull reaches no wider than the flat', () => {
    expect(pulledWidth({ metal: { material: 'stainless' }, width: 40, free: 100, pulledAt: 'corner' })).toBe(40);
    expect(pulledWidth({ metal: { material: 'stainless' }, width: 900, free: 100, pulledAt: 'corner' })).toBeCloseTo(
      88.1,
      1,
    );
  });
});
