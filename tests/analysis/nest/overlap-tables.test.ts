/** What two pieces are told to overlap by hangs on nothing that was worked out before: one core and two then lay alike. */
import { expect, test } from 'vitest';
import { overlapTable } from '../../../src/analysis/nest/tighten/make-table.js';
import { createPairs, depthOf, slotOf } from '../../../src/analysis/nest/tighten/pairs.js';
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

test('the depth in one pair of convex pieces is the same whatever was asked of another pair before', () => {
  const around = (corners: number): Vec2[] =>
    Array.from({ length: corners }, (_, i) => [
      20 * Math.cos((2 * Math.PI * i) / corners),
      20 * Math.sin((2 * Math.PI * i) / corners),
    ]);
  const depths = (ring: readonly Vec2[]) => {
    const table = overlapTable([ring], [ring], 0, 0);
    const pairs = createPairs(1, () => ({ table, cos: 1, sin: 0 }));
    return (dx: number, dy: number) => depthOf(pairs, slotOf(pairs, 0, 0), dx, dy);
  };
  const [ofMany, ofFew] = [depths(around(24)), depths(around(4))];
  // The last side of the many is the one that tells here: the few have no such side.
  for (let i = 0; i < 24; i++) ofMany(30 * Math.cos((2 * Math.PI * i) / 24), 30 * Math.sin((2 * Math.PI * i) / 24));
  // Two squares on their tips, one on the other: out by the width across their sides.
  expect(ofFew(0, 0)).toBeCloseTo(20 * Math.SQRT2, 9);
});
