/** A turned piece as the cells it covers: what is slid over the blank to find room. */
import { Clipper, EndType, JoinType, type PathsD } from 'clipper2-ts';
import type { FlatPattern } from '../fold/flat-pattern.js';
import { flattenContour } from '../geometry/contour.js';
import type { Vec2 } from '../geometry/vec.js';

/** Cells by column (along x); in each, the runs of covered rows [from, to). */
export interface Stencil {
  readonly turn: number;
  /** Where the corner of cell (0, 0) lies in the coordinates of the turned flat. */
  readonly corner: Vec2;
  readonly columns: readonly Int32Array[];
  readonly rows: number;
  /** Of each column, its longest run; and the columns, those with the longest first. */
  readonly tallest: Uint16Array;
  readonly pressing: Uint16Array;
}

/** mm. Arcs as chords; the swelling makes up for it. */
const CHORD_ERROR = 0.05;

/** Outline and holes as polygons, swollen by `by` (and by what the chords cut off) on the side of the metal. */
export const swollen = (flat: FlatPattern, by: number): Vec2[][] => {
  const rings = [flat.outline, ...flat.holes.map(({ contour }) => contour)].map((contour) =>
    flattenContour(contour, CHORD_ERROR).map(([x, y]) => ({ x, y })),
  );
  const grown = Clipper.inflatePathsD(
    rings as PathsD,
    by + CHORD_ERROR,
    JoinType.Round,
    EndType.Polygon,
    2,
    4,
    CHORD_ERROR / 2,
  );
  return grown.map((path) => path.map(({ x, y }): Vec2 => [x, y]));
};

/**
 * Every cell that a swollen piece touches when turned: two pieces whose cells are apart are apart by twice the swelling.
 * Cost: linear in the cells along the rings and in the columns.
 */
export const stencilOf = (rings: readonly (readonly Vec2[])[], turn: number, cell: number): Stencil => {
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
  const turned = rings.map((ring) =>
    ring.map(([x, y]): Vec2 => [(x * cos - y * sin) / cell, (x * sin + y * cos) / cell]),
  );
  const points = turned.flat();
  const [left, low] = [0, 1].map((k) => Math.floor(points.reduce((m, p) => Math.min(m, p[k]), Infinity)));
  const [right, high] = [0, 1].map((k) => Math.floor(points.reduce((m, p) => Math.max(m, p[k]), -Infinity)) + 1);
  const spans: [number, number][][] = Array.from({ length: right - left }, () => []);
  for (const ring of turned)
    ring.forEach((to, i) => coverEdge(spans, left, low, ring[(i + ring.length - 1) % ring.length], to));
  fillInside(spans, left, low, turned);
  const columns = spans.map(mergedRuns);
  const tallest = Uint16Array.from(columns, longestRun);
  const pressing = Uint16Array.from(columns.keys()).sort((a, b) => tallest[b] - tallest[a]);
  return { turn, corner: [left * cell, low * cell], columns, rows: high - low, tallest, pressing };
};

/** Cells that an edge passes through. */
const coverEdge = (spans: [number, number][][], left: number, low: number, from: Vec2, to: Vec2): void => {
  const [a, b] = from[0] <= to[0] ? [from, to] : [to, from];
  const first = Math.floor(a[0]);
  const last = Math.floor(b[0]);
  const slope = b[0] > a[0] ? (b[1] - a[1]) / (b[0] - a[0]) : 0;
  for (let column = first; column <= last; column++) {
    const isUpright = b[0] === a[0];
    const y0 = isUpright ? a[1] : a[1] + slope * (Math.max(column, a[0]) - a[0]);
    const y1 = isUpright ? b[1] : a[1] + slope * (Math.min(column + 1, b[0]) - a[0]);
    spans[column - left].push([Math.floor(Math.min(y0, y1)) - low, Math.floor(Math.max(y0, y1)) + 1 - low]);
  }
};

/** Cells between the crossings of each column's middle: all that no edge passes through. */
const fillInside = (
  spans: [number, number][][],
  left: number,
  low: number,
  rings: readonly (readonly Vec2[])[],
): void => {
  const crossings: number[][] = spans.map(() => []);
  for (const ring of rings) {
    ring.forEach((to, i) => {
      const from = ring[(i + ring.length - 1) % ring.length];
      const [a, b] = from[0] <= to[0] ? [from, to] : [to, from];
      for (let column = Math.ceil(a[0] - 0.5); column + 0.5 < b[0]; column++) {
        crossings[column - left].push(a[1] + ((b[1] - a[1]) / (b[0] - a[0])) * (column + 0.5 - a[0]));
      }
    });
  }
  crossings.forEach((levels, column) => {
    levels.sort((p, q) => p - q);
    for (let i = 0; i + 1 < levels.length; i += 2)
      spans[column].push([Math.floor(levels[i]) - low, Math.floor(levels[i + 1]) + 1 - low]);
  });
};

const longestRun = (runs: Int32Array): number => {
  let most = 0;
  for (let k = 0; k < runs.length; k += 2) most = Math.max(most, runs[k + 1] - runs[k]);
  return most;
};

const mergedRuns = (spans: [number, number][]): Int32Array => {
  spans.sort((p, q) => p[0] - q[0]);
  const runs: number[] = [];
  for (const [from, to] of spans) {
    if (runs.length > 0 && from <= runs[runs.length - 1]) runs[runs.length - 1] = Math.max(runs[runs.length - 1], to);
    else runs.push(from, to);
  }
  return Int32Array.from(runs);
};
