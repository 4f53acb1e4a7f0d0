/** Ends of bend zones against sums of many thin slices, which share no code with their closed forms. */
import { expect, test } from 'vitest';
import { breaksOf, endLevels, levelAt, meanLevel, partOfEnd } from '../../../src/analysis/fold/zone/zone-end.js';
import type { ZoneEnd } from '../../../src/analysis/fold/flat-pattern.js';

const straight: ZoneEnd = [
  { x: 0, y: 3, bulge: 0 },
  { x: 4, y: 7, bulge: 0 },
];
/** Half circles and less, bulging either way: chord, height of the bow over it. */
const arc = (from: readonly [number, number], to: readonly [number, number], bulge: number): ZoneEnd => [
  { x: from[0], y: from[1], bulge },
  { x: to[0], y: to[1], bulge: 0 },
];
const several: ZoneEnd = [
  { x: 0, y: 1, bulge: 0.2 },
  { x: 2, y: 2, bulge: 0 },
  { x: 3, y: 4, bulge: -0.35 },
  { x: 6, y: 3.5, bulge: 0 },
];
const ends: readonly (readonly [string, ZoneEnd])[] = [
  ['a line', straight],
  ['an arc that bows down', arc([0, 2], [5, 4], 0.4)],
  ['an arc that bows up', arc([0, 2], [5, 4], -0.4)],
  ['lines and arcs', several],
];

/** By the circle through both ends whose bow over the chord is bulge times half of it. */
const sliced = (end: ZoneEnd): number => {
  const slices = 20_000;
  let sum = 0;
  for (let i = 0; i < slices; i++) sum += levelAt(end, (i + 0.5) / slices);
  return sum / slices;
};

test.each(ends)('the mean level of %s is that of its slices', (_, end) => {
  expect(meanLevel(end)).toBeCloseTo(sliced(end), 5);
});

test('the middle of an arc stands its bow away from the chord', () => {
  // Bulge is the bow over half of the chord; counter-clockwise from left to right the arc lies below.
  expect(levelAt(arc([0, 0], [6, 0], 0.5), 0.5)).toBeCloseTo(-1.5, 9);
  expect(levelAt(arc([0, 0], [6, 0], -0.5), 0.5)).toBeCloseTo(1.5, 9);
});

test.each(ends)('a part of %s runs as the whole does there', (_, end) => {
  const breaks = [0, ...breaksOf(end), 1];
  for (let i = 1; i < breaks.length; i++) {
    const [from, to] = [breaks[i - 1], breaks[i]];
    const part = partOfEnd(end, from, to);
    for (const share of [0.1, 0.5, 0.9])
      expect(levelAt(part, share)).toBeCloseTo(levelAt(end, from + share * (to - from)), 6);
    expect(endLevels(part)).toEqual([levelAt(end, from), levelAt(end, to)].map((level) => expect.closeTo(level, 9)));
  }
});
