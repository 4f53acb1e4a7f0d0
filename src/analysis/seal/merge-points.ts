import type { Vec3 } from '../geometry/vec.js';
import { SAME_POINT } from '../tolerance.js';

export interface Merged {
  /** Node number of each point, in the order given. */
  readonly nodes: readonly number[];
  /** Position of each node: the first point that made it. */
  readonly places: readonly Vec3[];
}

/** Cell of the lookup grid, mm: wide enough that a point's twin is in its own cell or the next. */
const CELL = 4 * SAME_POINT;

/** Gives points within SAME_POINT of each other one number. Cost: O(n). */
export const mergePoints = (points: readonly Vec3[]): Merged => {
  const cells = new Map<string, number[]>();
  const places: Vec3[] = [];
  const nodes = points.map((point) => {
    const twin = findTwin(cells, places, point);
    if (twin !== undefined) return twin;
    const node = places.push(point) - 1;
    const key = keyOf(point.map(cellOf));
    const list = cells.get(key);
    if (list) list.push(node);
    else cells.set(key, [node]);
    return node;
  });
  return { nodes, places };
};

const cellOf = (coordinate: number): number => Math.floor(coordinate / CELL);
const keyOf = (cell: readonly number[]): string => cell.join(' ');

const findTwin = (cells: ReadonlyMap<string, readonly number[]>, places: readonly Vec3[], point: Vec3): number | undefined => {
  const spans = point.map((c) => [...new Set([cellOf(c - SAME_POINT), cellOf(c + SAME_POINT)])]);
  for (const x of spans[0]) {
    for (const y of spans[1]) {
      for (const z of spans[2]) {
        const twin = cells.get(keyOf([x, y, z]))?.find((node) => isSame(places[node], point));
        if (twin !== undefined) return twin;
      }
    }
  }
  return undefined;
};

const isSame = (a: Vec3, b: Vec3): boolean => Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]) <= SAME_POINT;
