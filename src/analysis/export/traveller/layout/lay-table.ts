/** A table on paper: rows that are never cut, the heads again on every sheet. */
import type { Vec2 } from '../../../geometry/vec.js';
import type { Block, Cell, Column } from './block.js';
import { aside, box, line, moveMark, WEIGHT, words, type Mark, type Piece, type Tag } from './mark.js';
import { wrapText } from './measure-text.js';

/** Content of known height, its marks from its own top left corner. */
export interface Strip {
  readonly height: number;
  readonly pieces: readonly Piece[];
  /** Drawn once more at the top when the strip after it begins a new sheet. */
  readonly heads?: Strip;
  /** Kept on one sheet with the strip after it. */
  readonly keepsWithNext?: true;
}

const TYPE = 3.7;
const PITCH = 4.6;
const PAD: Vec2 = [1.4, 1.5];
const BOX_SIDE = 5.5;
/** mm: about six rows. */
const SHORT = 65;

/** `table`: its number among all of the paper. */
export const layTable = (
  { columns, rows }: Extract<Block, { kind: 'table' }>,
  width: number,
  table: number,
): Strip[] => {
  const shares = columns.reduce((sum, { share }) => sum + share, 0);
  const widths = columns.map(({ share }) => (share / shares) * width);
  const grid: Grid = { columns, widths, width, table };
  const heads = headStrip(grid);
  const strips = rows.map((row, i): Strip => ({ ...rowStrip(grid, row, i + 1), heads }));
  const isShort = strips.reduce((sum, { height }) => sum + height, heads.height) <= SHORT;
  // A short table is not cut; of a long one no row is left by itself.
  const keeps = (i: number): boolean => i < rows.length - 1 && (isShort || i === 0 || i === rows.length - 2);
  return [
    { ...heads, keepsWithNext: true },
    ...strips.map((strip, i): Strip => (keeps(i) ? { ...strip, keepsWithNext: true } : strip)),
  ];
};

interface Grid {
  readonly columns: readonly Column[];
  readonly widths: readonly number[];
  readonly width: number;
  readonly table: number;
}

const ruleAt = (height: number, width: number, weight: number): Piece =>
  aside([
    line(
      [
        [0, height],
        [width, height],
      ],
      weight,
    ),
  ]);

const headStrip = ({ columns, widths, width, table }: Grid): Strip => {
  const lines = columns.map(({ head }, i) => wrapText(head, widths[i] - 2 * PAD[0], TYPE * 0.9, 'bold'));
  const height = Math.max(...lines.map((l) => l.length)) * PITCH * 0.92 + 2 * PAD[1];
  const cells = placeCells(widths, (x, i): Piece => {
    const base = height - PAD[1] - (lines[i].length - 1) * PITCH * 0.92;
    return {
      as: { kind: 'head cell', table, row: 0 },
      marks: textMarks(lines[i], columns[i], [x, widths[i]], base, 'bold'),
    };
  });
  return { height, pieces: [ruleAt(height, width, WEIGHT.cut), ...cells] };
};

const rowStrip = ({ columns, widths, width, table }: Grid, row: readonly Cell[], number: number): Strip => {
  const lines = row.map((cell, i) => {
    const text = wordsOf(cell);
    return text === undefined ? [] : wrapText(text, widths[i] - 2 * PAD[0], TYPE);
  });
  const heights = row.map((cell, i) => cellHeight(cell, lines[i].length));
  const height = Math.max(...heights) + 2 * PAD[1];
  const cells = placeCells(widths, (x, i): Piece => {
    const cell = row[i];
    const marks = cellMarks(cell, lines[i], columns[i], [x, widths[i]], height);
    const as: Tag = { kind: 'cell', table, row: number };
    if (typeof cell === 'string' || 'fill' in cell) return { as, marks };
    return 'figure' in cell ? { as: { ...as, figure: cell.figure.text }, marks } : { as, marks, to: cell.to };
  });
  return { height, pieces: [...cells, ruleAt(height, width, WEIGHT.hair)] };
};

const wordsOf = (cell: Cell): string | undefined => {
  if (typeof cell === 'string') return cell;
  return 'text' in cell ? cell.text : undefined;
};

const cellHeight = (cell: Cell, lines: number): number => {
  if (wordsOf(cell) !== undefined) return lines * PITCH;
  return typeof cell === 'object' && 'figure' in cell ? cell.figure.size[1] : BOX_SIDE;
};

const placeCells = (widths: readonly number[], cellAt: (x: number, column: number) => Piece): Piece[] => {
  let x = 0;
  return widths.map((w, i) => {
    const piece = cellAt(x, i);
    x += w;
    return piece;
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
  if (typeof cell === 'string' || 'text' in cell)
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
