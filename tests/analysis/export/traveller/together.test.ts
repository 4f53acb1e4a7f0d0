/** What belongs together stays on one sheet, wherever the sheet before ends. */
import { expect, test } from 'vitest';
import type { Block, Section } from '../../../../src/analysis/export/traveller/layout/block.js';
import { layOut } from '../../../../src/analysis/export/traveller/layout/lay-out.js';

const figure = (text: string, height: number): Block => ({
  kind: 'figure',
  figure: { size: [100, height], marks: [], text },
});
const section = (key: string, blocks: readonly Block[]): Section => ({ key, title: key, starts: 'follows', blocks });

/** The sheets on which each told piece stands. */
const sheetsOf = (before: number): ReadonlyMap<string, number> => {
  const flat = section('flat', [
    { kind: 'text', text: 'One piece' },
    figure('arrows', 12),
    figure('drawing', 140),
    { kind: 'text', weight: 'bold', text: 'Head' },
    { kind: 'text', text: 'Words' },
    { kind: 'table', columns: [{ head: 'Row', align: 'left', share: 1 }], rows: [['first'], ['second']] },
  ]);
  const pages = layOut({
    title: 't',
    tub: 't',
    paper: 'A4',
    sections: [section('cover', [figure('cover', before)]), flat],
  });
  return new Map(
    pages.flatMap(({ pieces }, sheet) =>
      pieces.flatMap(({ as, marks }): [string, number][] => [
        ...('text' in as ? [[as.text, sheet] as [string, number]] : []),
        ...marks.flatMap((mark): [string, number][] => (mark.kind === 'text' ? [[mark.text, sheet]] : [])),
      ]),
    ),
  );
};

test('arrows stand on the sheet of their drawing, a head and its words on that of the first row', () => {
  for (let before = 10; before <= 240; before += 5) {
    const sheets = sheetsOf(before);
    expect(sheets.get('arrows'), `after ${before} mm`).toBe(sheets.get('drawing'));
    expect(sheets.get('Head'), `after ${before} mm`).toBe(sheets.get('first'));
    expect(sheets.get('Words'), `after ${before} mm`).toBe(sheets.get('first'));
  }
});
