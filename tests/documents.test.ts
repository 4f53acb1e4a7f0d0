/** What README.md and DEVELOPERS.md say is true of the project as it is. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { rules } from '../src/analysis/rules/registry.js';
import { allCommands } from '../src/language/cli/commands/registry.js';
import { usageOf } from '../src/language/cli/usage.js';
import { analyseText } from './support/analyse-text.js';

const root = join(import.meta.dirname, '..');
const textOf = (file: string): string => readFileSync(join(root, file), 'utf8');
const readme = textOf('README.md');
const developers = textOf('DEVELOPERS.md');

/** Fenced blocks of one language, in order. */
const blocksOf = (text: string, language: string): string[] =>
  [...text.matchAll(/^```(\w*)\n([\s\S]*?)^```$/gm)]
    .filter(([, marked]) => marked === language)
    .map(([, , block]) => block);

describe('README.md', () => {
  it('starts with the job in one paragraph, then two command lines', () => {
    const [, paragraph] = readme.split('\n\n');
    expect(readme.startsWith('# Tubwright\n\n')).toBe(true);
    expect(paragraph).not.toMatch(/^[#!|`-]/);
    const commands = blocksOf(readme, 'bash')
      .slice(0, 2)
      .map((block) => block.trim());
    expect(commands).toEqual(['npm ci && npm run demo', 'npm ci && npm test']);
  });

  it("names the test command that the project's own run uses", () => {
    expect(textOf('.ci/run')).toMatch(/npm ci .*&& npm test/);
  });

  it('has a sample as its example, which gives the findings that it quotes', () => {
    const [example] = blocksOf(readme, 'tub');
    expect(example).toBe(textOf('samples/herb-wash-basin.tub'));
    expect(analyseText(example).findings.map(({ code }) => code)).toEqual(['make/default-shop']);
    const { findings } = analyseText(example.replace('let fall   = 4 deg', 'let fall   = 1 deg'));
    const found = findings.filter(({ severity }) => severity === 'warning');
    expect(found.map(({ code }) => code)).toEqual(['drain/too-flat', 'drain/too-flat']);
    expect(readme.replace(/\s+/g, ' ')).toContain(`warning ${found[0].code}: ${found[0].message} `);
  });

  it('shows the usage that the command line itself prints', () => {
    const shown = usageOf(allCommands)
      .split('\n')
      .filter((line) => line.startsWith('  tubwright '))
      .map((line) => line.trim());
    for (const text of [readme, textOf('src/language/manual/pages/command-line.md')])
      expect(blocksOf(text, '').some((block) => block.trim() === shown.join('\n'))).toBe(true);
  });

  it('is what a newcomer reads on a few screens', () => {
    expect(readme.split('\n').length).toBeLessThan(150);
  });

  it('links only to what exists', () => {
    const links = [...readme.matchAll(/\]\((?!https?:|#)([^)#\s]+)[^)]*\)/g)].map(([, target]) => target);
    expect(links.filter((target) => !existsSync(join(root, target)))).toEqual([]);
  });
});

describe('DEVELOPERS.md', () => {
  it('names only paths that exist', () => {
    const named = [
      ...developers.matchAll(/`((?:src|tests|bench|fuzz|scripts|samples|dist|\.ci)(?:\/[\w.<>-]+)*|[A-Z]+\.md)`/g),
    ].map(([, path]) => path);
    expect(named.length).toBeGreaterThan(20);
    const missing = named.filter((path) => !path.includes('<') && path !== 'dist' && !existsSync(join(root, path)));
    expect(missing).toEqual([]);
  });

  it('maps every folder of the analysis', () => {
    const folders = readdirSync(join(root, 'src/analysis'), { withFileTypes: true }).filter((entry) =>
      entry.isDirectory(),
    );
    const unmapped = folders
      .filter(({ name }) => !developers.includes(`| \`src/analysis/${name}\` |`))
      .map(({ name }) => name);
    expect(unmapped).toEqual([]);
  });

  it('marks exactly the invariants that the architecture test holds by number', () => {
    const marked = [...developers.matchAll(/^(\d+)\. \\\* /gm)].map(([, number]) => Number(number));
    const held = [...textOf('tests/architecture.test.ts').matchAll(/(?:it|describe)\('(\d+)\. /g)].map(([, number]) =>
      Number(number),
    );
    expect(marked).toEqual(held);
  });

  it('names every script of package.json that it tells to run', () => {
    const { scripts } = JSON.parse(textOf('package.json')) as { scripts: Record<string, string> };
    const told = [...`${developers}\n${readme}`.matchAll(/npm run ([a-z0-9:]+)/g)].map(([, name]) => name);
    expect(told.filter((name) => !(name in scripts))).toEqual([]);
  });
});

describe('pages of the checks', () => {
  it.each(rules.map((rule) => rule.code))(
    '%s: the wrong example gives exactly this finding, the right one none',
    (code) => {
      const page = textOf(`src/analysis/rules/${code}.md`);
      const exampleUnder = (heading: string): string =>
        blocksOf(page.split(`## ${heading}\n`)[1]?.split('\n## ')[0] ?? '', 'tub')[0] ?? '';
      const found = (text: string): string[] => {
        const { findings } = analyseText(text, { rules: rules.filter((rule) => rule.code === code) });
        return [...new Set(findings.map((finding) => finding.code))];
      };
      expect(found(exampleUnder('Wrong'))).toEqual([code]);
      expect(exampleUnder('Right')).not.toBe('');
      expect(found(exampleUnder('Right'))).toEqual([]);
    },
  );
});
