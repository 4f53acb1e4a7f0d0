/** A word of the language comes with all that belongs to it: what is half wired fails here with what is missing. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { AstUtils, GrammarAST } from 'langium';
import { describe, expect, it } from 'vitest';
import { TubGrammar } from '../../src/language/generated/grammar.js';
import { units } from '../../src/language/lower/units.js';
import { wordMeaning } from '../../src/language/lsp/word-meanings.js';
import { FUNCTION_WORDS, RESERVED_WORDS, STATEMENT_WORDS, UNIT_WORDS } from '../../src/language/parser/words.js';

const root = join(import.meta.dirname, '../..');
const textOf = (file: string): string => readFileSync(join(root, file), 'utf8');
const snippets = Object.values(
  JSON.parse(textOf('snippets/tub.json')) as Record<string, { prefix: string; body: string | string[] }>,
);
/** Every text of the language in the tests of the language. */
const allTexts = ['tests/language', 'tests/fixtures', 'samples']
  .flatMap((folder) =>
    readdirSync(join(root, folder), { recursive: true, encoding: 'utf8' })
      .filter((name) => /\.(tub|test\.ts)$/.test(name))
      .map((name) => textOf(join(folder, name)).replace(/^\s*(\/\/|\*).*$/gm, '')),
  )
  .join('\n');
const everyStatement = ['every-statement', 'used-files']
  .map((name) => textOf(`tests/language/${name}.test.ts`))
  .join('\n');

describe('words of the grammar', () => {
  it('are found', () => {
    expect(STATEMENT_WORDS).toContain('strip');
    expect(FUNCTION_WORDS).toContain('toward');
    expect([...RESERVED_WORDS]).toEqual(expect.arrayContaining(['seam', 'because']));
  });

  it.each(STATEMENT_WORDS)('%s: a meaning, a snippet and a line in the text of every statement', (word) => {
    const missing = [
      ...(wordMeaning(word) === undefined ? [`a meaning in src/language/lsp/word-meanings.ts`] : []),
      ...(snippets.some(({ prefix, body }) => prefix === word && [body].flat().join('\n').includes(word))
        ? []
        : [`a snippet with the prefix ${word} in snippets/tub.json`]),
      ...(new RegExp(`(?:^|[\`'])\\s*${word}\\b`, 'm').test(everyStatement)
        ? []
        : [`a line in tests/language/every-statement.test.ts`]),
    ];
    expect(missing).toEqual([]);
  });

  it('are used in a text of the tests, each of them', () => {
    const words = AstUtils.streamAllContents(TubGrammar())
      .filter(GrammarAST.isKeyword)
      .map(({ value }) => value)
      .filter((value) => /^[A-Za-z]\w*$/.test(value));
    const unused = [...new Set(words)].filter((word) => !new RegExp(`\\b${word}\\b`).test(allTexts));
    expect(unused, 'a fixture under tests/fixtures, or a line in tests/language/every-statement.test.ts').toEqual([]);
  });

  it.each(UNIT_WORDS.filter((word) => word !== 'ga'))(
    'the unit %s has a size in src/language/lower/units.ts',
    (word) => {
      expect(units[word]).toBeDefined();
    },
  );
});
