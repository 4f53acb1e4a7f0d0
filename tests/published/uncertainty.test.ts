/** Linear propagation against worked examples; values as printed by the worked pages of an open library of uncertainties. */
import { describe, expect, it, test } from 'vitest';
import { propagated } from '../../src/analysis/geometry/propagation.js';

describe('GUM (JCGM 100:2008), annex H.1: a gauge block', () => {
  // l = (ls (1 + as th) + d) / (1 + a th): the block against a standard of 50 000 623 nm, as differences of expansion and temperature.
  const [standard, expansion, mean] = [50_000_623, 1.15e-5, -0.1];
  const length = ([ls, d, dExpansion, theta, dTheta]: readonly number[]): number[] => [
    ls + d - ls * (dExpansion * theta + expansion * dTheta),
  ];
  const x = [standard, 215, 0, mean, 0];
  const uniform = (half: number): number => half / Math.sqrt(3);
  // Three causes of the comparator; the temperature of the bench 0.2 and a cycle of half range 0.5, arcsine.
  const u = [25, Math.hypot(5.8, 3.9, 6.7), uniform(1e-6), Math.hypot(0.2, 0.5 / Math.SQRT2), uniform(0.05)];
  const alone = (i: number): number =>
    propagated(
      length,
      x,
      u.map((each, k) => (k === i ? each : 0)),
    )[0];

  it('has 32 nm, and the components that are printed', () => {
    expect(Math.abs(propagated(length, x, u)[0] - 32)).toBeLessThanOrEqual(0.5);
    expect(Math.abs(alone(4) - 16.599)).toBeLessThanOrEqual(0.002);
    expect(Math.abs(alone(2) - 2.88679)).toBeLessThanOrEqual(5e-4);
  });

  it('has 16.5 degrees of freedom by Welch and Satterthwaite', () => {
    // Degrees of freedom: standard 18; comparator 24, 5, 8; expansion 50, temperature difference 2 (from memory).
    const parts = [
      [25, 18],
      [5.8, 24],
      [3.9, 5],
      [6.7, 8],
      [alone(2), 50],
      [alone(4), 2],
    ];
    const all = propagated(length, x, u)[0];
    const freedom = all ** 4 / parts.reduce((sum, [part, of]) => sum + part ** 4 / of, 0);
    expect(Math.abs(freedom - 16.5)).toBeLessThanOrEqual(0.3);
  });
});

describe('GUM, annex H.2: resistance and reactance, measured together', () => {
  const impedance = ([volt, ampere, phase]: readonly number[]): [number, number, number] => {
    const z = volt / ampere;
    return [z * Math.cos(phase), z * Math.sin(phase), z];
  };
  const x = [4.999, 0.019661, 1.04446];
  const u = [0.0032, 9.5e-6, 0.00075];
  const R = [
    [1, -0.36, 0.86],
    [-0.36, 1, -0.65],
    [0.86, -0.65, 1],
  ];
  const of = (results: (at: readonly number[]) => readonly number[]): readonly number[] =>
    propagated(results, x, u, (i, j) => R[i][j]);
  const [uR, uX, uZ] = of(impedance);

  it('has the uncertainties that are printed', () => {
    expect(Math.abs(impedance(x)[1] - 219.85)).toBeLessThanOrEqual(0.006);
    expect(Math.abs(uR - 0.07)).toBeLessThanOrEqual(0.0006);
    expect(Math.abs(uX - 0.3)).toBeLessThanOrEqual(0.005);
    expect(Math.abs(uZ - 0.24)).toBeLessThanOrEqual(0.005);
  });

  it.each([
    ['R and X', 0, 1, -0.59],
    ['R and Z', 0, 2, -0.49],
    ['X and Z', 1, 2, 0.99],
  ] as const)('%s hang together as printed', (_, a, b, printed) => {
    const [sum] = of((at) => [impedance(at)[a] + impedance(at)[b]]);
    const [ua, ub] = [[uR, uX, uZ][a], [uR, uX, uZ][b]];
    expect(Math.abs((sum ** 2 - ua ** 2 - ub ** 2) / (2 * ua * ub) - printed)).toBeLessThanOrEqual(0.006);
  });
});

describe('EURACHEM/CITAC Guide, example A1: a calibration standard', () => {
  it('has the uncertainty that is printed, from even, triangular and normal inputs', () => {
    const concentration = ([purity, mass, volume]: readonly number[]): number[] => [(1000 * mass * purity) / volume];
    const ofVolume = Math.hypot(0.1 / Math.sqrt(6), 0.02, 0.084 / Math.sqrt(3));
    const [has] = propagated(concentration, [0.9999, 100.28, 100], [0.0001 / Math.sqrt(3), 0.05, ofVolume]);
    expect(Math.abs(has - 0.835199)).toBeLessThanOrEqual(1e-4);
  });
});

// No factor of coverage by degrees of freedom is told (Student's, or the 93 nm of H.1.6): what is told is one standard deviation or two.
test('Mikhail and Ackermann, example 4.3 (solved in the reference): a sum of unknowns whose observations hang together', () => {
  // y = (2 x1 + x2, x1 + 2 x2) with variances of 3 and a covariance of 1.
  const sum = ([a, b]: readonly number[]): number[] => [(2 * a - b) / 3 + (2 * b - a) / 3];
  const [has] = propagated(sum, [1, 1], [Math.sqrt(3), Math.sqrt(3)], () => 1 / 3);
  expect(has ** 2).toBeCloseTo(0.888888889, 8);
});
