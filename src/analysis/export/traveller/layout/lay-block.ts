/** Blocks of content as strips of paper. */
import type { Block } from './block.js';
import { layTable, type Strip } from './lay-table.js';
import { aside, box, line, moveMark, WEIGHT, words, type Mark, type Piece } from './mark.js';
import { widthOf, wrapText } from './measure-text.js';

/** Width of everything on a page, mm, the same on all papers, so that a figure is made once. */
export const CONTENT_WIDTH = 176;
const TYPE = 3.9;
const PITCH = 5;
/** For what is looked up: still more than 2 mm for a capital. */
const FINE = 3.1;

/** What a list of contents says of a section: where it begins. */
export interface Entry {
  readonly key: string;
  readonly title: string;
  readonly sheet: number;
}

/** `number`: of the block among all of the paper. */
export const layBlock = (block: Block, number: number, contents: readonly Entry[]): Strip[] => {
  switch (block.kind) {
    case 'text': {
      const weight = block.weight ?? 'plain';
      const lines = wrapText(block.text, CONTENT_WIDTH, TYPE, weight);
      const marks = lines.map((text, i) => words(text, [0, TYPE + i * PITCH], TYPE, { weight }));
      const kind = weight === 'bold' ? 'head' : 'words';
      const strip: Strip = { height: lines.length * PITCH, pieces: [{ as: { kind }, marks }] };
      return [weight === 'bold' ? { ...strip, keepsWithNext: true } : strip];
    }
    case 'facts':
      return layFacts(block, number);
    case 'table':
      return layTable(block, CONTENT_WIDTH, number);
    case 'cautions':
      return block.items.map(({ title, text }) => cautionStrip(title, text));
    case 'contents':
      return [contentsStrip(contents)];
    case 'figure':
      return [figureStrip(block)];
  }
};

const figureStrip = ({ figure, caption }: Extract<Block, { kind: 'figure' }>): Strip => {
  const left = (CONTENT_WIDTH - figure.size[0]) / 2;
  const below = caption === undefined ? [] : wrapText(caption, CONTENT_WIDTH, TYPE * 0.9);
  const captions = below.map((text, i) => words(text, [0, figure.size[1] + (i + 1) * PITCH], TYPE * 0.9));
  return {
    height: figure.size[1] + below.length * PITCH + (below.length > 0 ? 1.5 : 0),
    pieces: [
      { as: { kind: 'figure', text: figure.text }, marks: figure.marks.map((mark) => moveMark(mark, [left, 0])) },
      ...(captions.length > 0 ? [{ as: { kind: 'caption' }, marks: captions } as const] : []),
    ],
  };
};

const BETWEEN = '   ';

/** Entries one after the other in as few lines as they need. */
const contentsStrip = (contents: readonly Entry[]): Strip => {
  const size = TYPE * 0.9;
  const pieces: Piece[] = [];
  let [x, y] = [0, TYPE];
  for (const { key, title, sheet } of contents) {
    const [text] = wrapText(`${title} (${sheet})`, CONTENT_WIDTH, size);
    const width = widthOf(text, size);
    if (x > 0 && x + width > CONTENT_WIDTH) [x, y] = [0, y + PITCH];
    pieces.push({ as: { kind: 'words' }, marks: [words(text, [x, y], size)], to: key });
    x += width + widthOf(BETWEEN, size);
  }
  return { height: y + PITCH - TYPE, pieces };
};

const FACT_NAME = 58;

const layFacts = ({ rows, type }: Extract<Block, { kind: 'facts' }>, table: number): Strip[] =>
  rows.map(({ name, value }, row) => {
    const [size, pitch] = type === 'fine' ? [FINE, FINE * 1.25] : [TYPE, PITCH];
    const weight = type === 'fine' ? 'plain' : 'bold';
    const names = wrapText(name, FACT_NAME - 3, size);
    const values = wrapText(value, CONTENT_WIDTH - FACT_NAME, size, weight);
    const height = Math.max(names.length, values.length) * pitch + 1.6;
    const lines = (texts: readonly string[], x: number, w: 'plain' | 'bold'): Mark[] =>
      texts.map((text, i) => words(text, [x, size + 0.6 + i * pitch], size, { weight: w }));
    const rule = line(
      [
        [0, height],
        [CONTENT_WIDTH, height],
      ],
      WEIGHT.hair,
    );
    return {
      height,
      pieces: [
        { as: { kind: 'row head', table, row }, marks: lines(names, 0, 'plain') },
        { as: { kind: 'cell', table, row }, marks: lines(values, FACT_NAME, weight) },
        aside([rule]),
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
  return {
    height,
    pieces: [
      aside([
        box([0, 1], [CAUTION_BAR, height - 2], 0, { fill: 'black' }),
        words('!', [CAUTION_BAR / 2, height / 2 + 2], 5.6, { weight: 'bold', align: 'middle', color: 'white' }),
        box([0, 1], [CONTENT_WIDTH, height - 2], WEIGHT.plain),
      ]),
      {
        as: { kind: 'words' },
        marks: [
          ...heads.map((t, i) => words(t, [x, TYPE + 0.9 + i * PITCH * 0.95], TYPE, { weight: 'bold' })),
          ...lines.map((t, i) => words(t, [textAt, TYPE + 0.9 + i * PITCH * 0.95], TYPE * 0.92)),
        ],
      },
    ],
  };
};
