/** The verdict may not depend on where and how a tub is drawn. */
import { casesOf } from '../../support/cases.js';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Vec3 } from '../../../src/analysis/geometry/vec.js';
import type { Tub } from '../../../src/analysis/model/tub.js';
import { arbitraryDrainedTub, crumpledPan, movedTub, turned } from '../../support/random/arbitrary-tub.js';
import { withOutlet } from '../../support/tub-of.js';
import { figuresOf } from './figures.js';

/** The first figure that differs, in words; undefined: none. */
const difference = (tub: Tub, other: Tub): string | undefined => {
  const [a, b] = [figuresOf(tub), figuresOf(other)];
  for (const key of Object.keys(a)) {
    if (a[key].length !== b[key].length) return `${key}: ${a[key].length} became ${b[key].length}`;
    const i = a[key].findIndex((value, k) => Math.abs(value - b[key][k]) > 1e-6 * Math.max(1, Math.abs(value)));
    if (i >= 0) return `${key} ${i}: ${a[key][i]} became ${b[key][i]}`;
  }
  return undefined;
};

/** A second outlet in another panel where there is room, so that the shares have something to say. */
const twoOutlets = arbitraryDrainedTub.map(({ tub: drained }) => {
  const tub = { ...drained, level: { at: 0, within: 0.02 } };
  const used = tub.outlets[0].panel;
  const other = tub.panels.findIndex(
    ({ corners }, i) => i !== used && i > used && corners.length === tub.panels[used].corners.length && upward(corners),
  );
  if (other < 0) return tub;
  const { corners } = tub.panels[other];
  const middle = [0, 1, 2].map((k) => corners.reduce((sum, c) => sum + c[k], 0) / corners.length) as unknown as Vec3;
  return withOutlet(tub, other, middle, 6);
});

const upward = (corners: readonly Vec3[]): boolean => {
  const area = corners.reduce((sum, [x, y], i) => {
    const [nx, ny] = corners[(i + 1) % corners.length];
    return sum + (x * ny - nx * y) / 2;
  }, 0);
  return Math.abs(area) > 300;
};

/** Floors of few heights: many level panels, level creases, and ways down that are equally steep. Not tilted: of so many
 *  tilts that do equal harm only some are looked at. */
const terracesOf = (heights: readonly (readonly number[])[]): Tub => {
  const { tub } = crumpledPan(
    heights.map((row) => row.map((height) => height * 5)),
    30,
    60,
  );
  const middle = (panel: number): Vec3 =>
    [0, 1, 2].map((k) => tub.panels[panel].corners.reduce((sum, c) => sum + c[k], 0) / 3) as unknown as Vec3;
  return withOutlet(withOutlet(tub, 5, middle(5), 6), 20, middle(20), 6);
};

const terraces = fc
  .array(fc.array(fc.integer({ min: 1, max: 3 }), { minLength: 5, maxLength: 5 }), { minLength: 5, maxLength: 5 })
  .map(terracesOf);

/** Here water comes to corners from which it runs on along an edge that is the fall of a panel too: one way, not two. */
const alongEdges = [
  ['13121', '22221', '23232', '11311', '11122'],
  ['22122', '13221', '32113', '23131', '12223'],
  ['12133', '11321', '22122', '11313', '31131'],
  ['12312', '22112', '11231', '13112', '21212'],
].map((rows) => terracesOf(rows.map((row) => [...row].map(Number))));

const holds = (change: (tub: Tub, by: number) => Tub): void => {
  const cases = [
    ...fc.sample(fc.tuple(twoOutlets, fc.double({ min: 0.1, max: 6, noNaN: true })), {
      numRuns: casesOf(3),
      seed: 31,
    }),
    ...fc.sample(fc.tuple(terraces, fc.double({ min: 0.1, max: 6, noNaN: true })), { numRuns: casesOf(2), seed: 31 }),
    ...alongEdges.map((tub): [Tub, number] => [tub, 0.144]),
  ];
  expect(cases.flatMap(([tub, by], i) => difference(tub, change(tub, by))?.concat(` in case ${i}`) ?? [])).toEqual([]);
};

test('turning the tub about the upright changes nothing', () => holds((tub, by) => movedTub(tub, turned(by))));

test('mirroring the tub changes nothing', () => holds((tub) => movedTub(tub, ([x, y, z]) => [-x, y, z])));

test('moving the tub changes nothing but its levels', () =>
  holds((tub, by) => movedTub(tub, ([x, y, z]) => [x + 1000 * by, y - 333 * by, z])));

test('other triangles, from corners counted from elsewhere, change nothing', () =>
  holds((tub) => ({
    ...tub,
    panels: tub.panels.map((panel) => {
      const shift = (list: readonly Vec3[]): readonly Vec3[] => [...list.slice(1), ...list.slice(0, 1)];
      return { ...panel, corners: shift(panel.corners) };
    }),
  })));
