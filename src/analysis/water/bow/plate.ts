/** How a flat rectangle of sheet bends under liquid, by the energy of thin plates. mm, N, MPa. */
import { NOISE } from '../../geometry/tolerance.js';
import { derivative, gauss, legendre, power, product, valueAt, type Polynomial, type Station } from './polynomials.js';

/** How an edge is held: built in, held but free to turn, or not at all. */
export type EdgeHold = 'fixed' | 'hinged' | 'free';

export interface Plate {
  readonly width: number;
  /** Up the slope. */
  readonly height: number;
  readonly thickness: number;
  readonly youngsModulus: number;
  readonly poisson: number;
  readonly edges: Readonly<Record<'left' | 'right' | 'bottom' | 'top', EdgeHold>>;
  /** mm4, of a flange or hem along the top about the plane of the plate. */
  readonly stiffener: number;
  /** Pressure at the bottom, MPa, and by how much it falls for each mm up, down to nothing at the level. */
  readonly pressure: { readonly bottom: number; readonly fall: number };
}

export interface BentPlate {
  /** mm, at a share of the width from the left and of the height from the bottom. */
  readonly deflection: (x: number, y: number) => number;
  /** N mm/mm, in strips across (`x`) and up (`y`) the plate. */
  readonly moments: (x: number, y: number) => { readonly x: number; readonly y: number };
  /** mm3 between the plate and its own plane, as far as it is under pressure. */
  readonly volume: number;
  /** mm. */
  readonly most: number;
}

const ACROSS = 9;
const UP = 8;
const STATIONS = 16;

/**
 * Deflection w as a sum of products of polynomials that keep to the edges, with the least energy
 * D/2 (wxx2 + wyy2 + 2 nu wxx wyy + 2 (1 - nu) wxy2) + E I/2 wxx2 along the top - p w, D = E t3 / (12 (1 - nu2)). Undefined where
 * nothing holds it. Linear: from half the thickness on membrane forces hold it as well, so it bows less than told.
 * Source: S. Timoshenko, S. Woinowsky-Krieger, Theory of Plates and Shells, 2nd ed., energy of bending (from memory); W. Ritz 1909.
 */
export const bend = (plate: Plate): BentPlate | undefined => {
  const { width, height, thickness, youngsModulus, poisson, pressure } = plate;
  const rigidity = (youngsModulus * thickness ** 3) / (12 * (1 - poisson ** 2));
  const { x, y, energy } = stiffnessOf(plate, rigidity);
  const wet = pressure.fall > 0 ? Math.min(1, pressure.bottom / pressure.fall / height) : 1;
  const under = gauss(STATIONS, 0, wet);
  const pressureAt = (at: number): number => Math.max(0, pressure.bottom - pressure.fall * at * height);
  const over = x.map(([p]) => integral(ACROSS_STATIONS, (at) => valueAt(p, at)) * width);
  const push = y.map(([p]) => integral(under, (at) => pressureAt(at) * valueAt(p, at)) * height);
  const loads = x.flatMap((_, i) => y.map((__, j) => over[i] * push[j]));
  const found = solve(energy, loads);
  if (!found) return undefined;
  const sum = (at: number, up: number, dx: number, dy: number): number =>
    x.reduce((total, fx, i) => {
      const value = valueAt(fx[dx], at);
      return y.reduce((all, fy, j) => all + found[i * y.length + j] * value * valueAt(fy[dy], up), total);
    }, 0);
  const deflection = (at: number, up: number): number => sum(at, up, 0, 0);
  const moments = (at: number, up: number): { x: number; y: number } => {
    const [wxx, wyy] = [sum(at, up, 2, 0) / width ** 2, sum(at, up, 0, 2) / height ** 2];
    return { x: -rigidity * (wxx + poisson * wyy), y: -rigidity * (wyy + poisson * wxx) };
  };
  const below = y.map(([p]) => integral(under, (at) => valueAt(p, at)) * height);
  const volume = x.reduce(
    (all, _, i) => y.reduce((s, __, j) => s + found[i * y.length + j] * over[i] * below[j], all),
    0,
  );
  return { deflection, moments, volume, most: largest(x, y, found) };
};

const GRID = 40;

/** The largest deflection at even places of the plate. */
const largest = (x: readonly Shape[], y: readonly Shape[], found: readonly number[]): number => {
  const places = Array.from({ length: GRID + 1 }, (_, i) => i / GRID);
  const up = places.map((at) => y.map(([p]) => valueAt(p, at)));
  let most = 0;
  for (const at of places) {
    const values = x.map(([p]) => valueAt(p, at));
    const across = y.map((_, j) => values.reduce((sum, value, i) => sum + value * found[i * y.length + j], 0));
    for (const row of up)
      most = Math.max(
        most,
        row.reduce((sum, value, j) => sum + value * across[j], 0),
      );
  }
  return most;
};

/** A function and its first two derivatives, over shares of the length. */
type Shape = readonly [Polynomial, Polynomial, Polynomial];

const ORDER: Readonly<Record<EdgeHold, number>> = { fixed: 2, hinged: 1, free: 0 };

