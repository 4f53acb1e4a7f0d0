import { getDocument, OPS } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { describe, expect, test } from 'vitest';
import { dxfOf } from '../../../../src/analysis/export/flat/dxf.js';
import { CUT_OUT_ROOM, templatesOf, type Template } from '../../../../src/analysis/export/flat/template.js';
import { drawTemplate } from '../../../../src/analysis/export/flat/template-files.js';
import { clipLine } from '../../../../src/analysis/export/traveller/figures/clip-line.js';
import { templatePages } from '../../../../src/analysis/export/traveller/template-pages.js';
import { widthOf } from '../../../../src/analysis/export/traveller/layout/measure-text.js';
import { unitsOf, type UnitSystem } from '../../../../src/analysis/export/traveller/layout/units.js';
import type { Vec2 } from '../../../../src/analysis/geometry/vec.js';
import { writePdf } from '../../../../src/language/hosts/pdf-writer.js';
import { readDxf } from '../../../support/oracles/dxf-reader.js';
import { basin } from './basin.js';
import { readPdf } from './read-pdf.js';

const MM = 25.4 / 72;

/** Boxes of all paths of each page, mm, by an independent reader. */
const pathBoxes = async (
  bytes: Uint8Array,
): Promise<{ readonly width: number; readonly height: number; readonly middle: Vec2 }[][]> => {
  const file = await getDocument({ data: Uint8Array.from(bytes), verbosity: 0 }).promise;
  const pages = [];
  for (let i = 1; i <= file.numPages; i++) {
    const { fnArray, argsArray } = await (await file.getPage(i)).getOperatorList();
    pages.push(
      fnArray.flatMap((op: number, k: number) => {
        if (op !== OPS.constructPath) return [];
        const [x0, y0, x1, y1] = [...(argsArray[k] as unknown[][])[2]] as number[];
        return [
          {
            width: (x1 - x0) * MM,
            height: (y1 - y0) * MM,
            middle: [((x0 + x1) / 2) * MM, ((y0 + y1) / 2) * MM] as const,
          },
        ];
      }),
    );
  }
  await file.destroy();
  return pages;
};

const { stages } = basin();
const [apron, ...others] = templatesOf(stages);
const print = async (system: UnitSystem): Promise<Uint8Array> =>
  writePdf(
    { title: 't', keywords: 'k' },
    templatePages('basin', [apron], system === 'metric' ? 'A4' : 'Letter', unitsOf(system)),
  );

describe('template of the fastened panel', () => {
  test('there is one, with the bolts where the text puts them and clearance holes for their thread', () => {
    expect(others).toEqual([]);
    expect(apron.name).toBe('apron');
    expect(apron.side).toBe('bottom');
    expect(apron.bolts.map(({ thread, diameter }) => [thread, diameter])).toEqual(Array(4).fill(['M6', 6.6]));
    const xs = apron.bolts.map(({ center }) => center[0]).sort((a, b) => a - b);
    // From 40 mm inside one edge to 40 mm inside the other of 460 mm: 380 mm in three equal steps.
    expect(xs[3] - xs[0]).toBeCloseTo(380, 6);
    expect(xs[1] - xs[0]).toBeCloseTo(380 / 3, 6);
  });

  test('the cut-out clears all that goes on below, and little more', () => {
    const points = apron.cutOut.flat();
    const [low, high] = [Math.min(...points.map(([x]) => x)), Math.max(...points.map(([x]) => x))];
    // The tub is 460 wide inside; a cheek is 1.2 thick on each side, a clip 1.2 more on the left one.
    expect(high - low).toBeGreaterThan(460 + 2 * 1.2 + 2 * CUT_OUT_ROOM - 0.2);
    expect(high - low).toBeLessThan(460 + 4 * 1.2 + 2 * CUT_OUT_ROOM + 0.2);
  });

  test('as a drawing it keeps its size in another reader', () => {
    const file = readDxf(dxfOf(drawTemplate('basin', apron), 'apron'));
    const circles = file.entities.flatMap((entity) => (entity.type === 'CIRCLE' ? [entity] : []));
    expect(circles).toHaveLength(4);
    const xs = circles.map(({ center }) => center[0]).sort((a, b) => a - b);
    expect(xs[3] - xs[0]).toBeCloseTo(380, 5);
    expect(circles[0].radius).toBeCloseTo(3.3, 6);
  });
});

