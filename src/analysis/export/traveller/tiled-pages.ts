/** What is drawn at true size, over as many sheets as it takes, with marks to join them and a bar to measure. */
import type { Vec2 } from '../../geometry/vec.js';
import type { Paper } from './layout/block.js';
import { clipLine, type Rect } from './figures/clip-line.js';
import { paperSizes } from './layout/lay-out.js';
import {
  aside,
  box,
  line,
  moveMark,
  WEIGHT,
  words,
  type LineMark,
  type Mark,
  type Page,
  type Piece,
} from './layout/mark.js';
import { widthOf, wrapText } from './layout/measure-text.js';
import type { Units } from './layout/units.js';
import { fitInto } from './figures/view.js';

const EDGE = 14;
const HEAD = 22;
/** The bar stands in the foot of every sheet. */
const FOOT = 24;
/** Both sheets show this much of what the other begins with. */
const OVERLAP = 10;
const CROSS = 6;

/** Lines and words at true size, mm, y down; none but these. */
export interface TrueDrawing {
  /** `Template: apron`. */
  readonly title: string;
  /** By which other places lead to it. */
  readonly key: string;
  /** What each sheet shows, for those who do not see it. */
  readonly told: string;
  readonly marks: readonly TrueMark[];
  /** What is to be known of it, below the overview. */
  readonly lines: readonly string[];
}

export type TrueMark = LineMark | TrueWords;

/** Words that stand in the first of several places at which they cross no line and no edge of the sheet. */
export interface TrueWords extends TextMark {
  /** What they belong to: they stand on no sheet without it. */
  readonly of?: Vec2;
  /** Others than its own, with the way that they run there. */
  readonly orAt?: readonly Pick<TextMark, 'at' | 'align'>[];
}

type TextMark = Extract<Mark, { kind: 'text' }>;

/** First an overview, then the sheets in rows from the top left. */
export const tiledPages = (tub: string, drawing: TrueDrawing, paper: Paper, units: Units): Page[] => {
  const size = paperSizes[paper];
  const grid = bestGrid(drawing, size);
  const sheets = grid.tiles.map((tile): Page => {
    const [x, y] = tile.corner;
    const drawn = tile.marks.map((mark) => moveMark(mark, [EDGE - x, HEAD - y]));
    return {
      size: grid.size,
      opens: [],
      pieces: [
        { as: { kind: 'figure', text: `Sheet ${tile.name}: ${drawing.told}` }, marks: drawn },
        aside([box([EDGE, HEAD], grid.window, WEIGHT.hair, { dash: 'dashes' }), ...registrationMarks(grid, tile)]),
        ...sheetWords(`${tub}: ${drawing.title}`, tile.name, grid.size, units),
      ],
    };
  });
  return [overviewPage(tub, drawing, size, grid), ...sheets];
};

/** Sheets that it takes, without the overview. */
export const sheetsOf = (drawing: TrueDrawing, paper: Paper): number =>
  bestGrid(drawing, paperSizes[paper]).tiles.length;

const bestGrid = ({ marks }: TrueDrawing, paper: Vec2): Grid => {
  const [upright, sideways] = [gridOf(marks, paper), gridOf(marks, [paper[1], paper[0]])];
  return sideways.tiles.length < upright.tiles.length ? sideways : upright;
};

interface Grid {
  readonly size: Vec2;
  /** What of a sheet the drawing is printed in. */
  readonly window: Vec2;
  readonly columns: number;
  readonly rows: number;
  /** Those on which something stands. */
  readonly tiles: readonly Tile[];
}

interface Tile {
  readonly name: string;
  readonly column: number;
  readonly row: number;
  readonly corner: Vec2;
  readonly marks: readonly Mark[];
}

