/** What is drawn on paper: lines, circles and words. mm from the top left corner of the page or figure, y down. */
import type { Vec2 } from '../../../geometry/vec.js';
import { widthOf, type Weight } from './measure-text.js';

export type Mark = LineMark | CircleMark | TextMark;

/** Black on white throughout: a grey is only ever a fill, so that no line is lost on a poor printer. */
export interface LineMark {
  readonly kind: 'line';
  readonly points: readonly Vec2[];
  readonly closed: boolean;
  /** 0: fill only. */
  readonly width: number;
  readonly dash?: 'dashes' | 'chain';
  /** White instead of black: what is drawn before it ends beside it. */
  readonly white?: true;
  readonly fill?: Fill;
}

export type Fill = 'white' | 'light' | 'black';

export interface CircleMark {
  readonly kind: 'circle';
  readonly center: Vec2;
  readonly radius: number;
  readonly width: number;
  readonly fill?: Fill;
}

export interface TextMark {
  readonly kind: 'text';
  readonly text: string;
  /** On the base line. */
  readonly at: Vec2;
  /** Height of the type, mm. */
  readonly size: number;
  readonly weight: Weight;
  readonly align: 'left' | 'middle' | 'right';
  /** Quarter turn to the left: reads upwards. */
  readonly upright?: true;
  readonly color?: 'white';
}

export interface Figure {
  /** Width and height. */
  readonly size: Vec2;
  readonly marks: readonly Mark[];
  /** What it shows, for those who do not see it. */
  readonly text: string;
}

/** Marks that belong together, and what they are to those who have the page read to them. */
export interface Piece {
  readonly as: Tag;
  readonly marks: readonly Mark[];
  /** The section that its words lead to. */
  readonly to?: string;
}

/** `aside`: not read out. A table is told apart from others by its number, a row by its number in the table. */
export type Tag =
  | { readonly kind: 'title' | 'head' | 'words' | 'caption' | 'aside' }
  | { readonly kind: 'figure'; readonly text: string }
  | {
      readonly kind: 'head cell' | 'row head' | 'cell';
      readonly table: number;
      readonly row: number;
      /** What the picture in the cell shows. */
      readonly figure?: string;
    };

export interface Page {
  readonly size: Vec2;
  readonly pieces: readonly Piece[];
  /** Sections that begin on it. */
  readonly opens: readonly Opening[];
}

export interface Opening {
  readonly key: string;
  readonly title: string;
  /** From the top of the page, mm. */
  readonly y: number;
}

export const aside = (marks: readonly Mark[]): Piece => ({ as: { kind: 'aside' }, marks });

export const marksOf = ({ pieces }: Pick<Page, 'pieces'>): Mark[] => pieces.flatMap(({ marks }) => marks);

export const movePiece = (piece: Piece, by: Vec2): Piece => ({
  ...piece,
  marks: piece.marks.map((mark) => moveMark(mark, by)),
});

/** The marks as a figure just as large as they are; words count by an estimate that is never too small. */
export const trimmedFigure = (marks: readonly Mark[], text: string): Figure => {
  if (marks.length === 0) return { size: [0, 0], marks: [], text };
  const [x0, y0, x1, y1] = extentOf(marks);
  return { size: [x1 - x0, y1 - y0], marks: marks.map((mark) => moveMark(mark, [-x0, -y0])), text };
};

/** Left, top, right, bottom of all marks. */
export const extentOf = (marks: readonly Mark[]): readonly [number, number, number, number] => {
  let [x0, y0, x1, y1] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const [left, top, right, bottom] of marks.map(areaOf)) {
    [x0, y0] = [Math.min(x0, left), Math.min(y0, top)];
    [x1, y1] = [Math.max(x1, right), Math.max(y1, bottom)];
  }
  return [x0, y0, x1, y1];
};

/** Left, top, right, bottom. */
const areaOf = (mark: Mark): readonly [number, number, number, number] => {
  if (mark.kind === 'circle') {
    const {
      center: [x, y],
      radius,
    } = mark;
    return [x - radius, y - radius, x + radius, y + radius];
  }
  if (mark.kind === 'line') {
    const xs = mark.points.map(([x]) => x);
    const ys = mark.points.map(([, y]) => y);
    return [
      xs.reduce((a, b) => Math.min(a, b)),
      ys.reduce((a, b) => Math.min(a, b)),
      xs.reduce((a, b) => Math.max(a, b)),
      ys.reduce((a, b) => Math.max(a, b)),
    ];
  }
  const {
    at: [x, y],
    size,
    align,
    upright,
  } = mark;
  const width = widthOf(mark.text, size, mark.weight);
  const before = align === 'left' ? 0 : align === 'right' ? width : width / 2;
  const [from, to] = [-before, width - before];
  return upright ? [x - size, y - to, x + size * 0.3, y - from] : [x + from, y - size, x + to, y + size * 0.3];
};

/** The same mark moved. */
export const moveMark = (mark: Mark, [dx, dy]: Vec2): Mark => {
  const move = ([x, y]: Vec2): Vec2 => [x + dx, y + dy];
  if (mark.kind === 'line') return { ...mark, points: mark.points.map(move) };
  return mark.kind === 'circle' ? { ...mark, center: move(mark.center) } : { ...mark, at: move(mark.at) };
};

export const line = (points: readonly Vec2[], width: number, rest: Partial<LineMark> = {}): LineMark => ({
  kind: 'line',
  points,
  closed: false,
  width,
  ...rest,
});

export const box = ([x, y]: Vec2, [w, h]: Vec2, width: number, rest: Partial<LineMark> = {}): LineMark =>
  line(
    [
      [x, y],
      [x + w, y],
      [x + w, y + h],
      [x, y + h],
    ],
    width,
    { closed: true, ...rest },
  );

/** Two hairlines that cross at a point, each `2 * arm` long. */
export const cross = ([x, y]: Vec2, arm: number): readonly LineMark[] =>
  [
    [[x - arm, y] as const, [x + arm, y] as const],
    [[x, y - arm] as const, [x, y + arm] as const],
  ].map((ends) => line(ends, WEIGHT.hair));

export const words = (text: string, at: Vec2, size: number, rest: Partial<TextMark> = {}): TextMark => ({
  kind: 'text',
  text,
  at,
  size,
  weight: 'plain',
  align: 'left',
  ...rest,
});

/** Line weights, mm. */
export const WEIGHT = { hair: 0.12, thin: 0.2, plain: 0.35, cut: 0.55, frame: 0.7 } as const;
