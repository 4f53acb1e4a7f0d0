import { beforeAll, describe, expect, test } from 'vitest';
import { pdfExporter } from '../../../../src/language/hosts/pdf-files.js';
import { makeExport } from '../../../../src/language/requests/make-export.js';
import { exportMark, isOwnExport } from '../../../../src/files/own-mark.js';
import { layOut } from '../../../../src/analysis/export/traveller/layout/lay-out.js';
import { htmlOf } from '../../../../src/analysis/export/traveller/to-html.js';
import type { Traveller } from '../../../../src/analysis/export/traveller/layout/block.js';
import { travellerOf } from '../../../../src/analysis/export/traveller/traveller.js';
import type { ExportOptions } from '../../../../src/analysis/export/exporter.js';
import { extentOfContour } from '../../../../src/analysis/geometry/contour.js';
import type { Stages } from '../../../../src/analysis/stages/stages.js';
import type { Analysis } from '../../../../src/language/analyse.js';
import { writePdf } from '../../../../src/language/hosts/pdf-writer.js';
import { basin, channel, INCH, METRIC } from './basin.js';
import { readPdf, type ReadPage } from './read-pdf.js';

const written = (traveller: Traveller): Promise<Uint8Array> =>
  writePdf({ title: 'x', keywords: exportMark(traveller.tub) }, layOut(traveller));

interface Printed {
  readonly traveller: Traveller;
  readonly bytes: Uint8Array;
  readonly pages: ReadPage[];
}

const printed = async (
  { stages, findings }: Pick<Analysis, 'stages' | 'findings'>,
  options: ExportOptions,
): Promise<Printed> => {
  const traveller = travellerOf(stages, options, findings);
  const bytes = await written(traveller);
  return { traveller, bytes, pages: await readPdf(bytes) };
};

let stages: Stages;
let metric: Printed;
let inch: Printed;

beforeAll(async () => {
  const made = basin();
  expect(made.codes).toEqual([]);
  stages = made.stages;
  metric = await printed(made, METRIC);
  inch = await printed(made, INCH);
});

/** The cover lists all titles. */
const pageOf = (pages: readonly ReadPage[], title: string): ReadPage => {
  const page = pages.slice(1).find(({ text }) => text.includes(title));
  if (!page) throw new Error(`no page has ${title}`);
  return page;
};

