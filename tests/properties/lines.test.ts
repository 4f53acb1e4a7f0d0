/** A line pasted twice, or lost: what happens to every text, and is answered as the text itself is. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { analyseText } from '../support/analyse-text.js';
import { casesOf } from '../support/cases.js';

const folder = join(import.meta.dirname, '../../samples');
const textOf = (name: string): string => readFileSync(join(folder, name), 'utf8');
const files = { 'shop.tub': textOf('shop.tub') };

/** Each line of each sample, twice and not at all; the shortest samples first. */
const changed = readdirSync(folder)
  .filter((name) => name.endsWith('.tub'))
  .map((name) => ({ name, lines: textOf(name).split('\n') }))
  .sort((a, b) => a.lines.length - b.lines.length)
  .flatMap(({ name, lines }) =>
    lines.flatMap((line, i) => {
      if (line.trim() === '' || line.startsWith('//')) return [];
      const texts = [
        [...lines.slice(0, i), line, ...lines.slice(i)],
        [...lines.slice(0, i), ...lines.slice(i + 1)],
      ];
      return texts.map((text, k) => ({
        what: `${name}:${i + 1} ${k === 0 ? 'twice' : 'lost'}`,
        text: text.join('\n'),
      }));
    }),
  );

test('any line of any sample, twice or lost, leaves a text that every check answers', () => {
  const count = Math.min(casesOf(6), changed.length);
  const step = changed.length / count;
  // The few of every run are of the short samples, in which a line counts most.
  const chosen = Array.from({ length: count }, (_, i) => changed[Math.floor(count < 100 ? (i * step) / 4 : i * step)]);
  for (const { what, text } of chosen) {
    const crashes = analyseText(text, { files }).findings.filter(({ code }) => code.startsWith('internal/'));
    expect(crashes, what).toEqual([]);
  }
});
