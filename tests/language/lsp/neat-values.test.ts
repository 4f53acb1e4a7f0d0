import { describe, expect, test } from 'vitest';
import type { Fraction, Quantity } from '../../../src/language/generated/ast.js';
import { asWritten, gridsOf, neatBeyond } from '../../../src/language/solve/neat-values.js';
import { analyseText } from '../../support/analyse-text.js';

const numberIn = (literal: string): Quantity | Fraction => {
  const { statements } = analyseText(`let a = ${literal}\n`, { rules: [] }).document.parseResult.value;
  return (statements[0] as unknown as { readonly value: Quantity | Fraction }).value;
};

/** Neat values of a literal from where it stands, as they would be written. */
const written = (literal: string, value: number, use: { whole?: boolean; inch?: boolean } = {}): readonly string[] => {
  const node = numberIn(literal);
  const grids = gridsOf(node, { whole: false, inch: false, ...use });
  return neatBeyond(node.value, value, grids).map((each) => asWritten(each, node));
};

describe('neat values', () => {
  test('lie at or beyond, the neatest first, with no more digits than a builder types', () => {
    expect(written('2 deg', 2.4997)).toEqual(['2.5']);
    expect(written('10 mm', 38.2)).toEqual(['40', '39', '38.5', '38.2']);
    expect(written('10', 3.14159)).toEqual(['3', '3.1']);
    expect(written('100 mL', 212.34)).toEqual(['220', '215', '213']);
  });

  test('keep the decimals that are there', () => {
    expect(written('0.42', 0.4387)).toEqual(['0.44']);
    expect(written('1.125 in', 1.3337)).toEqual(['1.35', '1.34', '1.334']);
  });

  test('of a count are whole', () => {
    expect(written('3', 5.2, { whole: true })).toEqual(['6']);
    expect(written('3', 1.9, { whole: true })).toEqual(['1']);
  });

  test('of a fraction are fractions of a tape', () => {
    expect(written('5/8 in', 0.88)).toEqual(['15/16']);
    expect(written('5/8 in', 1.98)).toEqual(['2']);
    expect(written('2 1/2 in', 2.9)).toEqual(['2 15/16']);
    expect(written('2 1/2', 3.24, { inch: true })).toEqual(['3 1/4']);
  });
});
