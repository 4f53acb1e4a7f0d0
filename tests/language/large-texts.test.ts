import { expect, test } from 'vitest';
import { analyseText, codesOf } from '../support/analyse-text.js';

const HEAD = 'units mm\nsheet s = steel 18 ga\n';
const lines = (count: number, line: (i: number) => string): string =>
  Array.from({ length: count }, (_, i) => line(i)).join('\n');

/** A form of text that would take minutes, or all of the call stack, were anything in it done for each pair or depth. */
const read = (text: string): { readonly panels: number; readonly codes: readonly string[] } => {
  const analysis = analyseText(text, { rules: [] });
  return { panels: analysis.tub.panels.length, codes: codesOf(analysis) };
};

test('a strip of thousands of legs, closed by a side', () => {
  const legs = lines(4000, (i) => `panel l${i} 10 ${i % 2 ? 'falling' : 'rising'} 5 deg`);
  expect(
    read(
      `${HEAD}strip a of s from (0, 0, 0) heading front across right 100 {\n${legs}\n}\nside b of s closes a.left up to 100\n`,
    ),
  ).toEqual({
    panels: 4001,
    codes: [],
  });
});

test('thousands of flanges, each on the one before', () => {
  const flanges = lines(4000, (i) => `flange g${i + 1} on g${i}.end turned in ${i % 2 ? 20 : 30} deg by 20`);
  expect(
    read(
      `${HEAD}point A = (0, 0, 0) point B = (100, 0, 0)\npanel f of s = A B (100, 100, 0)\nflange g0 on f[A B] turned up 90 deg by 20\n${flanges}\n`,
    ),
  ).toEqual({
    panels: 4002,
    codes: [],
  });
});

test('thousands of names that nothing has', () => {
  const { codes } = read(`${HEAD}${lines(4000, (i) => `panel p${i} of t = Q${i} R${i} S${i}`)}\n`);
  expect(codes).toHaveLength(16_000);
  expect(new Set(codes)).toEqual(new Set(['text/unknown-name']));
});

test('thousands of lines with a fault each', () => {
  const { codes } = read(`${HEAD}${lines(4000, (i) => `panel p${i} of = A B`)}\n`);
  expect(codes).toEqual(Array.from({ length: 4000 }, () => 'text/syntax'));
});

test('thousands of statements of one name', () => {
  const { codes } = read(`${HEAD}${lines(4000, () => 'point A = (0, 0, 0)')}\n`);
  expect(codes).toEqual(Array.from({ length: 3999 }, () => 'text/duplicate-name'));
});
