/**
 * Values that are worked out, against knowledge of their own: every value of a grid tried (few free values), and the file with
 * the values in it checked anew by the command line.
 */
import { copyFileSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { diskHost } from '../../src/language/cli/disk/disk-host.js';
import { plainPaint } from '../../src/language/cli/paint.js';
import { run } from '../../src/language/cli/run.js';
import { freeProblemOf } from '../../src/language/solve/free-problem.js';
import { analyseText, testServices } from '../support/analyse-text.js';
import { casesOf } from '../support/cases.js';
import { seededUniform } from '../support/random/random.js';
import { finished } from '../support/search-problem.js';
import { trayText } from '../support/tubs/tray-text.js';
import { valuesOf, workedOut } from '../support/tubs/worked-out.js';

const GRIDS = casesOf(1, 0.2);
const RANDOM = casesOf(2);

const pick = <T>(uniform: () => number, list: readonly T[]): T => list[Math.floor(uniform() * list.length)];

/** A tray with one to three free values and wishes that may, may just, or may not be met. */
const randomText = (uniform: () => number, most: number): string => {
  const free = (chance: number, text: string): string => (uniform() < chance ? text : '');
  const between = (low: number, high: number): number => Math.round(low + uniform() * (high - low));
  const rim = `${between(50, 100)} free 40 to ${between(110, 140)} by ${pick(uniform, [2, 4, 5])}`;
  const inside = `${between(200, 400)}${most > 1 ? free(0.6, ' free 200 to 400 by 10') : ''}`;
  const fall = `${pick(uniform, ['1', '1.5', '2'])} deg${most > 2 ? free(0.6, ' free 0.5 deg to 4 deg by 0.25 deg') : ''}`;
  const keepout = free(0.5, `keepout bench from (-50, -50, -100) to (500, 400, ${between(-20, 4)})\n`);
  const wishes = [
    pick(uniform, ['least let rim', 'least mass', 'most capacity', 'least sheet', 'most slope of base']),
    free(0.8, `capacity at least ${between(3, 9)} L`),
    free(0.4, `capacity at most ${between(8, 12)} L`),
    free(0.4, `mass at most ${between(3, 6)} kg`),
    free(0.4, 'slope of base at least 1 deg'),
    free(0.5, 'no errors'),
  ];
  return trayText({ rim, inside, fall, rest: `${keepout}aim { ${wishes.join('  ')} }` });
};

describe('against every value of a grid', () => {
  test.each(Array.from({ length: GRIDS }, (_, i) => i))('tub %i', (seed) => {
    const text = randomText(seededUniform(400 + seed), 2);
    const { outcome } = workedOut(text);
    const analysis = analyseText(text);
    const { problem } = freeProblemOf(testServices().shared.workspace.LangiumDocuments, analysis);
    let best = Infinity;
    for (const values of everyChoice(problem.unknowns)) {
      const trial = finished(problem.attempt(values));
      if (!trial || trial.misses.some((miss) => miss > 0) || trial.goals[0] >= best) continue;
      if (finished(trial.dear()).every((miss) => miss <= 0)) best = trial.goals[0];
    }
    expect(outcome.isMet).toBe(best < Infinity);
    if (!outcome.isMet) return;
    const found = finished(problem.attempt(analysis.free.map(({ node }) => valuesOf(outcome)[node.name])))!;
    expect(found.goals[0]).toBeCloseTo(best, 9);
  });
});

const everyChoice = (
  unknowns: readonly { readonly low: number; readonly high: number; readonly step: number | undefined }[],
): readonly (readonly number[])[] =>
  unknowns.reduce<readonly (readonly number[])[]>(
    (choices, { low, high, step = 1 }) => {
      const values = Array.from({ length: Math.floor((high - low) / step + 1e-9) + 1 }, (_, i) => low + i * step);
      return choices.flatMap((choice) => values.map((value) => [...choice, value]));
    },
    [[]],
  );

describe('the sample', () => {
  test('has the values that its first comment states', () => {
    const texts = Object.fromEntries(
      ['potting-bench-basin.tub', 'shop.tub'].map((name) => [
        name,
        readFileSync(join(import.meta.dirname, '../../samples', name), 'utf8'),
      ]),
    );
    const { outcome, text } = workedOut(texts['potting-bench-basin.tub'], {}, texts);
    expect(valuesOf(outcome)).toEqual({ inside: 420, rim: 130, fall: 3 });
    const { findings } = analyseText(text, { files: texts, effort: 'full' });
    expect(findings.filter(({ severity }) => severity !== 'info')).toEqual([]);
  });
});

describe('what is said to be met', () => {
  const folder = mkdtempSync(join(tmpdir(), 'tubwright-free-'));
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  const tubwright = async (...words: readonly string[]): Promise<{ readonly code: number; readonly out: string }> => {
    let out = '';
    const put = (text: string): void => void (out += text);
    const quiet = (): void => undefined;
    const code = await run(words, diskHost, {
      write: () => undefined,
      out: put,
      error: quiet,
      paint: plainPaint,
      version: '1',
      exporters: [],
    });
    return { code, out };
  };
  const findingsIn = async (file: string): Promise<readonly { readonly code: string; readonly severity: string }[]> =>
    (JSON.parse((await tubwright('check', file, '--json')).out) as { files: { findings: never[] }[] }).files[0]
      .findings;

  test.each(Array.from({ length: RANDOM }, (_, i) => i))(
    'is met when the command line checks the file anew: tub %i',
    async (seed) => {
      const text = randomText(seededUniform(9000 + seed), 3);
      const file = join(folder, `${seed}.tub`);
      writeFileSync(file, text);
      const before = new Set((await findingsIn(file)).map(({ code }) => code));
      const { code, out } = await tubwright('solve', file, '--write', '--json', '--tries', '120');
      if (code === 1) {
        expect((JSON.parse(out) as { conflicts: unknown[] }).conflicts.length).toBeGreaterThan(0);
        expect(readFileSync(file, 'utf8')).toBe(text);
        return;
      }
      expect(code).toBe(0);
      // Under another name: what a process has read once it does not read again.
      const written = join(folder, `${seed}-written.tub`);
      copyFileSync(file, written);
      const found = await findingsIn(written);
      const errors = found.filter(({ severity }) => severity === 'error').map((each) => each.code);
      expect(found.filter((each) => each.code === 'aim/not-met')).toEqual([]);
      expect(errors.filter((each) => !before.has(each) || text.includes('no errors'))).toEqual([]);
    },
  );
});
