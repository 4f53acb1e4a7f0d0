/**
 * The search for free values against published problems whose optimum is known. Statement, limits and optimum as found in an
 * open library of test problems for global optimisers (MIT licence), each recomputed at its optimum; the original is named.
 */
import { describe, expect, it } from 'vitest';
import { search } from '../../src/analysis/solve/search.js';
import { wholeTask } from '../../src/analysis/solve/task.js';
import { Tries } from '../../src/analysis/solve/tries.js';
import { finished, problemOf, type Functions } from '../support/search-problem.js';

interface Published extends Functions {
  readonly name: string;
  readonly source: string;
  readonly optimum: number;
  readonly within: number;
}

const HS = 'W. Hock, K. Schittkowski, Test Examples for Nonlinear Programming Codes, 1981';
const S = 'K. Schittkowski, More Test Examples for Nonlinear Programming Codes, 1987';
const CEC = 'CEC 2006 suite of constrained problems';
const box = (size: number, low: number, high: number): [number, number][] =>
  Array.from({ length: size }, () => [low, high]);
const { sqrt, PI, sin, min, hypot } = Math;
/** Of a sum that may lie from 0 to a limit. */
const upTo = (limit: number, sum: (x: readonly number[]) => number) => [
  (x: readonly number[]) => -sum(x),
  (x: readonly number[]) => sum(x) - limit,
];
const girth = ([x, y, z]: readonly number[]): number => x + 2 * y + 2 * z;
const POINTS = [
  [2.545724188, 9.983058643],
  [8.589400372, 6.208600402],
  [5.953378204, 9.920197351],
  [3.710241136, 7.860254203],
  [3.629909053, 2.176232347],
  [3.016475803, 6.757468831],
  [4.148474536, 2.435660776],
  [8.706433123, 3.250724797],
  [1.604023507, 7.020357481],
  [5.501896021, 4.918207429],
];

