/** What two pieces are told to overlap by hangs on nothing that was worked out before: one core and two then lay alike. */
import { expect, test } from 'vitest';
import { noTables, shapesOf, type KnownTables, type Shape } from '../../../src/analysis/nest/tighten/shapes.js';
import type { OverlapTable } from '../../../src/analysis/nest/tighten/overlap-table.js';
import type { Vec2 } from '../../../src/analysis/geometry/vec.js';

const shape = (points: readonly Vec2[], turns: readonly number[]): Shape => ({
  outline: points.map(([x, y]) => ({ x, y, bulge: 0 })),
  parts: [points],
  turns,
  area: 1,
});
const wedge: readonly Vec2[] = [
  [0, 0],
  [37, 3],
  [11, 29],
];
const kite: readonly Vec2[] = [
  [0, 0],
  [20, -8],
  [41, 2],
  [19, 17],
];
/** Less apart than what is told as one angle. */
const NEARLY = 1e-13;
const turns = (more: number): readonly number[] => [0, 0.7 + more, Math.PI / 2 + more, 2.1 - more];

const tablesOf = (shapes: readonly Shape[], known: KnownTables): readonly OverlapTable[] => {
  const { pairs, turned } = shapesOf(shapes, 3, 0.5, known);
  return turned.flatMap((_, i) => turned.map((__, k) => pairs.make(i, k).table));
};

test('tables are the same whichever piece and whichever angle came first', () => {
  const shapes = [shape(wedge, turns(0)), shape(kite, turns(0))];
  const fresh = tablesOf(shapes, noTables());
  const known = noTables();
  tablesOf([shape(kite, turns(NEARLY)), shape(wedge, turns(-NEARLY))], known);
  expect(tablesOf(shapes, known)).toEqual(fresh);
});
