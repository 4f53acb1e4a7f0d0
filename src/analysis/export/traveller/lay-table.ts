/** A table on paper: rows that are never cut, the heads again on every sheet. */
import type { Vec2 } from '../../geometry/vec.js';
import type { Block, Cell, Column } from './block.js';
import { box, line, moveMark, WEIGHT, words, type Mark } from './mark.js';
import { wrapText } from './measure-text.js';

/** A piece of content of known height, its marks from its own top left corner. */
export interface Strip {
  readonly height: number;
  readonly marks: readonly Mark[];
  /** Drawn once more at the top when the strip after it begins a new sheet. */
  readonly heads?: Strip;
  /** Kept on one sheet with the strip after it. */
  readonly keepsWithNext?: true;
}

const TYPE = 3.7;
const PITCH = 4.6;
const PAD: Vec2 = [1.4, 1.5];
const BOX_SIDE = 5.5;

export const layTable = ({ columns, rows }: Extract<Block, { kind: 'table' }>, width: number): Strip[] => {
  const shares = columns.reduce((sum, { share }) => sum + share, 0);
  const widths = columns.map(({ share }) => (share / shares) * width);
  const heads = headStrip(columns, widths, width);
  return [
    { ...heads, keepsWithNext: true },
    ...rows.map((row) => ({ ...rowStrip(columns, widths, row, width), heads })),
  ];
};

const headStrip = (columns: readonly Column[], widths: readonly number[], width: number): Strip => {
  const lines = columns.map(({ head }, i) => wrapText(head, widths[i] - 2 * PAD[0], TYPE * 0.9, 'bold'));
  const height = Math.max(...lines.map((l) => l.length)) * PITCH * 0.92 + 2 * PAD[1];
  const marks = placeCells(widths, (x, i) =>
    textMarks(lines[i], columns[i], [x, widths[i]], height - PAD[1] - (lines[i].length - 1) * PITCH * 0.92, 'bold'),
  );
  return {
    height,
    marks: [
      line(
        [
          [0, height],
          [width, height],
        ],
        WEIGHT.cut,
      ),
      ...marks,
    ],
  };
};

const rowStrip = (
  columns: readonly Column[],
  widths: readonly number[],
  row: readonly Cell[],
  width: number,
): Strip => {
  const lines = row.map((cell, i) => (typeof cell === 'string' ? wrapText(cell, widths[i] - 2 * PAD[0], TYPE) : []));
  const heights = row.map((cell, i) => cellHeight(cell, lines[i].length));
  const height = Math.max(...heights) + 2 * PAD[1];
  const marks = placeCells(widths, (x, i) => cellMarks(row[i], lines[i], columns[i], [x, widths[i]], height));
  return {
    height,
    marks: [
      ...marks,
      line(
        [
          [0, height],
          [width, height],
        ],
        WEIGHT.hair,
      ),
    ],
  };
};

const cellHeight = (cell: Cell, lines: number): number => {
  if (typeof cell === 'string') return lines * PITCH;
  return 'figure' in cell ? cell.figure.size[1] : BOX_SIDE;
};

const placeCells = (widths: readonly number[], marksAt: (x: number, column: number) => readonly Mark[]): Mark[] => {
  let x = 0;
  return widths.flatMap((w, i) => {
    const marks = marksAt(x, i);
    x += w;
    return marks;
  });
};

/** Where a cell begins from the left, and its width. */
type Place = readonly [number, number];

const cellMarks = (
  cell: Cell,
  lines: readonly string[],
  column: Column,
  [x, width]: Place,
  height: number,
): readonly Mark[] => {
  if (typeof cell === 'string')
    return textMarks(lines, column, [x, width], (height - lines.length * PITCH) / 2 + TYPE, 'plain');
  if ('figure' in cell) {
    const [w, h] = cell.figure.size;
    return cell.figure.marks.map((mark) => moveMark(mark, [x + (width - w) / 2, (height - h) / 2]));
  }
  if (cell.fill === 'line')
    return [
      line(
        [
          [x + PAD[0], height - PAD[1]],
          [x + width - PAD[0], height - PAD[1]],
        ],
        WEIGHT.thin,
      ),
    ];
  return [box([x + (width - BOX_SIDE) / 2, (height - BOX_SIDE) / 2], [BOX_SIDE, BOX_SIDE], WEIGHT.plain)];
};

const textMarks = (
  lines: readonly string[],
  { align }: Column,
  [x, width]: Place,
  firstBase: number,
  weight: 'plain' | 'bold',
): Mark[] => {
  const at = align === 'left' ? x + PAD[0] : align === 'right' ? x + width - PAD[0] : x + width / 2;
  const size = weight === 'bold' ? TYPE * 0.9 : TYPE;
  const pitch = weight === 'bold' ? PITCH * 0.92 : PITCH;
  return lines.map((text, i) => words(text, [at, firstBase + i * pitch], size, { align, weight }));
};
