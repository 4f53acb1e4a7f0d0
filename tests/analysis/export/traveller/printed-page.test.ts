import { getDocument, type PDFDocumentProxy } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { layOut } from '../../../../src/analysis/export/traveller/layout/lay-out.js';
import { marksOf, type Page } from '../../../../src/analysis/export/traveller/layout/mark.js';
import { printable, widthOf } from '../../../../src/analysis/export/traveller/layout/measure-text.js';
import { travellerOf } from '../../../../src/analysis/export/traveller/traveller.js';
import { writePdf } from '../../../../src/language/hosts/pdf-writer.js';
import { basin, METRIC } from './basin.js';

const MM = 25.4 / 72;
const NAME = 'Łódź – Ванна Ωμέγα №1 ⌀ ≥';

let pages: readonly Page[];
let file: PDFDocumentProxy;

beforeAll(async () => {
  const { stages } = basin((text) => text.replace('Bottle-rinse basin', NAME));
  pages = layOut(travellerOf(stages, METRIC, []));
  const bytes = await writePdf({ title: NAME, keywords: 'x' }, pages);
  file = await getDocument({ data: Uint8Array.from(bytes), useSystemFonts: false, verbosity: 0 }).promise;
});

afterAll(() => file.destroy());

describe('the printed page, reread by an independent reader', () => {
  test('a name in three alphabets stands as it is typed', async () => {
    const { items } = await (await file.getPage(1)).getTextContent();
    const text = items.map((item) => ('str' in item ? item.str : '')).join('');
    expect(text.replaceAll(' ', '')).toContain(NAME.replaceAll(' ', ''));
  });

  test('a letter that an earlier file had only as a part of another one can be read all the same', async () => {
    const firstPageOf = async (name: string): Promise<string> => {
      const { stages } = basin((text) => text.replace('Bottle-rinse basin', name));
      const bytes = await writePdf({ title: name, keywords: 'x' }, layOut(travellerOf(stages, METRIC, [])).slice(0, 1));
      const read = await getDocument({ data: Uint8Array.from(bytes), useSystemFonts: false, verbosity: 0 }).promise;
      const { items } = await (await read.getPage(1)).getTextContent();
      await read.destroy();
      return items.map((item) => ('str' in item ? item.str : '')).join('');
    };
    for (const letters of ['\u01fd\u00ef\u0457', '\u00e6 \u0131 \u0456'])
      expect(await firstPageOf(`Tub ${letters}`)).toContain(letters);
  });

  test('every run of words is as wide as it was measured', async () => {
    let compared = 0;
    for (const [i, page] of pages.entries()) {
      const { items } = await (await file.getPage(i + 1)).getTextContent();
      const read = items.flatMap((item) => ('str' in item && item.str.trim() !== '' ? [item] : []));
      for (const mark of marksOf(page)) {
        if (mark.kind !== 'text' || mark.upright) continue;
        const [x, y] = mark.at;
        const width = widthOf(mark.text, mark.size, mark.weight);
        const left = x - { left: 0, middle: width / 2, right: width }[mark.align];
        const item = read.find(
          ({ str, transform: [, , , , e, f] }) =>
            str === mark.text && Math.hypot(e * MM - left, page.size[1] - f * MM - y) < 0.01,
        );
        if (!item) continue;
        compared++;
        expect(item.width * MM).toBeCloseTo(width, 2);
      }
    }
    expect(compared).toBeGreaterThan(200);
  });

  test('it names its language, a bookmark for each section, and links from the parts to their flats', async () => {
    const { info } = await file.getMetadata();
    expect(info).toMatchObject({ Title: NAME, Language: 'en' });
    expect(await file.getMarkInfo()).toMatchObject({ Marked: true });
    const titles = pages.flatMap(({ opens }) => opens.map(({ title }) => title));
    expect((await file.getOutline()).map(({ title }) => title)).toEqual(titles.map(printable));
    const parts = pages.findIndex(({ opens }) => opens.some(({ key }) => key === 'parts')) + 1;
    const links = await (await file.getPage(parts)).getAnnotations();
    const named: unknown = await file.getDestination('flat-2');
    const page = Array.isArray(named) ? await file.getPageIndex(named[0] as { num: number; gen: number }) : -1;
    expect(links.map(({ dest }: { dest: unknown }) => dest)).toContain('flat-2');
    expect(pages[page].opens.map(({ key }) => key)).toContain('flat-2');
  });

  test('pictures are told in words, tables by their rows, and frames not at all', async () => {
    const tree = JSON.stringify(await (await file.getPage(1)).getStructTree());
    expect(tree).toContain('"alt":"The folded tub seen from the front left, from above');
    for (const role of ['H1', 'H2', 'P', 'Table', 'TR', 'TH', 'TD', 'Link']) expect(tree).toContain(`"role":"${role}"`);
  });
});