describe('template on paper', () => {
  test('the bar on every sheet is as long as it says, metric and inch', async () => {
    for (const [system, length] of [
      ['metric', 100],
      ['inch', 101.6],
    ] as const) {
      const pages = await pathBoxes(await print(system));
      expect(pages.length).toBeGreaterThan(2);
      for (const boxes of pages.slice(1)) {
        expect(boxes.filter(({ width, height }) => Math.abs(width - length) < 0.01 && height < 0.01)).toHaveLength(1);
      }
    }
  });

  test('bolts on one sheet stand true to each other, within a hundredth of a millimetre', async () => {
    const pages = await pathBoxes(await print('metric'));
    const holes = pages.slice(1).flatMap((boxes) => {
      const round = boxes.filter(({ width, height }) => Math.abs(width - 6.6) < 0.05 && Math.abs(height - 6.6) < 0.05);
      return round.length >= 2 ? [round.map(({ middle }) => middle)] : [];
    });
    expect(holes.length).toBeGreaterThan(0);
    for (const [a, b] of holes) expect(Math.abs(Math.hypot(a[0] - b[0], a[1] - b[1]) - 380 / 3)).toBeLessThan(0.01);
  });

  test('every sheet has its name, and the overview the longest span to check', async () => {
    const pages = await readPdf(await print('metric'));
    expect(pages[0].text).toContain('stand 380.0 mm apart');
    for (const { text } of pages.slice(1)) expect(text).toMatch(/\b[A-Z]\d\b/);
  });
});

test('what stands beside a hole is whole on its sheet, and on none without the hole', () => {
  const EDGE = 14;
  const around = (x: number): Template['bolts'] =>
    Array.from({ length: 40 }, (_, i) => ({ center: [x, i * 9.7], diameter: 6.6, thread: 'M6' }));
  const bolts = [0, 60, 110, 171.3, 178, 186.9, 300].flatMap(around);
  const pages = templatePages('t', [{ ...apron, bolts }], 'A4', unitsOf('metric'));
  const labels = pages
    .slice(1)
    .flatMap(({ size, pieces }) =>
      pieces.flatMap(({ marks }) =>
        marks.flatMap((mark) => (mark.kind === 'text' && mark.text.startsWith('M6') ? [{ mark, size }] : [])),
      ),
    );
  expect(labels.length).toBeGreaterThanOrEqual(bolts.length);
  for (const { mark, size } of labels) {
    const width = widthOf(mark.text, mark.size, mark.weight);
    const left = mark.at[0] - { left: 0, middle: 0.5, right: 1 }[mark.align] * width;
    expect(left).toBeGreaterThanOrEqual(EDGE);
    expect(left + width).toBeLessThanOrEqual(size[0] - EDGE);
  }
});

describe('a line clipped to a sheet', () => {
  test('goes on in the same place on the next sheet', () => {
    const points: Vec2[] = [
      [0, 0],
      [30, 10],
    ];
    const [first] = clipLine(points, [0, 0, 15, 20]);
    const [second] = clipLine(points, [15, 0, 30, 20]);
    expect(first.at(-1)).toEqual(second[0]);
    expect(first.at(-1)).toEqual([15, 5]);
  });

  test('is in two pieces where it leaves and comes back', () => {
    expect(
      clipLine(
        [
          [0, 0],
          [5, 20],
          [10, 0],
        ],
        [0, 0, 10, 10],
      ),
    ).toEqual([
      [
        [0, 0],
        [2.5, 10],
      ],
      [
        [7.5, 10],
        [10, 0],
      ],
    ]);
  });

  test('is not there when it misses', () => {
    expect(
      clipLine(
        [
          [20, 0],
          [20, 5],
        ],
        [0, 0, 10, 10],
      ),
    ).toEqual([]);
  });
});

test('a hem on the edge of the fastened panel lies on the surface: nothing is cut away for it', () => {
  const { stages: hemmed } = basin((text) =>
    text.replace('seam leftCheek', 'rim apron[C D] hem closed 10\nseam leftCheek'),
  );
  const [template] = templatesOf(hemmed);
  expect(template.bolts).toHaveLength(4);
  const box = (cutOut: readonly (readonly Vec2[])[]): number[] =>
    [0, 1].flatMap((k) => [Math.min, Math.max].map((pick) => pick(...cutOut.flat().map((point) => point[k]))));
  // The same as without it, but for where the flat of the panel begins.
  const [plain, beside] = [box(apron.cutOut), box(template.cutOut)];
  plain.forEach((side, k) => expect(beside[k]).toBeCloseTo(side, 1));
});

test('a tub that nothing is fastened to has no template', () => {
  const { stages: loose } = basin((text) => text.replace(/^hole in .*$/m, ''));
  const templates: readonly Template[] = templatesOf(loose);
  expect(templates).toEqual([]);
});
