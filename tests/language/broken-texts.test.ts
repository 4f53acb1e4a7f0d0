import { casesOf } from '../support/cases.js';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { analyseText, codesOf, testServices } from '../support/analyse-text.js';
import { grammarPlaces } from '../support/grammar-places.js';

const folder = join(import.meta.dirname, '../../samples');
const samples = readdirSync(folder).filter((name) => name.endsWith('.tub'));
const textOf = (name: string): string => readFileSync(join(folder, name), 'utf8');
const shop = { 'shop.tub': textOf('shop.tub') };
/** The only file that samples use, to a text that uses any. */
const neighboursOf = (text: string): Readonly<Record<string, string>> => (text.includes('use ') ? shop : {});

/** At most about `count` of a list, spread evenly: a long text is not worth more time than a short one. */
const someOf = <T>(list: readonly T[], count: number): readonly T[] => {
  const step = Math.max(1, Math.ceil(list.length / count));
  return list.filter((_, i) => i % step === step >> 1);
};

interface Piece {
  readonly start: number;
  readonly end: number;
}

const tokensOf = (text: string): readonly Piece[] =>
  testServices()
    .tub.parser.Lexer.tokenize(text)
    .tokens.map((token) => ({ start: token.startOffset, end: token.startOffset + token.image.length }));

/** Our own faults, caught and reported, and words for what is not there: none may be brought about by any text. */
const faultsIn = (text: string, rules?: readonly []): readonly string[] => {
  const analysis = analyseText(text, { files: neighboursOf(text), ...(rules && { rules }) });
  return analysis.findings.flatMap(({ code, message, values }) => {
    if (code.startsWith('internal/')) return [String(values['reason'])];
    return /\b(undefined|NaN)\b|\[object /.test(message) ? [message] : [];
  });
};

const fixtures = ['rules', 'language'].flatMap((name) => {
  const from = join(import.meta.dirname, '../fixtures', name);
  const files = readdirSync(from, { recursive: true, encoding: 'utf8' }).filter((file) => file.endsWith('.tub'));
  return files.map((file) => readFileSync(join(from, file), 'utf8'));
});

describe('at every place of the grammar', () => {
  const places = grammarPlaces([...fixtures, ...samples.map(textOf)]);
  const without = ({ text, start, end }: (typeof places)[number]): string => text.slice(0, start) + text.slice(end);

  const untilThere = ({ text, end }: (typeof places)[number]): string => text.slice(0, end);

  const twice = (place: (typeof places)[number]): string => `${without(place)}\n${without(place)}`;

  // Every third place is broken, in one way; in verify all of them in all ways.
  const isEvery = casesOf(1) > 1;
  const ways = isEvery ? [[without, untilThere, twice]] : [[without], [untilThere], [twice]];
  const tried = isEvery ? places : places.filter((_, i) => i % 3 === 1);
  test('a text is evaluated with a word missing, once or twice, or when its typing stops', () => {
    expect(places.length).toBeGreaterThan(500);
    for (const [i, place] of tried.entries())
      for (const broken of ways[i % ways.length]) expect(faultsIn(broken(place), [])).toEqual([]);
  });

  test('a text is checked by every check with a word missing here and there', () => {
    for (const place of someOf(places, casesOf(30))) expect(faultsIn(without(place))).toEqual([]);
  });
});

// One in three, the others in verify.
describe.each(someOf(samples, casesOf(7)))('%s', (name) => {
  const text = textOf(name);
  const tokens = tokensOf(text);

  test('is evaluated with words missing', () => {
    for (const { start, end } of someOf(tokens, casesOf(6)))
      expect(faultsIn(text.slice(0, start) + text.slice(end), [])).toEqual([]);
  });

  test('is checked by every check with words missing here and there', () => {
    for (const { start, end } of someOf(tokens, casesOf(1, 0.1))) {
      expect(faultsIn(text.slice(0, start) + text.slice(end))).toEqual([]);
    }
  });

  test('is evaluated wherever its typing stops', () => {
    for (const { end } of someOf(tokens, casesOf(4))) expect(faultsIn(text.slice(0, end), [])).toEqual([]);
  });
});

test('any pieces of texts in any order are evaluated without a fault of our own', () => {
  const words = [
    ...new Set(
      samples.flatMap((name) => tokensOf(textOf(name)).map(({ start, end }) => textOf(name).slice(start, end))),
    ),
  ];
  fc.assert(
    fc.property(fc.array(fc.constantFrom(...words), { maxLength: 60 }), (pieces) => {
      expect(faultsIn(pieces.join(' '), [])).toEqual([]);
    }),
    { seed: 20240611, numRuns: casesOf(80) },
  );
});

test('any characters at all are evaluated without a fault of our own', () => {
  fc.assert(
    fc.property(fc.string({ unit: 'grapheme', maxLength: 80 }), (text) => {
      expect(faultsIn(text, [])).toEqual([]);
    }),
    { seed: 20240612, numRuns: casesOf(80) },
  );
});

test('a fault in a text hides none of the findings elsewhere', () => {
  const fault = 'let broken = 1 deg + 1 mm\n';
  for (const name of samples) {
    const text = textOf(name);
    for (const { start, end } of tokensOf(text)
      .filter((_, i) => i % 17 === 5)
      .slice(0, casesOf(3, 0.1))) {
      const broken = `${text.slice(0, start)}${text.slice(end)}\n${fault}`;
      const codes = codesOf(analyseText(broken, { files: neighboursOf(text), rules: [] }));
      expect(codes).toContain('unit/mixed');
    }
  }
});
