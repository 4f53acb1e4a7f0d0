/** The pieces in every turn that is allowed, and how any two of them overlap. */
import { signedArea } from '../../geometry/polygon.js';
import type { Vec2 } from '../../geometry/vec.js';
import { overlapTable } from './make-table.js';
import type { OverlapTable } from './overlap-table.js';
import { NOISE } from '../../geometry/tolerance.js';
import { createPairs, type Pair, type Pairs } from './pairs.js';

/** One outline, as convex parts in the coordinates of its flat, with the turns it may take, rad. */
export interface Shape {
  readonly parts: readonly (readonly Vec2[])[];
  readonly turns: readonly number[];
}

/** A shape in one of its turns; the box is that of the turned shape about its origin. */
export interface Turned {
  readonly shape: number;
  readonly turn: number;
  readonly left: number;
  readonly low: number;
  readonly right: number;
  readonly high: number;
}

export interface Shapes {
  readonly turned: readonly Turned[];
  /** For each shape, where its turns start in `turned`, and the end. */
  readonly starts: readonly number[];
  /** Of each shape, mm2. */
  readonly areas: readonly number[];
  /** How deep two of `turned` overlap. */
  readonly pairs: Pairs;
  /** mm: pieces nearer than this count as overlapping. */
  readonly slack: number;
}

export const shapesOf = (shapes: readonly Shape[], slack: number): Shapes => {
  const starts = [0];
  const turned: Turned[] = [];
  shapes.forEach(({ parts, turns }, shape) => {
    for (const turn of turns) turned.push({ shape, turn, ...boxOf(parts, turn) });
    starts.push(turned.length);
  });
  const tables = new Map<string, OverlapTable>();
  const tableOf = (a: Turned, b: Turned): OverlapTable => {
    const relative = normal(b.turn - a.turn);
    const key = `${a.shape} ${b.shape} ${Math.round(relative / NOISE)}`;
    let table = tables.get(key);
    if (!table) {
      const other = shapes[b.shape].parts.map((part) => part.map((point) => turnedBy(point, relative)));
      tables.set(key, (table = overlapTable(shapes[a.shape].parts, other, slack)));
    }
    return table;
  };
  const makePair = (i: number, k: number): Pair => {
    const [a, b] = [turned[i], turned[k]];
    return a.shape <= b.shape
      ? { table: tableOf(a, b), cos: Math.cos(a.turn), sin: Math.sin(a.turn) }
      : { table: tableOf(b, a), cos: -Math.cos(b.turn), sin: -Math.sin(b.turn) };
  };
  return {
    turned,
    starts,
    areas: shapes.map(({ parts }) => parts.reduce((sum, part) => sum + signedArea(part), 0)),
    slack,
    pairs: createPairs(turned.length, makePair),
  };
};

const normal = (turn: number): number => {
  const within = ((turn % (2 * Math.PI)) + 2 * Math.PI) % (2 * Math.PI);
  return 2 * Math.PI - within < NOISE ? 0 : within;
};

const turnedBy = ([x, y]: Vec2, turn: number): Vec2 => {
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
  return [x * cos - y * sin, x * sin + y * cos];
};

const boxOf = (parts: Shape['parts'], turn: number): Omit<Turned, 'shape' | 'turn'> => {
  let [left, low, right, high] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const part of parts) {
    for (const point of part) {
      const [x, y] = turnedBy(point, turn);
      left = Math.min(left, x);
      right = Math.max(right, x);
      low = Math.min(low, y);
      high = Math.max(high, y);
    }
  }
  return { left, low, right, high };
};
