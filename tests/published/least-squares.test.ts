/** Fits against certified and published outcomes; where an outcome was derived and not printed, it says so. */
import { describe, expect, it, test } from 'vitest';
import { fitResiduals } from '../../src/analysis/geometry/fitting/fit.js';
import { leastSquares, type LinearFit } from '../../src/analysis/geometry/fitting/least-squares.js';
import {
  DANWOOD,
  GUM_H3,
  LONGLEY,
  MISRA1A,
  NOINT1,
  NOINT2,
  NORRIS,
  PONTIUS,
} from '../support/oracles/published-observations.js';

const fitOf = (rows: readonly (readonly number[])[], y: readonly number[]): LinearFit => {
  const outcome = leastSquares(rows, y);
  if (!('fit' in outcome)) throw new Error(`unknown ${outcome.open} is open`);
  return outcome.fit;
};

const deviationOf = ({ sumOfSquares, freedom }: LinearFit): number => Math.sqrt(sumOfSquares / freedom);
const deviationsOf = (fit: LinearFit): number[] => fit.cofactors.map((row, i) => deviationOf(fit) * Math.sqrt(row[i]));

const near = (has: number, needs: number, share = 1e-9): void =>
  expect(Math.abs(has - needs) / Math.abs(needs)).toBeLessThanOrEqual(share);

describe('linear sets of the NIST StRD, certified values', () => {
  it('Norris', () => {
    const fit = fitOf(
      NORRIS.x.map((x) => [1, x]),
      NORRIS.y,
    );
    near(fit.x[0], -0.262323073774029);
    near(fit.x[1], 1.00211681802045);
    near(deviationsOf(fit)[1], 0.000429796848199937);
    near(deviationOf(fit), 0.884796396144373);
    const mean = NORRIS.y.reduce((sum, y) => sum + y, 0) / NORRIS.y.length;
    const all = NORRIS.y.reduce((sum, y) => sum + (y - mean) ** 2, 0);
    expect(Math.abs(1 - fit.sumOfSquares / all - 0.999993745883712)).toBeLessThan(1e-12);
  });

  it('NoInt1 and NoInt2 (the second solved in exact arithmetic)', () => {
    const one = fitOf(
      NOINT1.x.map((x) => [x]),
      NOINT1.y,
    );
    near(deviationsOf(one)[0], 0.0165289256198347);
    near(deviationOf(one), 3.56753034006338);
    const all = NOINT1.y.reduce((sum, y) => sum + y * y, 0);
    expect(Math.abs(1 - one.sumOfSquares / all - 0.999365492298663)).toBeLessThan(1e-12);
    const two = fitOf(
      NOINT2.x.map((x) => [x]),
      NOINT2.y,
    );
    near(two.x[0], 8 / 11);
    near(deviationsOf(two)[0], 0.042082731807843);
    near(deviationOf(two), 0.369274472937998);
  });

  it('Pontius, whose columns differ by thirteen orders of size', () => {
    const fit = fitOf(
      PONTIUS.x.map((x) => [1, x, x * x]),
      PONTIUS.y,
    );
    near(fit.x[0], 0.000673565789473684);
    near(fit.x[1], 7.32059160401003e-7);
    near(fit.x[2], -3.16081871345029e-15);
    near(deviationsOf(fit)[0], 0.000107938612033077);
  });

  it('Longley, whose columns are all but dependent (solved in exact arithmetic)', () => {
    const fit = fitOf(
      LONGLEY.x.map((row) => [1, ...row]),
      LONGLEY.y,
    );
    near(fit.x[0], -3482258.6345958, 1e-8);
    near(fit.x[1], 15.061872271373, 1e-8);
    near(fit.x[4], -1.0332268671736, 1e-8);
    near(fit.x[6], 1829.1514646136, 1e-8);
    near(deviationOf(fit), 304.85407356196, 1e-8);
  });

  it('an unknown that no row speaks of is named', () => {
    expect(
      leastSquares(
        [
          [1, 0],
          [2, 0],
          [1, 0],
        ],
        [1, 2, 1],
      ),
    ).toEqual({ open: 1 });
    expect(
      leastSquares(
        [
          [1, 2],
          [2, 4],
          [3, 6],
        ],
        [1, 2, 1],
      ),
    ).toEqual({ open: 1 });
    expect(leastSquares([[1, 1]], [2])).toHaveProperty('open');
  });
});

