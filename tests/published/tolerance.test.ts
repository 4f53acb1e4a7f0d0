import { describe, expect, it } from 'vitest';
import { generalTolerance } from '../../src/analysis/join/seam/general-tolerance.js';
import { stackUp } from '../../src/analysis/join/seam/stack.js';

describe('tolerance stacks', () => {
  // Source: "Tolerance stack-up: a worked example", engineering article (2026): gap 40 - 25 - 2 - 10 with tolerances 0.10, 0.05, 0.03, 0.05.
  // Worst case and RSS are evaluated from its data by hand: 0.23, and sqrt(0.01 + 0.0025 + 0.0009 + 0.0025) = 0.1261.
  it('agree with the worked example', () => {
    expect(stackUp([0.1, 0.05, 0.03, 0.05]).worst).toBeCloseTo(0.23, 12);
    expect(stackUp([0.1, 0.05, 0.03, 0.05]).rss).toBeCloseTo(0.1261, 4);
  });

  it('of nothing are nothing', () => {
    expect(stackUp([])).toEqual({ rss: 0, worst: 0 });
  });
});

describe('general tolerances', () => {
  // Source: ISO 2768-1:1989 Table 1, class m, as reproduced on two reference pages; 400 to 2000 mm from memory.
  it.each([
    [2, 0.1],
    [3, 0.1],
    [5, 0.1],
    [6, 0.1],
    [20, 0.2],
    [30, 0.2],
    [100, 0.3],
    [120, 0.3],
    [121, 0.5],
    [400, 0.5],
    [700, 0.8],
    [1500, 1.2],
    [3000, 2],
  ])('a length of %s mm is held within %s mm', (length, tolerance) => {
    expect(generalTolerance(length)).toBe(tolerance);
  });
});