/** Functions on [0, 1] that vanish at the ends as these are held. */
const shapesOf = (count: number, from: EdgeHold, to: EdgeHold, isAlike: boolean): readonly Shape[] => {
  const ends = product(power([0, 1], ORDER[from]), power([1, -1], ORDER[to]));
  const all = legendre(count);
  // What is held alike on both sides bends alike on both.
  return (isAlike ? all.filter((_, i) => i % 2 === 0) : all).map((p): Shape => {
    const inUnits = p.reduce<Polynomial>((sum, c, i) => added(sum, power([-1, 2], i), c), [0]);
    const whole = product(ends, inUnits);
    const slope = derivative(whole);
    return [whole, slope, derivative(slope)];
  });
};

const added = (p: Polynomial, q: Polynomial, factor: number): Polynomial =>
  Array.from({ length: Math.max(p.length, q.length) }, (_, i) => (p[i] ?? 0) + factor * (q[i] ?? 0));

const ACROSS_STATIONS = gauss(STATIONS, 0, 1);

const integral = (stations: readonly Station[], value: (at: number) => number): number =>
  stations.reduce((sum, { at, weight }) => sum + weight * value(at), 0);

type Table = readonly (readonly number[])[];

interface Tables {
  readonly shapes: readonly Shape[];
  /** By derivatives of both factors: integrals of their products over [0, 1]. */
  readonly of: (a: number, b: number) => Table;
}

const makeTables = (count: number, from: EdgeHold, to: EdgeHold): Tables => {
  const shapes = shapesOf(count, from, to, count === ACROSS && from === to);
  const values = shapes.map((shape) => shape.map((p) => ACROSS_STATIONS.map(({ at }) => valueAt(p, at))));
  const known = new Map<string, Table>();
  const of = (a: number, b: number): Table => {
    const key = `${a} ${b}`;
    const table =
      known.get(key) ??
      values.map((p) =>
        values.map((q) => ACROSS_STATIONS.reduce((sum, { weight }, k) => sum + weight * p[a][k] * q[b][k], 0)),
      );
    known.set(key, table);
    return table;
  };
  return { shapes, of };
};

/** Of each way to hold two ends, once. */
const tablesOf = (() => {
  const known = new Map<string, Tables>();
  return (count: number, from: EdgeHold, to: EdgeHold): Tables => {
    const key = `${count} ${from} ${to}`;
    const tables = known.get(key) ?? makeTables(count, from, to);
    known.set(key, tables);
    return tables;
  };
})();

const stiffnessOf = (
  { width, height, youngsModulus, poisson, edges, stiffener }: Plate,
  rigidity: number,
): { readonly x: readonly Shape[]; readonly y: readonly Shape[]; readonly energy: number[][] } => {
  const across = tablesOf(ACROSS, edges.left, edges.right);
  const up = tablesOf(UP, edges.bottom, edges.top);
  const [x00, x11, x22, x20] = [across.of(0, 0), across.of(1, 1), across.of(2, 2), across.of(2, 0)];
  const [y00, y11, y22, y20] = [up.of(0, 0), up.of(1, 1), up.of(2, 2), up.of(2, 0)];
  const top = up.shapes.map(([p]) => valueAt(p, 1));
  const [n, m] = [across.shapes.length, up.shapes.length];
  const energy = Array.from({ length: n * m }, (_, p) =>
    Array.from({ length: n * m }, (__, q) => {
      const [i, k, j, l] = [Math.floor(p / m), p % m, Math.floor(q / m), q % m];
      const bent = ((x22[i][j] * y00[k][l]) / width ** 3) * height + ((x00[i][j] * y22[k][l]) / height ** 3) * width;
      const mixed = (x20[i][j] * y20[l][k] + x20[j][i] * y20[k][l]) / (width * height);
      const twist = (x11[i][j] * y11[k][l]) / (width * height);
      const beam = (youngsModulus * stiffener * x22[i][j] * top[k] * top[l]) / width ** 3;
      return rigidity * (bent + poisson * mixed + 2 * (1 - poisson) * twist) + beam;
    }),
  );
  return { x: across.shapes, y: up.shapes, energy };
};

/** By Cholesky's method; undefined where a pivot is none: the plate can move without bending. */
const solve = (matrix: readonly number[][], right: readonly number[]): readonly number[] | undefined => {
  const n = matrix.length;
  const scales = matrix.map((row, i) => (row[i] > 0 ? 1 / Math.sqrt(row[i]) : 0));
  const lower = matrix.map((row, i) => row.map((value, j) => value * scales[i] * scales[j]));
  const found = right.map((value, i) => value * scales[i]);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j <= i; j++) {
      let rest = lower[i][j];
      for (let k = 0; k < j; k++) rest -= lower[i][k] * lower[j][k];
      if (i === j && !(rest > NOISE)) return undefined;
      lower[i][j] = i === j ? Math.sqrt(rest) : rest / lower[j][j];
    }
    for (let k = 0; k < i; k++) found[i] -= lower[i][k] * found[k];
    found[i] /= lower[i][i];
  }
  for (let i = n - 1; i >= 0; i--) {
    for (let k = i + 1; k < n; k++) found[i] -= lower[k][i] * found[k];
    found[i] /= lower[i][i];
  }
  return found.map((value, i) => value * scales[i]);
};
