/**
 * A cantilever plate by Ritz's method: deflection as a sum of x^2 P_i(x) P_j(y), P Legendre's polynomials, the energy by Gauss's
 * rule. Shares no code and no formula with the product. Source of the energy: S. Timoshenko, S. Woinowsky-Krieger, Theory of
 * Plates and Shells, 2nd ed., strain energy of bending (from memory).
 */

/** Values, first and second derivatives of P_0 .. P_(n-1) at t. */
const legendre = (n: number, t: number): readonly (readonly [number, number, number])[] => {
  const all: [number, number, number][] = [
    [1, 0, 0],
    [t, 1, 0],
  ];
  for (let k = 1; k + 1 < n; k++) {
    const [[a, a1, a2], [b, b1, b2]] = [all[k - 1], all[k]];
    const next = (now: number, before: number, extra: number): number =>
      ((2 * k + 1) * (t * now + extra) - k * before) / (k + 1);
    all.push([next(b, a, 0), next(b1, a1, b), next(b2, a2, 2 * b1)]);
  }
  return all.slice(0, n);
};

/** Places and weights of Gauss's rule on -1..1, by Newton's method. */
const gauss = (n: number): readonly (readonly [number, number])[] =>
  Array.from({ length: n }, (_, i) => {
    let t = Math.cos((Math.PI * (i + 0.75)) / (n + 0.5));
    for (let step = 0; step < 50; step++) {
      const [value, slope] = legendre(n + 1, t)[n];
      t -= value / slope;
    }
    const [, slope] = legendre(n + 1, t)[n];
    return [t, 2 / ((1 - t * t) * slope * slope)];
  });

const solve = (matrix: number[][], right: readonly number[]): readonly number[] => {
  const rows = matrix.map((row, i) => [...row, right[i]]);
  const n = rows.length;
  for (let k = 0; k < n; k++) {
    for (let i = k + 1; i < n; i++) {
      const share = rows[i][k] / rows[k][k];
      if (share !== 0) for (let j = k; j <= n; j++) rows[i][j] -= share * rows[k][j];
    }
  }
  const found = new Array<number>(n).fill(0);
  for (let i = n - 1; i >= 0; i--) {
    let rest = rows[i][n];
    for (let j = i + 1; j < n; j++) rest -= rows[i][j] * found[j];
    found[i] = rest / rows[i][i];
  }
  return found;
};

/** Deflection under a force of 1 at the far edge of a plate of free length 1, stiffness D = 1; `at` -1..1 along that edge. */
export const plateDeflection = (
  width: number,
  poisson: number,
  at: number,
  terms: readonly [number, number],
): number => {
  const [m, n] = terms;
  const along = gauss(m + 4).map(([t, w]) => ({ x: (t + 1) / 2, w: w / 2 }));
  const across = gauss(n + 4).map(([t, w]) => ({ y: t, w: (w * width) / 2 }));
  const xs = along.map(({ x }) =>
    legendre(m, 2 * x - 1).map(([p, p1, p2]) => [
      x * x * p,
      2 * x * p + 2 * x * x * p1,
      2 * p + 8 * x * p1 + 4 * x * x * p2,
    ]),
  );
  const ys = across.map(({ y }) => legendre(n, y).map(([p, p1, p2]) => [p, (p1 * 2) / width, (p2 * 4) / width ** 2]));
  const overlap = (
    values: number[][][],
    weights: readonly number[],
    i: number,
    di: number,
    j: number,
    dj: number,
  ): number => values.reduce((sum, at, k) => sum + weights[k] * at[i][di] * at[j][dj], 0);
  const table = (values: number[][][], weights: readonly number[], size: number, di: number, dj: number): number[][] =>
    Array.from({ length: size }, (_, i) =>
      Array.from({ length: size }, (__, j) => overlap(values, weights, i, di, j, dj)),
    );
  const [wx, wy] = [along.map(({ w }) => w), across.map(({ w }) => w)];
  const X = (a: number, b: number): number[][] => table(xs, wx, m, a, b);
  const Y = (a: number, b: number): number[][] => table(ys, wy, n, a, b);
  const [x22, x00, x20, x02, x11] = [X(2, 2), X(0, 0), X(2, 0), X(0, 2), X(1, 1)];
  const [y00, y22, y02, y20, y11] = [Y(0, 0), Y(2, 2), Y(0, 2), Y(2, 0), Y(1, 1)];
  const size = m * n;
  const energy = Array.from({ length: size }, (_, p) => {
    const [i, k] = [Math.floor(p / n), p % n];
    return Array.from({ length: size }, (__, q) => {
      const [j, l] = [Math.floor(q / n), q % n];
      const mixed = x20[i][j] * y02[k][l] + x02[i][j] * y20[k][l];
      const twist = 2 * (1 - poisson) * x11[i][j] * y11[k][l];
      return x22[i][j] * y00[k][l] + x00[i][j] * y22[k][l] + poisson * mixed + twist;
    });
  });
  const edge = legendre(n, at).map(([p]) => p);
  const load = Array.from({ length: size }, (_, p) => edge[p % n]);
  return solve(energy, load).reduce((sum, c, p) => sum + c * load[p], 0);
};