/** The drawing in the middle of as few rows and columns as hold it. */
const gridOf = (marks: readonly TrueMark[], size: Vec2): Grid => {
  const points = marks.flatMap((mark) => (mark.kind === 'line' ? mark.points : []));
  const least = [0, 1].map((k) => points.reduce((m, p) => Math.min(m, p[k]), Infinity));
  const most = [0, 1].map((k) => points.reduce((m, p) => Math.max(m, p[k]), -Infinity));
  const window: Vec2 = [size[0] - 2 * EDGE, size[1] - EDGE - HEAD - FOOT];
  const counts = [0, 1].map((k) => Math.max(1, Math.ceil((most[k] - least[k] - OVERLAP) / (window[k] - OVERLAP))));
  const first = [0, 1].map((k) => (least[k] + most[k] - counts[k] * (window[k] - OVERLAP) - OVERLAP) / 2);
  const [columns, rows] = counts;
  const settled = settleWords(marks);
  const all = Array.from({ length: rows * columns }, (_, i): Tile => {
    const [column, row] = [i % columns, Math.floor(i / columns)];
    const corner: Vec2 = [first[0] + column * (window[0] - OVERLAP), first[1] + row * (window[1] - OVERLAP)];
    const seen = settled.flatMap((mark) =>
      clipMark(mark, [corner[0], corner[1], corner[0] + window[0], corner[1] + window[1]]),
    );
    return { name: `${String.fromCharCode(65 + (row % 26))}${column + 1}`, column, row, corner, marks: seen };
  });
  return { size, window, columns, rows, tiles: all.filter((tile) => tile.marks.length > 0) };
};

/** Places of words in the order of how few lines they cross. */
const settleWords = (marks: readonly TrueMark[]): readonly TrueMark[] => {
  const lines = marks.filter((mark) => mark.kind === 'line');
  return marks.map((mark): TrueMark => {
    if (mark.kind === 'line' || !mark.orAt) return mark;
    const places = [mark, ...mark.orAt].map(({ at, align }) => ({ ...mark, at, align }));
    const crossed = places.map((place) => {
      const room = roomOf(place);
      return lines.filter(({ points, closed }) => clipLine(closed ? [...points, points[0]] : points, room).length > 0);
    });
    const order = places.map((_, i) => i).sort((a, b) => crossed[a].length - crossed[b].length || a - b);
    const [first, ...rest] = order.map((i) => places[i]);
    return { ...first, orAt: rest };
  });
};

const roomOf = ({ at: [x, y], text, size, weight, align }: TextMark): Rect => {
  const width = widthOf(text, size, weight);
  const left = align === 'right' ? x - width : align === 'middle' ? x - width / 2 : x;
  return [left, y - size, left + width, y];
};

const isWithin = ([l, t, r, b]: Rect, [left, top, right, bottom]: Rect): boolean =>
  l >= left && t >= top && r <= right && b <= bottom;

const clipMark = (mark: TrueMark, rect: Rect): Mark[] => {
  if (mark.kind === 'text') {
    if (!mark.orAt) return isIn(mark.at, rect) ? [mark] : [];
    const { orAt, of, ...own } = mark;
    if (of && !isIn(of, rect)) return [];
    const place = [own, ...orAt].find(({ at, align }) => isWithin(roomOf({ ...own, at, align }), rect));
    return place ? [{ ...own, at: place.at, align: place.align }] : [];
  }
  const points = mark.closed ? [...mark.points, mark.points[0]] : mark.points;
  return clipLine(points, rect).map((run) => ({ ...mark, points: run, closed: false }));
};

const isIn = ([x, y]: Vec2, [l, t, r, b]: Rect): boolean => x >= l && x <= r && y >= t && y <= b;

/** Crosses in the middle of the overlap: laid over those of the next sheet they join the two. */
const registrationMarks = ({ window: [width, height], columns, rows }: Grid, { column, row }: Tile): Mark[] => {
  const half = OVERLAP / 2;
  const xs = [...(column > 0 ? [half] : []), ...(column < columns - 1 ? [width - half] : [])];
  const ys = [...(row > 0 ? [half] : []), ...(row < rows - 1 ? [height - half] : [])];
  const along = (length: number): number[] => [length * 0.2, length * 0.8];
  const places: Vec2[] = [
    ...xs.flatMap((x) => along(height).map((y): Vec2 => [x, y])),
    ...ys.flatMap((y) => along(width).map((x): Vec2 => [x, y])),
  ];
  return places.flatMap(([x, y]): Mark[] => [
    line(
      [
        [EDGE + x - CROSS / 2, HEAD + y],
        [EDGE + x + CROSS / 2, HEAD + y],
      ],
      WEIGHT.thin,
    ),
    line(
      [
        [EDGE + x, HEAD + y - CROSS / 2],
        [EDGE + x, HEAD + y + CROSS / 2],
      ],
      WEIGHT.thin,
    ),
    { kind: 'circle', center: [EDGE + x, HEAD + y], radius: CROSS / 4, width: WEIGHT.thin },
  ]);
};

