/** What stands in front, cell by cell of a picture: tells which lines of a solid are seen. */
import { ROUND_OFF } from '../../../geometry/tolerance.js';
import type { Triangles } from '../../../fold/flat-pattern.js';
import type { Vec3 } from '../../../geometry/vec.js';
import { seen, type View } from './view.js';

export interface DepthField {
  /** Is the point (as `seen`) in front of the metal, give or take? */
  readonly isSeen: (point: Vec3) => boolean;
  /** Side of a cell, mm in space. */
  readonly cell: number;
}

/** Cells along the longer side of the picture: a third of a millimetre on paper. */
const CELLS = 700;
/** A line on a face must not be hidden by that face: nearness is compared with this room, in cells. */
const ROOM = 1.5;

/** Cost: linear in triangles and cells. */
export const createDepthField = (view: View, meshes: readonly Triangles[]): DepthField => {
  const projected = meshes.map(({ positions, triangles }) => ({
    points: positions.map((p) => seen(view, p)),
    triangles,
  }));
  const all = projected.flatMap(({ points }) => points);
  const [left, low] = [0, 1].map((k) => all.reduce((m, p) => Math.min(m, p[k]), Infinity));
  const [right, high] = [0, 1].map((k) => all.reduce((m, p) => Math.max(m, p[k]), -Infinity));
  const cell = Math.max(right - left, high - low, ROUND_OFF) / CELLS;
  const [columns, rows] = [Math.floor((right - left) / cell) + 1, Math.floor((high - low) / cell) + 1];
  const nearest = new Float64Array(columns * rows).fill(-Infinity);
  const toCells = ([x, y, z]: Vec3): Vec3 => [(x - left) / cell, (y - low) / cell, z];
  for (const { points, triangles } of projected) {
    const cells = points.map(toCells);
    for (const [a, b, c] of triangles) coverTriangle(nearest, columns, rows, [cells[a], cells[b], cells[c]]);
  }
  const isSeen = (point: Vec3): boolean => {
    const [x, y, z] = toCells(point);
    const [column, row] = [Math.floor(x), Math.floor(y)];
    for (let r = row - 1; r <= row + 1; r++) {
      for (let c = column - 1; c <= column + 1; c++) {
        if (r < 0 || c < 0 || r >= rows || c >= columns) return true;
        if (nearest[r * columns + c] <= z + ROOM * cell) return true;
      }
    }
    return false;
  };
  return { isSeen, cell };
};

const coverTriangle = (
  nearest: Float64Array,
  columns: number,
  rows: number,
  [a, b, c]: readonly [Vec3, Vec3, Vec3],
): void => {
  const area = (b[0] - a[0]) * (c[1] - a[1]) - (c[0] - a[0]) * (b[1] - a[1]);
  if (area === 0) return;
  const from = Math.max(0, Math.floor(Math.min(a[1], b[1], c[1]) - 0.5));
  const to = Math.min(rows - 1, Math.ceil(Math.max(a[1], b[1], c[1])));
  const first = Math.max(0, Math.floor(Math.min(a[0], b[0], c[0]) - 0.5));
  const last = Math.min(columns - 1, Math.ceil(Math.max(a[0], b[0], c[0])));
  for (let row = from; row <= to; row++) {
    const y = row + 0.5;
    // One cell more on either side, so that rounding leaves none out: what lies outside is told by u and v.
    const [left, right] = crossing(a, b, c, y);
    const end = Math.min(last, Math.ceil(right));
    for (let column = Math.max(first, Math.floor(left) - 1); column <= end; column++) {
      const x = column + 0.5;
      const u = ((b[0] - x) * (c[1] - y) - (c[0] - x) * (b[1] - y)) / area;
      const v = ((c[0] - x) * (a[1] - y) - (a[0] - x) * (c[1] - y)) / area;
      if (u < 0 || v < 0 || u + v > 1) continue;
      const i = row * columns + column;
      nearest[i] = Math.max(nearest[i], u * a[2] + v * b[2] + (1 - u - v) * c[2]);
    }
  }
};

/** Where a triangle lies on the line at that height, from left to right; from Infinity where it does not. */
const crossing = (a: Vec3, b: Vec3, c: Vec3, y: number): readonly [number, number] => {
  let [left, right] = [Infinity, -Infinity];
  const see = (p: Vec3, q: Vec3): void => {
    if (p[1] > y === q[1] > y && p[1] !== y && q[1] !== y) return;
    const t = p[1] === q[1] ? 0 : (y - p[1]) / (q[1] - p[1]);
    const x = p[0] + (q[0] - p[0]) * t;
    left = Math.min(left, x);
    right = Math.max(right, x);
  };
  see(a, b);
  see(b, c);
  see(c, a);
  return [left, right];
};
