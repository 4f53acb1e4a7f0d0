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

/** The pages in order. Each section begins a page; its number stands in a black tab that steps down the right edge. */
export const layOut = (traveller: Traveller): Page[] => {
  const size = paperSizes[traveller.paper];
  const sheets = traveller.sections.flatMap((section, i) =>
    fillSheets(section, size[1] - TOP - BOTTOM).map((marks) => ({ section, number: i + 1, marks })),
  );
  return sheets.map(({ section, number, marks }, i) => ({
    size,
    marks: [
      ...frameMarks(traveller, section, number, size, `${i + 1} of ${sheets.length}`),
      ...marks.map((mark) => moveMark(mark, [LEFT, TOP])),
    ],
  }));
};

const fillSheets = (section: Section, room: number): Mark[][] => {
  const strips = section.blocks.flatMap((block, i) => [...(i === 0 ? [] : [gapStrip]), ...layBlock(block)]);
  const sheets: Mark[][] = [[]];
  let y = 0;
  const put = (strip: Strip): void => {
    sheets[sheets.length - 1].push(...strip.marks.map((mark) => moveMark(mark, [0, y])));
    y += strip.height;
  };
  strips.forEach((strip, i) => {
    const next = strip.keepsWithNext ? (strips[i + 1]?.height ?? 0) : 0;
    if (y > 0 && y + strip.height + next > room) {
      sheets.push([]);
      y = 0;
      if (strip.heads) put(strip.heads);
    }
    if (y > 0 || strip.marks.length > 0) put(strip);
  });
  return sheets;
};

const gapStrip: Strip = { height: BLOCK_GAP, marks: [] };

const layBlock = (block: Block): Strip[] => {
  switch (block.kind) {
    case 'text': {
      const weight = block.weight ?? 'plain';
      const lines = wrapText(block.text, CONTENT_WIDTH, TYPE, weight).map((text): Strip => ({ height: PITCH, marks: [words(text, [0, TYPE], TYPE, { weight })] }));
      return weight === 'bold' ? lines.map((strip) => ({ ...strip, keepsWithNext: true })) : lines;
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
        line([[0, height], [CONTENT_WIDTH, height]], WEIGHT.hair),
      ],
    };
  });

const CAUTION_BAR = 7;

const cautionStrip = (title: string, text: string): Strip => {
  const width = CONTENT_WIDTH - CAUTION_BAR - 5;
  const heads = wrapText(title, width, TYPE, 'bold');
  const lines = wrapText(text, width, TYPE * 0.92);
  const height = (heads.length + lines.length) * PITCH * 0.95 + 3.4;
  const x = CAUTION_BAR + 2.5;
  const bar = box([0, 1], [CAUTION_BAR, height - 2], 0, { fill: 'black' });
  return {
    height,
    marks: [
      bar,
      words('!', [CAUTION_BAR / 2, height / 2 + 2.2], 6.5, { weight: 'bold', align: 'middle', color: 'white' }),
      ...heads.map((t, i) => words(t, [x, TYPE + 0.9 + i * PITCH * 0.95], TYPE, { weight: 'bold' })),
      ...lines.map((t, i) => words(t, [x, TYPE + 0.9 + (heads.length + i) * PITCH * 0.95], TYPE * 0.92)),
      box([0, 1], [CONTENT_WIDTH, height - 2], WEIGHT.plain),
    ],
  };
};

const TAB: Vec2 = [9, 14];
const TITLE_TYPE = 7.2;

const frameMarks = (traveller: Traveller, section: Section, number: number, [width, height]: Vec2, count: string): Mark[] => {
  const right = LEFT + CONTENT_WIDTH;
  const tabTop = TOP + ((number - 1) % 14) * (TAB[1] + 2);
  const room = CONTENT_WIDTH - widthOf(section.title, TITLE_TYPE, 'bold') - 8;
  const tubName = wrapText(traveller.tub, Math.max(30, room), 4)[0];
  return [
    words(section.title, [LEFT, 20.5], TITLE_TYPE, { weight: 'bold' }),
    words(tubName, [right, 20.5], 4, { align: 'right' }),
    line([[LEFT, 24], [right, 24]], WEIGHT.frame),
    box([width - TAB[0], tabTop], TAB, 0, { fill: 'black' }),
    words(String(number), [width - TAB[0] / 2, tabTop + TAB[1] / 2 + 2], 6, { weight: 'bold', align: 'middle', color: 'white' }),
    line([[LEFT, height - BOTTOM + 5], [right, height - BOTTOM + 5]], WEIGHT.thin),
    words(`Shop traveller - ${traveller.tub}`, [LEFT, height - BOTTOM + 9.5], 3.2),
    words(`Sheet ${count}`, [right, height - BOTTOM + 9.5], 3.2, { align: 'right' }),
  ];
};
