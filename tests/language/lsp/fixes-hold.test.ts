/**
 * No fix breaks a tub: each that is offered is made in the text, the new text is read and checked from the start, and what is
 * found is compared. Here a share of the texts; all of them, and 200 random tubs, with `npm run verify -- --cases 200 fixes-hold`.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { arbitraryText } from '../../support/random/arbitrary-text.js';
import { casesOf } from '../../support/cases.js';
import { faultsIn } from '../../support/fix-faults.js';

const RANDOM = Math.min(200, casesOf(1));
const ALL = RANDOM === 200;
const tests = join(import.meta.dirname, '..', '..');

type Files = Readonly<Record<string, string>>;

/** A text that is not among the others, with the files beside it that it may use. */
const neighbours = (file: string, isUsed: (name: string) => boolean): Files =>
  Object.fromEntries(
    readdirSync(dirname(file))
      .filter((name) => name.endsWith('.tub') && name !== basename(file) && isUsed(name))
      .map((name) => [name, readFileSync(join(dirname(file), name), 'utf8')]),
  );

/** Every one of them, or each `every`th. */
const some = <T>(all: readonly T[], every: number): readonly T[] => (ALL ? all : all.filter((_, i) => i % every === 3));

/** Shortest first: a fix is looked for by checking the whole text anew. */
const textOfSample = (name: string): string => readFileSync(join(tests, '..', 'samples', name), 'utf8');

const fixtures = (readdirSync(join(tests, 'fixtures'), { recursive: true, encoding: 'utf8' }) as string[])
  .filter((name) => name.endsWith('.tub') && !basename(name).startsWith('_'))
  .sort();
const samples = readdirSync(join(tests, '..', 'samples'))
  .filter((name) => name.endsWith('.tub'))
  .sort((a, b) => textOfSample(a).length - textOfSample(b).length || a.localeCompare(b));

describe('after every fix that is offered its finding is gone and nothing new is found', () => {
  // A number that lets an order be decided is looked for by planning: in verify alone.
  const quick = fixtures.filter((name) => ALL || !name.includes('order-not-decided'));
  test.each(some(quick, 40))('in the fixture %s', (name) => {
    const file = join(tests, 'fixtures', name);
    expect(
      faultsIn(
        readFileSync(file, 'utf8'),
        neighbours(file, (each) => each.startsWith('_')),
      ),
    ).toEqual([]);
  });

  test.each(ALL ? samples : samples.slice(0, 24).filter((_, i) => i % 6 === 3))('in the sample %s', (name) => {
    const file = join(tests, '..', 'samples', name);
    const text = textOfSample(name);
    expect(
      faultsIn(
        text,
        neighbours(file, (each) => text.includes(`use "${each}"`)),
      ),
    ).toEqual([]);
  });

  test('in random tubs', () => {
    const texts = fc.sample(arbitraryText, { seed: 16, numRuns: RANDOM });
    expect(texts.flatMap((text) => faultsIn(text, {}))).toEqual([]);
  });
});
