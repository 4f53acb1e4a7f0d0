/** Puts the traveller on sheets of paper. */
import type { Vec2 } from '../../geometry/vec.js';
import type { Block, Paper, Section, Traveller } from './block.js';
import { layTable, type Strip } from './lay-table.js';
import { box, line, moveMark, WEIGHT, words, type Mark, type Page } from './mark.js';
import { widthOf, wrapText } from './measure-text.js';

/** mm. */
export const paperSizes: Readonly<Record<Paper, Vec2>> = { A4: [210, 297], Letter: [215.9, 279.4] };

/** Width of everything on a page, the same on both papers, so that a figure is made once. */
export const CONTENT_WIDTH = 176;
/** Tallest figure that still leaves room for its caption on the shorter paper. */
export const TALLEST_FIGURE = 215;

const LEFT = 14;
const TOP = 30;
const BOTTOM = 17;
const TYPE = 3.9;
const PITCH = 5;
const BLOCK_GAP = 4;

/**
 * The pages in order. A section's number stands in a black tab that steps down the right edge, so that it is found with
 * the thumb.
 */
export const layOut = (traveller: Traveller): Page[] => {
  const size = paperSizes[traveller.paper];
  const sheets = fillSheets(traveller.sections, size[1] - TOP - BOTTOM);
  return sheets.map(({ title, numbers, marks }, i) => ({
    size,
    marks: [
      ...frameMarks(title, numbers.includes(1) ? 'Shop traveller' : traveller.tub, size),
      ...numbers.flatMap((number) => tabMarks(number, size[0])),
      ...footMarks(traveller.tub, `${i + 1} of ${sheets.length}`, size),
      ...marks.map((mark) => moveMark(mark, [LEFT, TOP])),
    ],
  }));
};

interface PaperPage {
  readonly title: string;
  /** Of the sections on it. */
  readonly numbers: number[];
  readonly marks: Mark[];
}

const fillSheets = (sections: readonly Section[], room: number): PaperPage[] => {
  const sheets: PaperPage[] = [];
  let y = 0;
  const put = (strip: Strip): void => {
    sheets[sheets.length - 1].marks.push(...strip.marks.map((mark) => moveMark(mark, [0, y])));
    y += strip.height;
  };
  const open = (title: string, number: number): void => {
    sheets.push({ title, numbers: [number], marks: [] });
    y = 0;
  };
  sections.forEach((section, i) => {
    const strips = section.blocks.flatMap((block, b) => [...(b === 0 ? [] : [gapStrip]), ...layBlock(block)]);
    const head = headStrip(section.title);
    const height = strips.reduce((sum, strip) => sum + strip.height, head.height);
    if (section.starts === 'follows' && sheets.length > 0 && y + height <= room) {
      put(head);
      sheets[sheets.length - 1].numbers.push(i + 1);
    } else open(section.title, i + 1);
    strips.forEach((strip, k) => {
      const next = strip.keepsWithNext ? (strips[k + 1]?.height ?? 0) : 0;
      if (y > 0 && y + strip.height + next > room) {
        open(`${section.title}, continued`, i + 1);
        if (strip.heads) put(strip.heads);
      }
      if (y > 0 || strip.marks.length > 0) put(strip);
    });
  });
  return sheets;
};

/** Title of a section that goes below another one. */
const headStrip = (title: string): Strip => ({
  height: 20,
  marks: [
    words(title, [0, 13], 5.6, { weight: 'bold' }),
    line(
      [
        [0, 16],
        [CONTENT_WIDTH, 16],
      ],
      WEIGHT.frame,
    ),
  ],
});

const gapStrip: Strip = { height: BLOCK_GAP, marks: [] };

const layBlock = (block: Block): Strip[] => {
  switch (block.kind) {
    case 'text': {
      const weight = block.weight ?? 'plain';
      const lines = wrapText(block.text, CONTENT_WIDTH, TYPE, weight);
      const strip: Strip = {
        height: lines.length * PITCH,
        marks: lines.map((text, i) => words(text, [0, TYPE + i * PITCH], TYPE, { weight })),
      };
      return [weight === 'bold' ? { ...strip, keepsWithNext: true } : strip];
    }
    case 'facts':
      return layFacts(block.rows);
    case 'table':
      return layTable(block, CONTENT_WIDTH);
    case 'cautions':
      return block.items.map(({ title, text }) => cautionStrip(title, text));
    case 'figure': {
      const { figure, caption } = block;
      const left = (CONTENT_WIDTH - figure.size[0]) / 2;
      const below = caption === undefined ? [] : wrapText(caption, CONTENT_WIDTH, TYPE * 0.9);
      const marks = [
        ...figure.marks.map((mark) => moveMark(mark, [left, 0])),
        ...below.map((text, i) => words(text, [0, figure.size[1] + (i + 1) * PITCH], TYPE * 0.9)),
      ];
      return [{ height: figure.size[1] + below.length * PITCH + (below.length > 0 ? 1.5 : 0), marks }];
    }
  }
};