describe('nonlinear sets of the NIST StRD, certified values, from both published starts', () => {
  test.each(MISRA1A.start)('Misra1a from %d, %d', (...start) => {
    const { x, y } = MISRA1A;
    const fit = fitResiduals((b) => x.map((each, i) => b[0] * (1 - Math.exp(-b[1] * each)) - y[i]), start);
    near(fit.x[1], 0.00055015643181, 1e-6);
  });

  test.each(DANWOOD.start)('DanWood from %d, %d', (...start) => {
    const { x, y } = DANWOOD;
    const fit = fitResiduals((b) => x.map((each, i) => b[0] * each ** b[1] - y[i]), start);
    near(fit.x[0], 0.76886226176, 1e-6);
    near(fit.x[1], 3.8604055871, 1e-6);
    near(fit.sumOfSquares, 0.0043173084083, 1e-6);
  });

  it('keeps to its bounds: the least within them', () => {
    const residuals = ([a, b]: readonly number[]): number[] => [a - 3, b + 2, a + b - 5];
    const { x } = fitResiduals(residuals, [0, 0], { low: [0, 0], high: [1.5, 2] });
    // Within 0..1.5 and 0..2 the gradient pushes a up to 1.5; then b + 2 + b - 3.5 = 0.
    expect(x[0]).toBe(1.5);
    expect(x[1]).toBeCloseTo(0.75, 7);
  });
});

