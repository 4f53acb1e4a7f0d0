import { readdirSync, readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it, vi } from 'vitest';
import { comparingHits } from '../../../src/analysis/cache/comparing.js';
import { analyseText } from '../../support/analyse-text.js';
import type * as Support from '../../support/analyse-text.js';
import { casesOf } from '../../support/cases.js';

/** Edited and compared with a process that has seen nothing. */
const FRESH = ['clipped-seed-rinse', 'drip-pan', 'seed-funnel'];
const SAMPLES = readdirSync('samples').map((file) => file.replace('.tub', ''));

const textOf = (sample: string): string => readFileSync(`samples/${sample}.tub`, 'utf8');
const files = { 'shop.tub': textOf('shop') };

/** Its numbers outside of comments, words and quotes. */
const numbersOf = (text: string): readonly RegExpMatchArray[] =>
  [...text.matchAll(/\/\/.*|"[^"]*"|(?<![\w./])\d+(?:\.\d+)?(?![\w./])/g)].filter(([found]) => /^\d/.test(found));

/** The text with its `which`-th number (of all, counted around) made larger. */
const edited = (text: string, which: number): string => {
  const places = numbersOf(text);
  const { index, 0: number } = places[which % places.length];
  return `${text.slice(0, index)}${Number(number) + 1}${text.slice(index! + number.length)}`;
};

/** Everything that is shown of a tub, written out. */
const outcomeOf = ({ analyseText }: typeof Support, text: string): string => {
  const { findings, stages } = analyseText(text, { files });
  const outcome = [findings, stages.shape(), stages.flats(), stages.joints(), stages.water(), stages.watertight()];
  return JSON.stringify(outcome, (_, value: unknown) =>
    value instanceof Map || value instanceof Set ? [...value] : value,
  );
};

const withoutMemory = async (): Promise<typeof Support> => {
  vi.resetModules();
  return await import('../../support/analyse-text.js');
};

describe('what was seen before', () => {
  let used: typeof Support;
  beforeAll(async () => {
    used = await withoutMemory();
  });

  it.each(FRESH)('changes nothing in the outcome of an edit of %s', async (sample) => {
    const text = textOf(sample);
    for (const which of [7, 23]) {
      used.analyseText(text, { files });
      const changed = edited(text, which);
      const fresh = await withoutMemory();
      expect(outcomeOf(used, changed) === outcomeOf(fresh, changed), `number ${which} of ${sample}`).toBe(true);
    }
  });

  /** Every number of every sample once, in turn: some in each test run, all with as many cases as a sample has numbers. */
  it.each(SAMPLES)('is made alike when it is made anew, whatever number of %s is edited', (sample) => {
    const text = textOf(sample);
    const numbers = numbersOf(text).length;
    const tried = Math.min(numbers, casesOf(4));
    analyseText(text, { files });
    for (let i = 0; i < tried; i++) {
      const which = Math.floor((i * numbers) / tried);
      expect(
        comparingHits(() => void analyseText(edited(text, which), { files })),
        `number ${which}`,
      ).toEqual([]);
    }
  });

  it('keeps the faces, bends and flats that an edit leaves alone', () => {
    const row = (length: number): string => `units mm
tub "Two pans"
sheet skin = steel thickness 1 radius 1
point A = (0, 0, 0)
point B = (100, 0, 0)
point C = (100, 100, 3)
point D = (0, 100, 3)
point E = (300, 0, 0)
point F = (400, 0, 0)
point G = (400, 100, 3)
point H = (300, 100, 3)
panel one of skin = A B C D
panel two of skin = E F G H
flange lip on one[A B] turned up 90 deg by ${length}
flange wall on two[E F] turned up 90 deg by 20
`;
    const [before, after] = [20, 21.25].map((length) => used.analyseText(row(length)).stages);
    const isKept = (of: (stages: typeof after) => readonly unknown[]): readonly boolean[] =>
      of(after).map((item, i) => item === of(before)[i]);
    // The panels one and two, then the flanges, of which the first changed; one and two meet them alike. What is written after
    // it moves along in the text, and is the same all the same.
    expect(isKept((stages) => stages.shape().faces)).toEqual([true, true, false, true]);
    expect(isKept((stages) => stages.shape().bends)).toEqual([true, true]);
    expect(isKept((stages) => stages.unfolded())).toEqual([false, true]);
  });
});
