/** The manual: its texts are good tubs, its links lead somewhere, and what is made from the program is all there. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { limits } from '../src/analysis/model/limits.js';
import { rules } from '../src/analysis/rules/registry.js';
import { languageFindings } from '../src/language/findings/catalogue.js';
import { functionForms } from '../src/language/lsp/functions.js';
import { allMeanings } from '../src/language/lsp/word-meanings.js';
import { units } from '../src/language/lower/values/units.js';
import { fieldsOf } from '../src/language/manual/json-fields.js';
import { referencePages } from '../src/language/manual/reference.js';
import { STATEMENT_WORDS } from '../src/language/parser/words.js';
import { analyseText } from './support/analyse-text.js';

const root = join(import.meta.dirname, '..');
const textOf = (path: string): string => readFileSync(join(root, path), 'utf8');
const written = readdirSync(join(root, 'src/language/manual/pages')).map((name) => ({
  path: name,
  text: textOf(`src/language/manual/pages/${name}`),
}));
const made = referencePages({
  grammar: textOf('src/language/tub.langium'),
  checkPage: (code) =>
    textOf(`${code in languageFindings ? 'src/language/findings' : 'src/analysis/rules'}/${code}.md`),
  schemas: { report: JSON.parse(textOf('src/analysis/report/report.schema.json')) as object },
});
const pages = [...written, ...made];
const pageOf = (path: string): string => pages.find((page) => page.path === path)!.text;

const tubs = written.flatMap(({ path, text }) =>
  [...text.matchAll(/^#+ ([^\n]+)\n[^#]*?```tub\n([\s\S]*?)```/gm)].map(([, heading, tub]) => ({ path, heading, tub })),
);

describe('the texts of tutorial and cookbook', () => {
  it('are there', () => {
    expect(tubs.filter(({ path }) => path === 'tutorial.md').length).toBeGreaterThanOrEqual(6);
    expect(tubs.filter(({ path }) => path === 'cookbook.md').length).toBeGreaterThanOrEqual(15);
  });

  it.each(tubs)('$path, $heading: nothing is found that is a warning or an error', ({ heading, tub }) => {
    const found = analyseText(tub).findings.filter(({ severity }) => severity !== 'info');
    // The tutorial has not come to the drain yet.
    const expected = heading === 'The sides' ? ['drain/no-outlet'] : [];
    expect(found.map(({ code }) => code)).toEqual(expected);
  });
});

describe('links', () => {
  const codes = new Set([...rules.map(({ code }) => code), ...Object.keys(languageFindings)]);
  const slug = (heading: string): string =>
    heading
      .toLowerCase()
      .replaceAll(/[^\p{L}\p{N} -]/gu, '')
      .replaceAll(' ', '-');

  it.each(pages)('of $path lead to pages and headings that are there', ({ path, text }) => {
    for (const [, target, anchor] of text.matchAll(/\]\(([^)#\s]*)(?:#([^)\s]*))?\)/g)) {
      const check = /^\.\.\/(.+)\.md$/.exec(target)?.[1];
      if (check) expect(codes).toContain(check);
      else expect(pages.map((page) => page.path)).toContain(target || path);
      const headings = [...pageOf(check ? path : target || path).matchAll(/^#+ (.+)$/gm)].map(([, heading]) =>
        slug(heading),
      );
      if (anchor) expect(headings).toContain(anchor);
    }
  });
});

describe('what is made from the program', () => {
  it('has every statement with its meaning, every word, unit, function, limit and check', () => {
    for (const word of STATEMENT_WORDS) expect(pageOf('statements.md')).toContain(`\n## ${word}\n`);
    for (const [word, meaning] of allMeanings()) {
      expect(pageOf('words.md')).toContain(`| \`${word}\` | ${meaning.replaceAll('|', '\\|')} |`);
    }
    for (const unit of Object.keys(units)) expect(pageOf('units.md')).toContain(`| \`${unit}\` |`);
    for (const name of Object.keys(functionForms)) expect(pageOf('functions.md')).toContain(`| \`${name}(`);
    for (const { name } of Object.values(limits)) expect(pageOf('limits.md')).toContain(`| ${name} |`);
    for (const { code } of rules) expect(pageOf('checks.md')).toContain(`(../${code}.md)`);
  });

  it('tells what a unit is, and the gauges of each metal', () => {
    expect(pageOf('units.md')).toContain('| `ft` | length | 304.8 mm |');
    expect(pageOf('units.md')).toContain('| `gal/min` | flow | 3.785411784 L/min |');
    expect(pageOf('metals.md')).toContain('| 16 | 0.0598 | 1.519 |');
    expect(pageOf('metals.md')).toContain('| 6061-T6 | 2700 | 276 | 310 |');
  });

  it('tells every field of a schema once, with its path', () => {
    const fields = fieldsOf({
      type: 'object',
      properties: {
        size: { type: 'array', items: [{ type: 'number' }, { type: 'number' }] },
        parts: {
          type: 'array',
          items: {
            type: 'object',
            properties: {
              flat: { anyOf: [{ type: 'null' }, { type: 'object', properties: { width_mm: { type: 'number' } } }] },
            },
          },
        },
        side: { enum: ['dry', 'wet'], description: 'Which face lies up.' },
      },
    });
    expect(fields).toEqual([
      { path: 'size', type: '2 of number', meaning: '' },
      { path: 'parts', type: 'list of object', meaning: '' },
      { path: 'parts[].flat', type: 'null or object', meaning: '' },
      { path: 'parts[].flat.width_mm', type: 'number', meaning: '' },
      { path: 'side', type: '`dry`, `wet`', meaning: 'Which face lies up.' },
    ]);
    const report = pageOf('json.md');
    for (const path of ['parts[].flat.width_mm', 'bends[].k_source', 'mass.full_kg'])
      expect(report).toContain(`\`${path}\``);
  });
});