describe('GUM annex H.3, and level nets and triangles of Mikhail and Ackermann', () => {
  it('the line of a thermometer, its uncertainties and their correlation', () => {
    const { t_C: t, b_C: b, t0_C: t0 } = GUM_H3;
    const fit = fitOf(
      t.map((each) => [1, each - t0]),
      b,
    );
    const [u1, u2] = deviationsOf(fit);
    expect(fit.x[0]).toBeCloseTo(-0.1712, 4);
    expect(Math.abs(fit.x[1] - 0.00218)).toBeLessThan(5e-6);
    expect(Math.abs(u1 - 0.0029)).toBeLessThan(5e-5);
    expect(Math.abs(u2 - 0.00067)).toBeLessThan(5e-6);
    const { cofactors } = fit;
    expect(cofactors[0][1] / Math.sqrt(cofactors[0][0] * cofactors[1][1])).toBeCloseTo(-0.93, 2);
    const at30 = Math.sqrt(cofactors[0][0] + 20 * cofactors[0][1] + 100 * cofactors[1][1]) * deviationOf(fit);
    expect(fit.x[0] + 10 * fit.x[1]).toBeCloseTo(-0.1494, 4);
    expect(Math.abs(at30 - 0.0041)).toBeLessThan(5e-5);
  });

  it('a level net of eight runs (table 7.1, exercise 7.11: observations found, solved in the reference)', () => {
    const runs = ['AB', 'BC', 'CA', 'BD', 'DE', 'EC', 'EA', 'CD'];
    const dist = [18.1, 9.4, 14.2, 17.6, 13.5, 9.9, 13.8, 14];
    const rise = [25.42, 10.34, -35.2, -15.54, 21.32, 4.82, -31.02, -26.11];
    const weight = dist.map((each) => 1 / Math.sqrt(0.1 * each));
    const rows = runs.map(([from, to], i) =>
      ['B', 'C', 'D', 'E'].map((point) => weight[i] * (Number(to === point) - Number(from === point))),
    );
    const known = runs.map(([from, to]) => 800 * (Number(to === 'A') - Number(from === 'A')));
    const fit = fitOf(
      rows,
      rise.map((each, i) => weight[i] * (each - known[i])),
    );
    [825.2206, 835.5354, 809.5339, 830.846].forEach((needs, i) =>
      expect(Math.abs(fit.x[i] - needs)).toBeLessThan(1e-4),
    );
    near(fit.sumOfSquares / fit.freedom, 0.040428, 1e-4);
  });

  it('angles of a triangle, one of them read twice (example 10.3: observations found, solved in the reference)', () => {
    // Minutes over 60 deg of A, A again, B, C; C follows from the sum.
    const fit = fitOf(
      [
        [1, 0],
        [1, 0],
        [0, 1],
        [-1, -1],
      ],
      [0, 2, 0, 1],
    );
    expect(-fit.residuals[0]).toBeCloseTo(0.6, 6);
    expect(-fit.residuals[1]).toBeCloseTo(-1.4, 6);
  });

  it('a point by three lengths in the plane (example 9.1: observations found, solved in the reference)', () => {
    const from = [
      [0, 5],
      [0, 0],
      [5, 0],
    ];
    const lengths = [5.1, 7.07, 4.9];
    const fit = fitResiduals(([x, y]) => from.map(([a, b], i) => Math.hypot(x - a, y - b) - lengths[i]), [4, 4]);
    expect(Math.abs(fit.x[1] - 4.89863)).toBeLessThan(1e-5);
    expect(Math.abs(fit.sumOfSquares - 5.7e-7)).toBeLessThan(1e-7);
  });

  it('angles of a triangle, a cube, a turn and scale (examples 7.1, 8.2, 7.8: observations found, solved in the reference)', () => {
    // Seconds over 40-19-02, 70-30-01, 69-11-00, of which the third follows from the sum.
    const angles = fitOf(
      [
        [1, 0],
        [0, 1],
        [-1, -1],
      ],
      [0, 0, 3],
    );
    for (const residual of angles.residuals) expect(residual).toBeCloseTo(1, 9);
    const [edge] = fitOf([[1], [1], [1]], [50, 50.2, 49.8]).x;
    expect(edge ** 3).toBeCloseTo(125_000, 3);
    // What is measured is x = (p y1 + q y2, p y2 - q y1); a = p / (p2 + q2), b = q / (p2 + q2).
    const y = [
      [-2.1, 1.1],
      [1, 2],
      [-0.9, 2.8],
    ];
    const [p, q] = fitOf(
      y.flatMap(([a, b]) => [
        [a, b],
        [b, -a],
      ]),
      [0, 1, 1, 0, 1, 1],
    ).x;
    expect(Math.abs(p / (p * p + q * q) - 1.003123)).toBeLessThan(2e-6);
    expect(Math.abs(q / (p * p + q * q) - 1.956091)).toBeLessThan(2e-6);
  });

  it('lines and parabolas of textbooks (Sastry 4.2, Miller and Freund p. 324, from their Python companions)', () => {
    const line = fitOf(
      [0, 2, 5, 7].map((x) => [1, x]),
      [-1, 5, 12, 20],
    );
    expect(line.x[0]).toBeCloseTo(-1.1379, 4);
    expect(line.x[1]).toBeCloseTo(2.8966, 4);
    const parabola = fitOf(
      [0, 1, 2, 3, 4, 5, 6, 7, 8].map((x) => [1, x, x * x]),
      [12, 10.5, 10, 8, 7, 8, 7.5, 8.5, 9],
    );
    expect(Math.abs(parabola.x[0] - 12.2)).toBeLessThan(0.06);
    expect(Math.abs(parabola.x[1] + 1.85)).toBeLessThan(0.006);
    expect(Math.abs(parabola.x[2] - 0.183)).toBeLessThan(6e-4);
  });
});