describe('the printed traveller, its words read back', () => {
  test('the pages have the size of the paper', () => {
    for (const { size } of metric.pages) expect(size.map((side) => Math.round(side))).toEqual([210, 297]);
    for (const { size } of inch.pages)
      expect(size.map((side) => side / 25.4)).toEqual([expect.closeTo(8.5, 3), expect.closeTo(11, 3)]);
  });

  test('the cover has mass, spots and volume of the model, with their units', () => {
    const fill = stages.fillTest();
    const cover = metric.pages[0].text;
    expect(cover).toContain(`${stages.mass().empty.mass.toFixed(2)} kg`);
    expect(cover).toContain(`${((fill?.holds ?? 0) / 1e6).toFixed(1)} L, to ${fill?.holdsTo.toFixed(1)} mm`);
    expect(cover).toContain('galvanized 1.2 mm');
    expect(inch.pages[0].text).toContain(`${(stages.mass().empty.mass / 0.45359237).toFixed(2)} lb`);
    expect(inch.pages[0].text).toContain(`${((fill?.holds ?? 0) / 3785411.784).toFixed(2)} gal`);
  });

  test('cautions fit the job: zinc and sealant here, no stainless, no arc', () => {
    const all = metric.pages.map(({ text }) => text).join(' ');
    for (const title of ['Zinc fume', 'Sealant', 'Spot welder', 'Weight', 'These are reminders'])
      expect(all).toContain(title);
    for (const title of ['Stainless fume', 'Solder and flux']) expect(all).not.toContain(title);
    expect(all).not.toMatch(/\bArc\b/);
  });

  test('each flat has the sizes and the bend lines of its pattern', () => {
    for (const flat of stages.flats()) {
      if (!flat) continue;
      const { min, max } = extentOfContour(flat.outline);
      const page = pageOf(metric.pages, `: ${flat.name}`);
      expect(page.text).toContain((max[0] - min[0]).toFixed(1));
      expect(page.text).toContain((max[1] - min[1]).toFixed(1));
      for (const bend of flat.bends) {
        expect(page.text).toContain(`${((bend.angle * 180) / Math.PI).toFixed(1)}°`);
        expect(page.text).toContain((bend.start[0] - min[0]).toFixed(1));
      }
    }
    const floor = stages.flats()[0];
    if (!floor) throw new Error('the floor has a flat');
    const { min, max } = extentOfContour(floor.outline);
    expect(pageOf(inch.pages, ': floor').text).toContain(((max[0] - min[0]) / 25.4).toFixed(3));
  });

  test('the bend plan has a line for each stroke with the angle that the gauge is to read', () => {
    const floor = stages.flats()[0];
    const text = pageOf(metric.pages, 'Bend plan').text;
    for (const { angle } of floor?.bends ?? []) expect(text).toContain(`${((angle * 180) / Math.PI).toFixed(1)}°`);
    expect(text).toContain('Gauge reads');
    expect(text).toContain('Stop, mm');
  });

  test('seams stand with their length, gap and number of spots', () => {
    const text = pageOf(metric.pages, 'Seams and spots').text;
    for (const { name, length } of stages.joints().seams) {
      expect(text).toContain(name);
      expect(text).toContain(`${(length / 1000).toFixed(2)} m`);
    }
  });

  test('the fill test has level, volume and weight, and boxes for four levels', () => {
    const fill = stages.fillTest();
    if (!fill) throw new Error('the basin holds water');
    const text = metric.pages
      .filter((page) => page.text.startsWith('Fill test'))
      .map((page) => page.text)
      .join(' ');
    expect(text).toContain(`${fill.level.toFixed(1)} mm in the tub\u2019s height`);
    expect(text).toContain(`${(fill.volume / 1e6).toFixed(1)} L of water`);
    expect(text).toContain(`${fill.full.mass.toFixed(1)} kg`);
    expect(text).toContain(`${Math.round(fill.watch / 60)} minutes`);
  });

  test('what was accepted stands with its reason', () => {
    const text = pageOf(metric.pages, 'Accepted on purpose').text;
    expect(text).toContain('join/spot-out-of-reach');
    expect(text).toContain('spotted with the long arms of the neighbour');
  });

  test('hardware is counted', () => {
    expect(pageOf(metric.pages, 'Hardware and supplies').text).toContain('Rivet nut M6, sealed 4');
  });

  test('no words leave the paper or run into the next column of the page', () => {
    for (const { items, size } of [...metric.pages, ...inch.pages]) {
      for (const { x, y } of items) {
        expect(x).toBeGreaterThan(5);
        expect(x).toBeLessThan(size[0] - 2);
        expect(y).toBeGreaterThan(8);
        expect(y).toBeLessThan(size[1] - 5);
      }
    }
  });

  test('written again the bytes are the same, and they are known as an export of the tub', async () => {
    expect(Buffer.compare(await written(metric.traveller), metric.bytes)).toBe(0);
    expect(isOwnExport(metric.bytes, stages.tub.name, [])).toBe(true);
    expect(isOwnExport(metric.bytes, 'other', [])).toBe(false);
  });
});

describe('the traveller as one page for a phone', () => {
  test('has the sections of the paper, loads nothing, runs nothing, and is known again', () => {
    const { traveller } = metric;
    const html = htmlOf(traveller);
    for (const { title } of traveller.sections) expect(html).toMatch(new RegExp(`</b>${title}</h[12]>`));
    expect(html).not.toMatch(/<script|\bsrc=|href="(?!#)|url\(|@import/);
    expect(html).toContain('type="checkbox"');
    const levels = [...html.matchAll(/<h([1-6])>/g)].map(([, level]) => Number(level));
    expect(levels.filter((level) => level === 1)).toHaveLength(1);
    expect(levels.filter((level, i) => level > (levels[i - 1] ?? 0) + 1)).toEqual([]);
    expect(isOwnExport(Buffer.from(html), stages.tub.name, [])).toBe(true);
    expect(htmlOf(traveller)).toBe(html);
  });

  test('words of the builder are shown, never obeyed', () => {
    const { stages: hostile, findings } = channel('<i>', '<script>alert(1)</script> & <b>');
    const html = htmlOf(travellerOf(hostile, METRIC, findings));
    expect(html).toContain('&lt;script&gt;alert(1)&lt;/script&gt; &amp; &lt;b&gt;');
    expect(html).toContain('&lt;i&gt;');
    expect(html).not.toContain('<script');
  });
});

test('names print as they are typed; letters that the type does not have show as boxes', async () => {
  const { pages } = await printed(channel('Kąpiel 洗 “Spülbecken”'), METRIC);
  expect(pages[0].text.replaceAll(' ', '')).toContain('Kąpiel\u25a1“Spülbecken”');
});

test('an export names the letters that its PDF cannot show, and only then', async () => {
  const told = async (name: string): Promise<readonly string[]> => {
    const making = makeExport(channel(name).stages, { formats: ['pdf'], options: METRIC }, [pdfExporter]);
    let step = await making.next();
    while (!step.done) step = await making.next();
    return step.value.left;
  };
  expect(await told('Łódź – 水槽 №1 ⌀')).toEqual([
    'Łódź-水槽-№1-⌀-traveller.pdf has no type for 水槽 and prints \u25a1 in their place; the HTML page shows them',
  ]);
  expect(await told('Spülbecken ?')).toEqual([]);
});
