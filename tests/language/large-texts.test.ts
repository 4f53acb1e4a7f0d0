import { expect, test } from 'vitest';
import { limits } from '../../src/analysis/model/limits.js';
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

/** How many of each code there are, by the finding that tells the total of those that are too many to be told. */
const totals = (text: string): Readonly<Record<string, unknown>> => {
  const { findings } = analyseText(text, { rules: [] });
  expect(findings).toHaveLength(limits.findings.atMost + 1);
  return Object.fromEntries(findings.map(({ code, values }) => [code, values['found_count']]));
};

test('thousands of names that nothing has', () => {
  const text = `${HEAD}${lines(4000, (i) => `panel p${i} of t = Q${i} R${i} S${i}`)}\n`;
  expect(totals(text)).toEqual({ 'text/unknown-name': 16_000 });
});

test('thousands of lines with a fault each', () => {
  expect(totals(`${HEAD}${lines(4000, (i) => `panel p${i} of = A B`)}\n`)).toEqual({ 'text/syntax': 4000 });
});

test('thousands of statements of one name', () => {
  const text = `${HEAD}${lines(4000, () => 'point A = (0, 0, 0)')}\n`;
  expect(totals(text)).toEqual({ 'text/duplicate-name': 3999 });
});

test('comments without end, in a row and in one another', () => {
  const row = lines(100_000, () => '// nothing');
  expect(read(`${row}\n${HEAD}${row}\npoint A = (0, 0, 0)\n${row}`)).toEqual({ panels: 0, codes: [] });
  expect(read(`${'/*'.repeat(100_000)}\n${HEAD}`).codes).toEqual(['text/syntax']);
  expect(read(`${'/*'.repeat(100_000)}${'*/'.repeat(100_000)}\n${HEAD}`).codes).toEqual(['text/syntax']);
});
