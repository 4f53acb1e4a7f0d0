/** A word of the language comes with all that belongs to it: what is half wired fails here with what is missing. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { AstUtils, GrammarAST, type AstNode } from 'langium';
import { describe, expect, it } from 'vitest';
import { TubGrammar } from '../../src/language/generated/grammar.js';
import { units } from '../../src/language/lower/values/units.js';
import { nameSpaceOf } from '../../src/language/names/names.js';
import { snippets } from '../../src/language/lsp/completion/snippets.js';
import { wordMeaning } from '../../src/language/lsp/word-meanings.js';
import {
  FUNCTION_WORDS,
  GROUP_WORDS,
  RESERVED_WORDS,
  STATEMENT_WORDS,
  UNIT_WORDS,
} from '../../src/language/parser/words.js';
import { analyseText } from '../support/analyse-text.js';

const root = join(import.meta.dirname, '../..');
const textOf = (file: string): string => readFileSync(join(root, file), 'utf8');
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

  it.each([...STATEMENT_WORDS, ...GROUP_WORDS])(
    '%s: a meaning, a form and a line in the text of every statement',
    (word) => {
      const missing = [
        ...(wordMeaning(word) === undefined ? [`a meaning in src/language/lsp/word-meanings.ts`] : []),
        ...(snippets.some((form) => form.word === word && form.body.includes(word))
          ? []
          : [`a form of ${word} in src/language/lsp/completion/snippets.ts`]),
        ...(new RegExp(`(?:^|[\`'])\\s*${word}\\b`, 'm').test(everyStatement)
          ? []
          : [`a line in tests/language/every-statement.test.ts`]),
      ];
      expect(missing).toEqual([]);
    },
  );

  it('are used in a text of the tests, each of them', () => {
    const words = AstUtils.streamAllContents(TubGrammar())
      .filter(GrammarAST.isKeyword)
      .map(({ value }) => value)
      .filter((value) => /^[A-Za-z]\w*$/.test(value));
    const unused = [...new Set(words)].filter((word) => !new RegExp(`\\b${word}\\b`).test(allTexts));
    expect(unused, 'a fixture under tests/fixtures, or a line in tests/language/every-statement.test.ts').toEqual([]);
  });

  it.each(UNIT_WORDS.filter((word) => word !== 'ga'))(
    'the unit %s has a size in src/language/lower/values/units.ts',
    (word) => {
      expect(units[word]).toBeDefined();
    },
  );
});

describe('what has a name of its own', () => {
  /** A leg is named by way of its strip; a liquid by what it is. */
  const NAMED_OTHERWISE = ['Leg', 'Liquid'];
  const isName = (node: AstNode): boolean =>
    GrammarAST.isAssignment(node) &&
    node.feature === 'name' &&
    GrammarAST.isRuleCall(node.terminal) &&
    ['ID', 'AnyName'].includes(node.terminal.rule.ref?.name ?? '');
  const named = TubGrammar()
    .rules.filter((rule) => AstUtils.streamAllContents(rule).some(isName))
    .map(({ name }) => name)
    .filter((name) => !NAMED_OTHERWISE.includes(name));

  it('is found', () => {
    expect(named).toEqual(expect.arrayContaining(['Sheet', 'Let', 'Tank', 'PressBrake']));
  });

  it.each(named)('%s has a name space in src/language/names/names.ts, so that no two may share a name', ($type) => {
    expect(nameSpaceOf({ $type } as AstNode)).toBeDefined();
  });
});

describe('the form of a statement', () => {
  /** The text that it leaves when nothing is typed over. */
  const plainText = (body: string): string =>
    body
      .replace(/\$\{\d+\|([^,|]+)[^}]*\|\}/g, '$1')
      .replace(/\$\{\d+:([^}]*)\}/g, '$1')
      .replace(/\$\d+/g, '');

  it.each(snippets)('$label can be read as it stands', ({ body, inside }) => {
    const text = plainText(body).replace('units mm\n', '');
    const whole =
      inside === 'strip'
        ? `strip s of skin from (0, 0, 0) heading front across right 100 {\n${text}\n}`
        : inside === 'shop'
          ? `shop "s" {\n${text}\n}`
          : text;
    const { findings } = analyseText(`units mm\n${whole}`, { rules: [] });
    expect(findings.filter(({ code }) => code === 'text/syntax')).toEqual([]);
  });

  it('of a whole tub is one without errors', () => {
    const { body } = snippets.find(({ word }) => word === 'tub')!;
    expect(analyseText(plainText(body)).findings.filter(({ severity }) => severity === 'error')).toEqual([]);
  });
});