const published: readonly Published[] = [
  {
    name: '21',
    source: HS,
    limits: [
      [2, 50],
      [-50, 50],
    ],
    start: [-1, -1],
    goal: ([x, y]) => 0.01 * x * x + y * y - 100,
    misses: [([x, y]) => 10 - (10 * x - y)],
    optimum: -99.96,
    within: 1e-6,
  },
  {
    name: '24',
    source: HS,
    limits: box(2, 0, 5),
    start: [1, 0.5],
    goal: ([x, y]) => (((x - 3) ** 2 - 9) * y ** 3) / (27 * sqrt(3)),
    misses: [([x, y]) => y - x / sqrt(3), ([x, y]) => -(x + sqrt(3) * y), ([x, y]) => x + sqrt(3) * y - 6],
    optimum: -1,
    within: 1e-6,
  },
  {
    name: '36',
    source: HS,
    limits: [
      [0, 20],
      [0, 11],
      [0, 15],
    ],
    start: [10, 10, 10],
    goal: ([x, y, z]) => -x * y * z,
    misses: [(x) => girth(x) - 72],
    optimum: -3300,
    within: 1e-3,
  },
  {
    name: '37, the largest box under a girth limit',
    source: HS,
    limits: box(3, 0, 42),
    start: [10, 10, 10],
    goal: ([x, y, z]) => -x * y * z,
    misses: upTo(72, girth),
    optimum: -3456,
    within: 1e-3,
  },
  {
    name: '38 (Wood)',
    source: HS,
    limits: box(4, -10, 10),
    start: [-3, -1, -3, -1],
    goal: ([a, b, c, d]) =>
      100 * (b - a * a) ** 2 +
      (1 - a) ** 2 +
      90 * (d - c * c) ** 2 +
      (1 - c) ** 2 +
      10.1 * ((b - 1) ** 2 + (d - 1) ** 2) +
      19.8 * (b - 1) * (d - 1),
    misses: [],
    optimum: 0,
    within: 1e-6,
  },
  {
    name: '44',
    source: HS,
    limits: box(4, 0, 42),
    start: [0, 0, 0, 0],
    goal: ([a, b, c, d]) => a - b - c - a * c + a * d + b * c - b * d,
    misses: [
      ([a, b]) => a + 2 * b - 8,
      ([a, b]) => 4 * a + b - 12,
      ([a, b]) => 3 * a + 4 * b - 12,
      ([, , c, d]) => 2 * c + d - 8,
      ([, , c, d]) => c + 2 * d - 8,
      ([, , c, d]) => c + d - 5,
    ],
    optimum: -15,
    within: 1e-5,
  },
  {
    name: '224',
    source: S,
    limits: box(2, 0, 6),
    start: [0.1, 0.1],
    goal: ([x, y]) => 2 * x * x + y * y - 48 * x - 40 * y,
    misses: [...upTo(18, ([x, y]) => x + 3 * y), ...upTo(8, ([x, y]) => x + y)],
    optimum: -304,
    within: 1e-4,
  },
  {
    name: '231, a bent valley between two lines',
    source: S,
    limits: box(2, -10, 10),
    start: [-1.2, 1],
    goal: ([x, y]) => 100 * (y - x * x) ** 2 + (1 - x) ** 2,
    misses: [([x, y]) => -(x / 3 + y + 0.1), ([x, y]) => -(-x / 3 + y + 0.1)],
    optimum: 0,
    within: 1e-6,
  },
  {
    name: '250',
    source: S,
    limits: [
      [0, 20],
      [0, 11],
      [0, 40],
    ],
    start: [10, 10, 10],
    goal: ([x, y, z]) => -x * y * z,
    misses: upTo(72, girth),
    optimum: -3300,
    within: 1e-3,
  },
  {
    name: 'Zecevic 2',
    source: 'A. Zecevic, problem 2',
    limits: box(2, 0, 10),
    goal: ([x, y]) => 2 * y * y - 2 * x - 3 * y,
    misses: [([x, y]) => x + y - 2, ([x, y]) => x + 4 * y - 4],
    optimum: -4.125,
    within: 1e-6,
  },
  {
    name: 'Zecevic 3',
    source: 'A. Zecevic, problem 3',
    limits: box(2, 0, 10),
    goal: ([x, y]) => 7 * x * x + 3 * y * y - 84 * x - 24 * y + 300,
    misses: [([x, y]) => 1 - x * y, ([x, y]) => x * x + y * y - 9],
    optimum: 97.30945014,
    within: 1e-5,
  },
  {
    name: 'Zecevic 4',
    source: 'A. Zecevic, problem 4',
    limits: box(2, 0, 10),
    goal: ([x, y]) => 6 * x * x + y * y - 60 * x - 8 * y + 166,
    misses: [([x, y]) => x * y - x - y, ([x, y]) => 3 - x - y],
    optimum: 7.5575077689,
    within: 1e-5,
  },
  {
    name: 'ZY2',
    source: 'CUTE collection, ZY2',
    limits: box(3, 0, 10),
    goal: ([x, y, z]) => x ** 3 - 6 * x * x + 11 * x + y + z,
    misses: [([x, y, z]) => 4 - (x * x + y * y + z * z), ([x, y, z]) => x * x + y * y + z * z - 10, ([, , z]) => z - 5],
    optimum: 2,
    within: 1e-5,
  },
  {
    name: 'the smallest circle around ten points',
    source: 'smallest enclosing circle, ten points of the library',
    limits: box(3, 0, 10),
    goal: ([, , r]) => r,
    misses: POINTS.map(
      ([px, py]) =>
        ([x, y, r]) =>
          (px - x) ** 2 + (py - y) ** 2 - r * r,
    ),
    optimum: 4.57424778502513,
    within: 1e-6,
  },
  {
    name: 'Gomez 3, islands',
    source: 'S. Gomez, problem 3, pi taken as 3.14',
    limits: box(2, -1, 1),
    goal: ([x, y]) => (4 - 2.1 * x * x + x ** 4 / 3) * x * x + x * y + (-4 + 4 * y * y) * y * y,
    misses: [([x, y]) => -sin(4 * 3.14 * x) + 2 * sin(2 * 3.14 * y) ** 2],
    optimum: -0.9714759186,
    within: 1e-5,
    patience: 12,
  },
  {
    name: 'G04',
    source: CEC,
    limits: [[78, 102], [33, 45], ...box(3, 27, 45)],
    goal: ([a, , c, , e]) => 5.3578547 * c * c + 0.8356891 * a * e + 37.293239 * a - 40792.141,
    misses: [
      ...between(0, 92, ([a, b, c, d, e]) => 85.334407 + 0.0056858 * b * e + 0.0006262 * a * d - 0.0022053 * c * e),
      ...between(90, 110, ([a, b, c, , e]) => 80.51249 + 0.0071317 * b * e + 0.0029955 * a * b + 0.0021813 * c * c),
      ...between(20, 25, ([a, , c, d, e]) => 9.300961 + 0.0047026 * c * e + 0.0012547 * a * c + 0.0019085 * c * d),
    ],
    optimum: -30665.53867178,
    within: 1e-3,
  },
  {
    name: 'G06, a very thin crescent',
    source: CEC,
    limits: [
      [13, 100],
      [0, 100],
    ],
    goal: ([x, y]) => (x - 10) ** 3 + (y - 20) ** 3,
    misses: [([x, y]) => 100 - (x - 5) ** 2 - (y - 5) ** 2, ([x, y]) => (x - 6) ** 2 + (y - 5) ** 2 - 82.81],
    optimum: -6961.81387514,
    within: 1e-2,
  },
  {
    name: 'G08',
    source: CEC,
    limits: box(2, 0, 100),
    goal: ([x, y]) => -(sin(2 * PI * x) ** 3 * sin(2 * PI * y)) / (x ** 3 * (x + y)),
    misses: [([x, y]) => x * x - y + 1, ([x, y]) => 1 - x + (y - 4) ** 2],
    optimum: -0.0958250414,
    within: 1e-7,
    patience: 12,
  },
  {
    name: 'G09',
    source: CEC,
    limits: box(7, -10, 10),
    goal: ([a, b, c, d, e, f, g]) =>
      (a - 10) ** 2 +
      5 * (b - 12) ** 2 +
      c ** 4 +
      3 * (d - 11) ** 2 +
      10 * e ** 6 +
      7 * f * f +
      g ** 4 -
      4 * f * g -
      10 * f -
      8 * g,
    misses: [
      ([a, b, c, d, e]) => 2 * a * a + 3 * b ** 4 + c + 4 * d * d + 5 * e - 127,
      ([a, b, c, d, e]) => 7 * a + 3 * b + 10 * c * c + d - e - 282,
      ([a, b, , , , f, g]) => 23 * a + b * b + 6 * f * f - 8 * g - 196,
      ([a, b, c, , , f, g]) => 4 * a * a + b * b - 3 * a * b + 2 * c * c + 5 * f - 11 * g,
    ],
    optimum: 680.6300574,
    within: 1e-3,
  },
  {
    name: 'G12, inside one of 729 balls',
    source: CEC,
    limits: box(3, 0.2, 10),
    goal: ([x, y, z]) => -(100 - (x - 5) ** 2 - (y - 5) ** 2 - (z - 5) ** 2) / 100,
    misses: [(x) => hypot(...x.map((each) => each - min(9, Math.max(1, Math.round(each))))) - 0.25],
    optimum: -1,
    within: 1e-6,
  },
  {
    name: 'P6, the cost of a reinforced beam',
    source: 'C. Floudas et al., Handbook of Test Problems in Local and Global Optimization, P6',
    limits: [
      [0, 115.8],
      [1e-5, 30],
    ],
    goal: ([x, y]) => 29.4 * x + 18 * y,
    misses: [([x, y]) => 6 - (x - (0.2458 * x * x) / y)],
    optimum: 376.2919323,
    within: 1e-4,
  },
  {
    name: 'the weight of a truss of three bars',
    source: 'three-bar truss of the library',
    limits: box(2, 0, 1),
    goal: ([x, y]) => 100 * (2 * sqrt(2) * x + y),
    misses: [
      ([x, y]) => (2 * (sqrt(2) * x + y)) / (sqrt(2) * x * x + 2 * x * y) - 2,
      ([x, y]) => (2 * y) / (sqrt(2) * x * x + 2 * x * y) - 2,
      ([x, y]) => 2 / (x + sqrt(2) * y) - 2,
    ],
    optimum: 263.895843376,
    within: 1e-3,
  },
  {
    name: 'the cost of a pressure vessel',
    source: 'pressure vessel of the library, continuous form',
    limits: [
      [1, 1.375],
      [0.625, 1],
      [25, 150],
      [25, 240],
    ],
    goal: ([a, b, c, d]) => 0.6224 * a * c * d + 1.7781 * b * c * c + 3.1661 * a * a * d + 19.84 * a * a * c,
    misses: [
      ([a, , c]) => 0.0193 * c - a,
      ([, b, c]) => 0.00954 * c - b,
      ([, , c, d]) => 1 - (PI * c * c * d + (4 / 3) * PI * c ** 3) / 1296000,
      ([a]) => 1.1 - a,
      ([, b]) => 0.6 - b,
    ],
    optimum: 7163.739568875,
    within: 1e-2,
  },
  {
    name: 'Booth',
    source: 'test functions of an open-source global optimiser',
    limits: box(2, -10, 10),
    goal: ([x, y]) => (x + 2 * y - 7) ** 2 + (2 * x + y - 5) ** 2,
    misses: [],
    optimum: 0,
    within: 1e-8,
  },
  {
    name: 'a camel of three humps',
    source: 'test functions of an open-source global optimiser',
    limits: box(2, -10, 10),
    goal: ([x, y]) => 2 * x * x - 1.05 * x ** 4 + x ** 6 / 6 + x * y + y * y,
    misses: [],
    optimum: 0,
    within: 1e-8,
  },
  {
    name: 'the largest tray from a sheet of 300 by 200 mm',
    source: 'derived: dV/dc = 0 gives c = (a + b - sqrt(a^2 - ab + b^2)) / 6',
    limits: [[0, 100]],
    goal: ([c]) => -(300 - 2 * c) * (200 - 2 * c) * c,
    misses: [],
    optimum: -1056305.895,
    within: 1,
  },
];

/** A sum that may lie between two limits. */
function between(low: number, high: number, sum: (x: readonly number[]) => number) {
  return [(x: readonly number[]) => low - sum(x), (x: readonly number[]) => sum(x) - high];
}

describe('published problems', () => {
  it.each(published)('$source: $name', ({ optimum, within, patience = 4, ...functions }) => {
    const tries = new Tries(problemOf(functions), 20_000);
    const { merit, isMet } = finished(search(tries, wholeTask, { patience }));
    if (process.env.SHOW)
      console.log(functions.name, tries.points.length, merit?.missed, (merit?.goals[0] ?? NaN) - optimum, within);
    expect(isMet).toBe(true);
    expect(Math.abs((merit?.goals[0] ?? NaN) - optimum)).toBeLessThanOrEqual(within);
  });
});
