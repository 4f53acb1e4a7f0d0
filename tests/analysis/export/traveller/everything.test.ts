/** What the report knows stands on paper: every value of it, in the shop's units. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import type { Block, Cell, Traveller } from '../../../../src/analysis/export/traveller/layout/block.js';
import { travellerOf } from '../../../../src/analysis/export/traveller/traveller.js';
import { reportOf } from '../../../../src/analysis/report/report.js';
import { analyseText } from '../../../support/analyse-text.js';
import { BASIN, METRIC } from './basin.js';

const samples = join(import.meta.dirname, '../../../../samples');
const textOf = (name: string): string => readFileSync(join(samples, name), 'utf8');

const cellText = (cell: Cell): string => (typeof cell === 'string' ? cell : 'text' in cell ? cell.text : '');

const blockText = (block: Block): string => {
  switch (block.kind) {
    case 'text':
      return block.text;
    case 'facts':
      return block.rows.map(({ name, value }) => `${name} ${value}`).join('\n');
    case 'table':
      return [block.columns.map(({ head }) => head), ...block.rows.map((row) => row.map(cellText))]
        .map((row) => row.join('  '))
        .join('\n');
    case 'figure':
      return block.caption ?? '';
    case 'cautions':
    case 'contents':
      return '';
  }
};

const paperText = ({ sections }: Traveller): string =>
  sections.map(({ title, blocks }) => [title, ...blocks.map(blockText)].join('\n')).join('\n');

interface Leaf {
  readonly path: string;
  readonly value: string | number | boolean;
}

const leavesOf = (value: unknown, path: string): Leaf[] => {
  if (value === null || value === undefined) return [];
  if (Array.isArray(value)) return value.flatMap((each) => leavesOf(each, path));
  if (typeof value === 'object')
    return Object.entries(value).flatMap(([key, inner]) => leavesOf(inner, path === '' ? key : `${path}.${key}`));
  return [{ path, value: value as string | number | boolean }];
};

/** A number as it may be rounded, in its own unit or the one that a shop reads it in. */
const SCALES: readonly (readonly [RegExp, readonly number[]])[] = [
  [/_mm$/, [1, 1e-3]],
  [/_mm2$/, [1e-2, 1e-6]],
];
const digitsOf = (value: number, path: string): string[] => {
  const scales = SCALES.find(([unit]) => unit.test(path))?.[1] ?? [1];
  return scales.flatMap((scale) =>
    [4, 3, 2, 1, 0].flatMap((places) => {
      const fixed = (value * scale).toFixed(places).replace(/^-(0(\.0*)?)$/, '$1');
      return [fixed, String(Number(fixed))];
    }),
  );
};

/** Values that are no words of their own, and what tells them. */
const TOLD_OTHERWISE: readonly RegExp[] = [
  /^version$/,
  // An arrow, and in words: `down and to the left`.
  /^assembly\.move$/,
  // A person reads what is done, not what is not: `lay it`, `turn over`, `as it lies`.
  /^making\.sequence\.steps\.(flip|turn|stop_square|press_flat|placement|load)$/,
  // Reads the clip or tab as part of the joint.
  /^hardware\.kind$/,
  /^seams\.bevels\./,
];

const isTold = (paper: string, { path, value }: Leaf): boolean => {
  if (typeof value === 'boolean' || TOLD_OTHERWISE.some((told) => told.test(path))) return true;
  if (typeof value === 'string') return paper.includes(value.replace(/`/g, ''));
  return digitsOf(value, path).some((digits) => {
    const at = paper.indexOf(digits);
    if (at < 0) return false;
    return new RegExp(`(^|[^\\d.])${digits.replace(/[.]/g, '\\.')}(?![\\d]|\\.\\d)`, 'm').test(paper);
  });
};

const CASES: readonly (readonly [string, string])[] = [
  ['a basin of clips, spots and rivet nuts', BASIN],
  ['herb-wash-basin.tub', textOf('herb-wash-basin.tub')],
  ['clipped-seed-rinse.tub', textOf('clipped-seed-rinse.tub')],
];

describe.each(CASES)('%s', (_, text) => {
  const { stages } = analyseText(text, { files: { 'shop.tub': textOf('shop.tub') } });
  const report = reportOf(stages);
  const traveller = travellerOf(stages, METRIC, []);
  const paper = paperText(traveller);

  test('every value of the report stands on paper', () => {
    const leaves = leavesOf(report, '');
    expect(leaves.length).toBeGreaterThan(300);
    expect(leaves.filter((leaf) => !isTold(paper, leaf))).toEqual([]);
  });
});

test('a value that paper lacks is found', () => {
  const { stages } = analyseText(textOf('herb-wash-basin.tub'));
  const paper = paperText(travellerOf(stages, METRIC, []));
  expect(isTold(paper, { path: 'mass.other_kg', value: 77.1234 })).toBe(false);
});