/** Bar whose length is measured before anything is cut: 100 mm, or 4 in. */
export const scaleBar = ({ system }: Units): { readonly length: number; readonly text: string } =>
  system === 'metric' ? { length: 100, text: '100 mm' } : { length: 101.6, text: '4 in' };

const sheetWords = (title: string, sheet: string, [width, height]: Vec2, units: Units): Piece[] => {
  const bar = scaleBar(units);
  const y = height - 12;
  const ticks = Array.from({ length: 5 }, (_, i) => EDGE + (bar.length * i) / 4);
  return [
    {
      as: { kind: 'head' },
      marks: [
        words(wrapText(title, width - 2 * EDGE - 20, 4)[0], [EDGE, 14], 4),
        words(sheet, [width - EDGE, 15.5], 7, { weight: 'bold', align: 'right' }),
      ],
    },
    aside([
      line(
        [
          [EDGE, y],
          [EDGE + bar.length, y],
        ],
        WEIGHT.cut,
      ),
      ...ticks.map((x) =>
        line(
          [
            [x, y - 3],
            [x, y + 3],
          ],
          WEIGHT.thin,
        ),
      ),
    ]),
    {
      as: { kind: 'words' },
      marks: [
        words(`This bar must measure ${bar.text}: print at 100 %, without fitting to the page`, [EDGE, y - 5], 3.5),
      ],
    },
  ];
};

const overviewPage = (
  tub: string,
  { title, key, told, marks, lines }: TrueDrawing,
  size: Vec2,
  { tiles, window: [w, h] }: Grid,
): Page => {
  const corners = tiles.flatMap(({ corner: [x, y] }): Vec2[] => [
    [x, -y],
    [x + w, -y - h],
  ]);
  const width = size[0] - 2 * EDGE;
  const fit = fitInto(corners, [width, size[1] * 0.55]);
  const put = ([x, y]: Vec2): Vec2 => {
    const [px, py] = fit.place(x, -y);
    return [EDGE + px, 30 + py];
  };
  const drawn = marks.flatMap((mark): Mark[] =>
    mark.kind === 'line' ? [{ ...mark, points: mark.points.map(put) }] : [],
  );
  const grid = tiles.flatMap(({ name, corner: [x, y] }): Mark[] => [
    line(
      [
        [x, y],
        [x + w, y],
        [x + w, y + h],
        [x, y + h],
      ].map(([a, b]) => put([a, b])),
      WEIGHT.hair,
      { closed: true, dash: 'dashes' },
    ),
    words(name, put([x + w / 2, y + h / 2]), 6, { weight: 'bold', align: 'middle' }),
  ]);
  const texts = [
    ...lines,
    'Print every sheet at 100 %, measure the bar, cut along the dashed frame of the upper sheet, lay cross on cross, and tape.',
  ].flatMap((text) => [...wrapText(text, width, 3.9), '']);
  const below = 30 + fit.size[1] + 12;
  return {
    size,
    opens: [{ key, title, y: 0 }],
    pieces: [
      {
        as: { kind: 'head' },
        marks: [words(wrapText(title, width, 6.5, 'bold')[0], [EDGE, 16], 6.5, { weight: 'bold' })],
      },
      { as: { kind: 'words' }, marks: [words(wrapText(tub, width, 4)[0], [EDGE, 23], 4)] },
      { as: { kind: 'figure', text: `How the sheets lie: ${told}` }, marks: [...drawn, ...grid] },
      { as: { kind: 'words' }, marks: texts.map((text, i) => words(text, [EDGE, below + i * 4.6], 3.9)) },
    ],
  };
};
