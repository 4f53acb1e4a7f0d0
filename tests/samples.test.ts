/** The samples show what they say they show, and between them a fault for every code. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { rules } from '../src/analysis/rules/registry.js';
import { languageFindings } from '../src/language/findings/catalogue.js';
import { contradictions } from './support/tubs/contradictions.js';
import { analyseText } from './support/analyse-text.js';

const folder = join(import.meta.dirname, '..', 'samples');
const names = readdirSync(folder)
  .filter((name) => name.endsWith('.tub'))
  .sort();
const texts = Object.fromEntries(names.map((name) => [name, readFileSync(join(folder, name), 'utf8')]));

interface Found {
  /** Codes of severity error and warning. */
  readonly faults: readonly string[];
  readonly all: readonly string[];
}

/** Codes that are found in a sample, with the samples that it uses beside it. */
const findIn = (name: string): Found => {
  const text = texts[name];
  const used = [...text.matchAll(/^use "([^"]+)"/gm)]
    .map(([, path]) => path)
    .filter((path) => path in texts && path !== name);
  const { findings } = analyseText(text, { files: Object.fromEntries(used.map((path) => [path, texts[path]])) });
  expect(contradictions(findings)).toEqual([]);
  const codesOf = (some: typeof findings): string[] => [...new Set(some.map(({ code }) => code))].sort();
  return { faults: codesOf(findings.filter(({ severity }) => severity !== 'info')), all: codesOf(findings) };
};

const found = new Map<string, Found>();
const foundIn = (name: string): Found => {
  if (!found.has(name)) found.set(name, findIn(name));
  return found.get(name)!;
};

/** Codes that the first comment of a sample names. */
const statedIn = (text: string): string[] => {
  const comment = /^(?:\/\/[^\n]*\n)+/.exec(text)?.[0].replace(/\n\/\/ /g, ' ') ?? '';
  return [...new Set([...comment.matchAll(/\b[a-z]+\/[a-z]+(?:-[a-z]+)*\b/g)].map(([code]) => code))].sort();
};

/** What no sample can show here: a file that uses itself is another one in a test; what is open is so only while typing; the rest takes thousands of lines, a second file, or a fault of the program. */
const NOT_SHOWN = [
  'make/order-not-decided',
  'existing/missing-file',
  'existing/outside-workspace',
  'existing/not-readable',
  'existing/open-surface',
  'existing/unlikely-unit',
  'existing/left-out',
  'use/cycle',
  'use/has-errors',
  'use/own-only',
  'use/not-own',
  'use/set-aside',
  'use/taken-over',
  'let/too-long-a-chain',
  // A net has one fault at a time.
  'taped/apart',
  'taped/two-places',
  'join/too-many-pieces',
  'internal/language-failed',
];

describe('samples', () => {
  it.each(names)('%s gives the findings that its first comment states, and no others', (name) => {
    const stated = statedIn(texts[name]).filter((code) => !NOT_SHOWN.includes(code));
    const { faults, all } = foundIn(name);
    expect(faults.filter((code) => !stated.includes(code))).toEqual([]);
    expect(stated.filter((code) => !all.includes(code))).toEqual([]);
  });

  it('show every code that can be reported', () => {
    const shown = new Set(
      names
        .filter((name) => name.startsWith('faults'))
        .flatMap((name) => [...foundIn(name).all, ...statedIn(texts[name])]),
    );
    const codes = [...rules.map(({ code }) => code), ...Object.keys(languageFindings)];
    expect(codes.filter((code) => !shown.has(code) && !NOT_SHOWN.includes(code))).toEqual([]);
  });
});
