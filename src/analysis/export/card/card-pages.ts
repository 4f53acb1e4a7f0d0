/** A mock-up of card on paper: the whole tub at a small scale on few sheets, and every part 1:1 over as many as it takes. */
import type { Vec2 } from '../../geometry/vec.js';
import type { Stages } from '../../stages/stages.js';
import type { Paper } from '../traveller/layout/block.js';
import { paperSizes } from '../traveller/layout/lay-out.js';
import { aside, extentOf, line, moveMark, WEIGHT, words, type Mark, type Page } from '../traveller/layout/mark.js';
import { wrapText } from '../traveller/layout/measure-text.js';
import { sheetsOf, tiledPages, type TrueDrawing } from '../traveller/tiled-pages.js';
import type { Units } from '../traveller/layout/units.js';
import { cardMarks } from './card-drawing.js';
import { cardPatternsOf } from './make-pattern.js';

export interface CardPages {
  readonly pages: readonly Page[];
  /** Parts that are printed small only, with the sheets that they would take. */
  readonly smallOnly: readonly { readonly part: string; readonly sheets: number }[];
}

/** mm on paper. Holds, and folds back. */
const FLAP = 10;
const SMALL_FLAP = 6;
/** Sheets of one part: more are printed on a plotter, from the drawing. */
const MOST_SHEETS = 60;

export const cardPages = (stages: Stages, paper: Paper, units: Units): CardPages => {
  const drawings = cardPatternsOf(stages, FLAP).map((pattern): TrueDrawing => ({
    title: `Card: ${pattern.name}`,
    key: `card-${pattern.name}`,
    told: `pattern of ${pattern.name} in card, 1:1`,
    marks: cardMarks(pattern, 1),
    lines: HOW,
  }));
  const counted = drawings.map((drawing) => ({ drawing, sheets: sheetsOf(drawing, paper) }));
  const { name } = stages.tub;
  return {
    pages: [
      ...smallPages(stages, paper),
      ...counted
        .filter(({ sheets }) => sheets <= MOST_SHEETS)
        .flatMap(({ drawing }) => tiledPages(name, drawing, paper, units)),
    ],
    smallOnly: counted
      .filter(({ sheets }) => sheets > MOST_SHEETS)
      .map(({ drawing, sheets }) => ({ part: drawing.title.replace('Card: ', ''), sheets })),
  };
};

const HOW: readonly string[] = [
  'Seen on the dry side. Solid: cut. Dashes: fold up, towards you. Long and short dashes: fold down. Score first: down folds on the back, up folds on the front, so that the wet face keeps its size.',
  'The pattern is the wet face to its sharp corners; card and sheet grow away from the water, so the inside of the mock-up is true. Numbers are those of the seams: glue each flap under the edge that has its number; a numbered edge without a flap on either part is taped. Clips, frames and lips of hems are left out.',
];

/** Scales at which a tub is told from its numbers at a glance. */
const SCALES = [2, 2.5, 3, 4, 5, 6, 8, 10, 12, 15, 20, 25, 30, 40, 50];
const MOST_SMALL = 3;
/** How much smaller a tub may be for all of it to stand on one sheet. */
const SMALLER = 1.6;
const EDGE = 14;
const TOP = 48;
const FOOT = 24;
const GAP = 6;

/** On one sheet where that makes it little smaller, else at the largest scale that takes at most three. */
const smallPages = (stages: Stages, paper: Paper): Page[] => {
  const size = paperSizes[paper];
  const room: Vec2 = [size[0] - 2 * EDGE, size[1] - TOP - FOOT];
  const laid = (scale: number): Mark[][] | undefined =>
    shelve(
      cardPatternsOf(stages, SMALL_FLAP * scale).map((pattern) => cardMarks(pattern, scale)),
      room,
    );
  const few = SCALES.find((scale) => (laid(scale)?.length ?? Infinity) <= MOST_SMALL);
  if (few === undefined) return [];
  const one = SCALES.find((scale) => scale >= few && scale <= SMALLER * few && laid(scale)?.length === 1);
  const scale = one ?? few;
  const sheets = laid(scale) ?? [];
  return sheets.map((marks, i) =>
    smallPage({ tub: stages.tub.name, scale, number: i + 1, of: sheets.length }, size, marks),
  );
};

/** Rows from the top left, the tallest first. Undefined: one does not fit on a sheet. */
const shelve = (drawings: readonly (readonly Mark[])[], [width, height]: Vec2): Mark[][] | undefined => {
  const boxes = drawings
    .map((marks) => {
      const [x0, y0, x1, y1] = extentOf(marks);
      return { marks: marks.map((mark) => moveMark(mark, [-x0, -y0])), size: [x1 - x0, y1 - y0] };
    })
    .sort((a, b) => b.size[1] - a.size[1]);
  const sheets: Mark[][] = [];
  let [x, y, row] = [0, Infinity, 0];
  for (const { marks, size } of boxes) {
    if (size[0] > width || size[1] > height) return undefined;
    if (x + size[0] > width) [x, y, row] = [0, y + row + GAP, 0];
    if (y + size[1] > height) {
      sheets.push([]);
      [x, y, row] = [0, 0, 0];
    }
    const at: Vec2 = [x, y];
    sheets[sheets.length - 1].push(...marks.map((mark) => moveMark(mark, at)));
    [x, row] = [x + size[0] + GAP, Math.max(row, size[1])];
  }
  return sheets;
};

interface Small {
  readonly tub: string;
  readonly scale: number;
  readonly number: number;
  readonly of: number;
}

const BAR = 100;

const smallPage = ({ tub, scale, number, of }: Small, size: Vec2, marks: readonly Mark[]): Page => {
  const title = `Mock-up of the whole tub, 1:${scale}`;
  const y = size[1] - 12;
  const width = size[0] - 2 * EDGE;
  const tick = (x: number): Mark =>
    line(
      [
        [x, y - 3],
        [x, y + 3],
      ],
      WEIGHT.thin,
    );
  return {
    size,
    opens: number === 1 ? [{ key: 'card-small', title, y: 0 }] : [],
    pieces: [
      { as: { kind: 'head' }, marks: [words(title, [EDGE, 16], 6.5, { weight: 'bold' })] },
      {
        as: { kind: 'words' },
        marks: [
          words(wrapText(`${tub}, sheet ${number} of ${of}`, width, 4)[0], [EDGE, 23], 4),
          ...wrapText(HOW[0], width, 3.3).map((text, i) => words(text, [EDGE, 29 + i * 4.2], 3.3)),
        ],
      },
      {
        as: { kind: 'figure', text: `Patterns of the parts in card, 1:${scale}` },
        marks: marks.map((mark) => moveMark(mark, [EDGE, TOP])),
      },
      aside([
        line(
          [
            [EDGE, y],
            [EDGE + BAR, y],
          ],
          WEIGHT.cut,
        ),
        ...[0, 0.25, 0.5, 0.75, 1].map((share) => tick(EDGE + BAR * share)),
      ]),
      {
        as: { kind: 'words' },
        marks: [
          words(`This bar must measure ${BAR} mm and stands for ${BAR * scale} mm: print at 100 %`, [EDGE, y - 5], 3.5),
        ],
      },
    ],
  };
};
