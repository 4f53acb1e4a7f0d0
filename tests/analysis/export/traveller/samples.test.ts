import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import type { ExportOptions } from '../../../../src/analysis/export/exporter.js';
import { customerSheetOf } from '../../../../src/analysis/export/traveller/customer-sheet.js';
import { layOut } from '../../../../src/analysis/export/traveller/layout/lay-out.js';
import { marksOf, type Page, type TextMark } from '../../../../src/analysis/export/traveller/layout/mark.js';
import { widthOf } from '../../../../src/analysis/export/traveller/layout/measure-text.js';
import { travellerOf } from '../../../../src/analysis/export/traveller/traveller.js';
import { casesOf } from '../../../support/cases.js';
import { INCH, METRIC } from './basin.js';
import { analyseText } from '../../../support/analyse-text.js';

const FOLDER = join(import.meta.dirname, '../../../../samples');
// Files of faults put many tubs into one place, so that their pictures lie over each other.
const samples = readdirSync(FOLDER).filter((name) => name.endsWith('.tub') && !name.startsWith('faults'));
const textOf = (name: string): string => readFileSync(join(FOLDER, name), 'utf8');

interface Area {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
  readonly text: string;
}

/** Where the letters stand; capitals are about 0.7 of the type's height. */
const areaOf = ({ text, at: [x, y], size, weight, align, upright }: TextMark): Area => {
  const width = widthOf(text, size, weight);
  const before = align === 'left' ? 0 : align === 'right' ? width : width / 2;
  return upright
    ? { left: x - 0.7 * size, top: y + before - width, right: x, bottom: y + before, text }
    : { left: x - before, top: y - 0.7 * size, right: x - before + width, bottom: y, text };
};

const wordsOf = (page: Page): Area[] => marksOf(page).flatMap((mark) => (mark.kind === 'text' ? [areaOf(mark)] : []));

const overprinted = (page: Page): string[] => {
  const areas = wordsOf(page);
  return areas.flatMap((a, i) =>
    areas
      .slice(i + 1)
      .filter(
        (b) =>
          Math.min(a.right, b.right) - Math.max(a.left, b.left) > 0.3 &&
          Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top) > 0.3,
      )
      .map((b) => `${a.text} / ${b.text}`),
  );
};

/** Numbers in rings over each other. */
const crowded = (page: Page): string[] => {
  const rings = marksOf(page).flatMap((mark) => (mark.kind === 'circle' && mark.radius > 2 ? [mark] : []));
  return rings.flatMap((a, i) =>
    rings
      .slice(i + 1)
      .filter((b) => Math.hypot(a.center[0] - b.center[0], a.center[1] - b.center[1]) < a.radius + b.radius)
      .map((b) => `${a.center.join()} / ${b.center.join()}`),
  );
};

const offPaper = (page: Page): string[] =>
  wordsOf(page)
    .filter(({ left, top, right, bottom }) => left < 3 || top < 3 || right > page.size[0] || bottom > page.size[1] - 3)
    .map(({ text }) => text);

describe.each(samples)('%s on paper', (name) => {
  const files = { 'shop.tub': textOf('shop.tub') };
  const { stages, findings } = analyseText(textOf(name), { files });

  // Of each sample one paper and system of units, by turns; in verify both.
  const both: readonly ExportOptions[] = [METRIC, INCH];
  test.each(casesOf(0) > 0 ? both : [both[samples.indexOf(name) % 2]])(
    'no words over each other, none off the sheet: $paper, $units',
    (options) => {
      const sheet = layOut(customerSheetOf(stages, options));
      expect(sheet).toHaveLength(1);
      const pages = [...layOut(travellerOf(stages, options, findings)), ...sheet];
      expect(pages.flatMap(overprinted)).toEqual([]);
      expect(pages.flatMap(crowded)).toEqual([]);
      expect(pages.flatMap(offPaper)).toEqual([]);
    },
  );
});
