import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { languageFindings } from '../../src/language/findings/catalogue.js';
import { analyseText, codesOf } from '../support/analyse-text.js';

const root = join(import.meta.dirname, '../..');
const codes = Object.keys(languageFindings);

/** What no text of bearable length gives; `expressions.test.ts` and `every-statement.test.ts` bring them about. */
const withoutFixture = new Set(['let/too-long-a-chain', 'internal/language-failed']);

const pageOf = (code: string): string => readFileSync(join(root, 'src/language/findings', `${code}.md`), 'utf8');
const blocksOf = (page: string): readonly string[] =>
  [...page.matchAll(/```tub\n([\s\S]*?)```/g)].map((match) => match[1]);

describe('every finding of the language', () => {
  test.each(codes)('%s has a page with every heading', (code) => {
    const headings = pageOf(code)
      .split('\n')
      .filter((line) => line.startsWith('#'));
    expect(headings).toEqual([
      `# ${code}`,
      '## What it reports',
      '## Why',
      '## How',
      '## Wrong',
      '## Right',
      '## Limits',
      '## Fix',
    ]);
  });

  test.each(codes.filter((code) => !withoutFixture.has(code)))(
    '%s has a text that shows it and one that does not',
    (code) => {
      for (const name of ['bad.tub', 'ok.tub'])
        expect(existsSync(join(root, 'tests/fixtures/language', code, name))).toBe(true);
      expect(readFileSync(join(root, 'tests/fixtures/language', code, 'bad.tub'), 'utf8')).toContain(`expect: ${code}`);
    },
  );

  test.each(codes.filter((code) => !/^(use|existing)\//.test(code) && !withoutFixture.has(code)))(
    'the page of %s shows it, and a text without it',
    (code) => {
      const [wrong, right] = blocksOf(pageOf(code));
      const ofLanguage = (text: string): readonly string[] =>
        codesOf(analyseText(text, { rules: [] })).filter((each) => each in languageFindings);
      expect(ofLanguage(wrong)).toEqual([code]);
      expect(ofLanguage(right)).toEqual([]);
    },
  );
});
