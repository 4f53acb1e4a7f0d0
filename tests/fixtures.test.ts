import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { basename, dirname, join, relative } from 'node:path';
import { describe, expect, test } from 'vitest';
import { rules } from '../src/analysis/rules/registry.js';
import { analyseText, placedFindings } from './support/analyse-text.js';
import { contradictions } from './support/tubs/contradictions.js';
import { differences } from './support/expectations.js';

const folder = join(import.meta.dirname, 'fixtures');

const tubFiles = (under: string): readonly string[] => {
  const root = join(folder, under);
  if (!existsSync(root)) return [];
  return readdirSync(root, { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.tub') && !basename(name).startsWith('_'))
    .map((name) => join(root, name))
    .sort();
};

const nameOf = (file: string): string => relative(folder, file);

/** Files beside a fixture whose name starts with `_` are there to be used by it. */
const neighbours = (file: string): Record<string, string> =>
  Object.fromEntries(
    readdirSync(dirname(file))
      .filter((name) => name.startsWith('_') && /\.(tub|stl|dxf)$/.test(name))
      .map((name) => [name, readFileSync(join(dirname(file), name), 'utf8')]),
  );

const codesIn = (text: string): readonly string[] =>
  [...text.matchAll(/expect(?:-\w+)?:\s*([a-z]+\/[a-z-]+)/g)].map((match) => match[1]);

/** A check's fixture is judged by that check, and by those it names: others have fixtures of their own. */
const findIn = (file: string, own: readonly string[]): readonly string[] => {
  const text = readFileSync(file, 'utf8');
  const wanted = new Set([...own, ...codesIn(text)]);
  const analysis = analyseText(text, { files: neighbours(file), rules: rules.filter((rule) => wanted.has(rule.code)) });
  return [...differences(text, placedFindings(analysis)), ...contradictions(analysis.findings)];
};

describe('fixtures of the checks', () => {
  test.each(tubFiles('rules').map(nameOf))('%s gives what it notes', (name) => {
    const [, family, slug] = name.split('/');
    expect(findIn(join(folder, name), [`${family}/${slug}`])).toEqual([]);
  });
});

describe('fixtures of the language', () => {
  test.each([...tubFiles('language'), ...tubFiles('malformed'), ...tubFiles('regressions')].map(nameOf))(
    '%s gives what it notes',
    (name) => {
      expect(findIn(join(folder, name), [])).toEqual([]);
    },
  );
});

describe('every check', () => {
  test.each(rules.map((rule) => rule.code))(
    '%s has a text that it finds fault with, and one that it does not',
    (code) => {
      const bad = join(folder, 'rules', code, 'bad.tub');
      const ok = join(folder, 'rules', code, 'ok.tub');
      expect(existsSync(ok), ok).toBe(true);
      expect(codesIn(readFileSync(bad, 'utf8'))).toContain(code);
    },
  );
});