const FACT_NAME = 58;

const layFacts = (rows: Extract<Block, { kind: 'facts' }>['rows']): Strip[] =>
  rows.map(({ name, value }) => {
    const names = wrapText(name, FACT_NAME - 3, TYPE);
    const values = wrapText(value, CONTENT_WIDTH - FACT_NAME, TYPE, 'bold');
    const height = Math.max(names.length, values.length) * PITCH + 1.6;
    return {
      height,
      marks: [
        ...names.map((text, i) => words(text, [0, TYPE + 0.6 + i * PITCH], TYPE)),
        ...values.map((text, i) => words(text, [FACT_NAME, TYPE + 0.6 + i * PITCH], TYPE, { weight: 'bold' })),
        line(
          [
            [0, height],
            [CONTENT_WIDTH, height],
          ],
          WEIGHT.hair,
        ),
      ],
    };
  });

const CAUTION_BAR = 7;
const CAUTION_TITLE = 34;

const cautionStrip = (title: string, text: string): Strip => {
  const x = CAUTION_BAR + 2.5;
  const textAt = x + CAUTION_TITLE;
  const heads = wrapText(title, CAUTION_TITLE - 3, TYPE, 'bold');
  const lines = wrapText(text, CONTENT_WIDTH - textAt - 1.5, TYPE * 0.92);
  const height = Math.max(heads.length, lines.length) * PITCH * 0.95 + 3.4;
  const bar = box([0, 1], [CAUTION_BAR, height - 2], 0, { fill: 'black' });
  return {
    height,
    marks: [
      bar,
      words('!', [CAUTION_BAR / 2, height / 2 + 2], 5.6, { weight: 'bold', align: 'middle', color: 'white' }),
      ...heads.map((t, i) => words(t, [x, TYPE + 0.9 + i * PITCH * 0.95], TYPE, { weight: 'bold' })),
      ...lines.map((t, i) => words(t, [textAt, TYPE + 0.9 + i * PITCH * 0.95], TYPE * 0.92)),
      box([0, 1], [CONTENT_WIDTH, height - 2], WEIGHT.plain),
    ],
  };
};

const TAB: Vec2 = [9, 14];
const TITLE_TYPE = 7.2;

const frameMarks = (title: string, aside: string, [width]: Vec2): Mark[] => {
  const right = LEFT + CONTENT_WIDTH;
  const heads = wrapText(title, width - 2 * LEFT, TITLE_TYPE, 'bold');
  const room = CONTENT_WIDTH - widthOf(heads[0], TITLE_TYPE, 'bold') - 8;
  return [
    words(heads[0], [LEFT, 20.5], TITLE_TYPE, { weight: 'bold' }),
    ...(room > 30 ? [words(wrapText(aside, room, 4)[0], [right, 20.5], 4, { align: 'right' })] : []),
    line(
      [
        [LEFT, 24],
        [right, 24],
      ],
      WEIGHT.frame,
    ),
  ];
};

const tabMarks = (number: number, width: number): Mark[] => {
  const top = TOP + ((number - 1) % 14) * (TAB[1] + 2);
  return [
    box([width - TAB[0], top], TAB, 0, { fill: 'black' }),
    words(String(number), [width - TAB[0] / 2, top + TAB[1] / 2 + 2], 6, {
      weight: 'bold',
      align: 'middle',
      color: 'white',
    }),
  ];
};

const footMarks = (tub: string, count: string, [, height]: Vec2): Mark[] => {
  const right = LEFT + CONTENT_WIDTH;
  return [
    line(
      [
        [LEFT, height - BOTTOM + 5],
        [right, height - BOTTOM + 5],
      ],
      WEIGHT.thin,
    ),
    words(wrapText(`Shop traveller - ${tub}`, CONTENT_WIDTH - 30, 3.2)[0], [LEFT, height - BOTTOM + 9.5], 3.2),
    words(`Sheet ${count}`, [right, height - BOTTOM + 9.5], 3.2, { align: 'right' }),
  ];
};
