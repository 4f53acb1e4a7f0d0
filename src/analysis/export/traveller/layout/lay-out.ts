/** Puts the traveller on sheets of paper. */
import type { Vec2 } from '../../../geometry/vec.js';
import type { Block, Paper, Section, Traveller } from './block.js';
import { CONTENT_WIDTH, layBlock, type Entry } from './lay-block.js';
import type { Strip } from './lay-table.js';
import { aside, box, line, movePiece, WEIGHT, words, type Mark, type Opening, type Page, type Piece } from './mark.js';
import { widthOf, wrapText } from './measure-text.js';

/** mm. */
export const paperSizes: Readonly<Record<Paper, Vec2>> = { A4: [210, 297], Letter: [215.9, 279.4] };

const LEFT = 14;
const TOP = 30;
const BOTTOM = 17;
const BLOCK_GAP = 4;

/**
 * The pages in order. A section's number stands in a black tab that steps down the right edge, so that it is found with
 * the thumb.
 */
export const layOut = (traveller: Traveller): Page[] => {
  const size = paperSizes[traveller.paper];
  const sheets = withContents(traveller.sections, size[1] - TOP - BOTTOM);
  return sheets.map(({ title, isFirst, numbers, pieces, opens }, i) => ({
    size,
    opens: opens.map((opening) => ({ ...opening, y: opening.y === 0 ? 0 : opening.y + TOP })),
    pieces: [
      titlePiece(title, isFirst && i === 0 ? 'title' : isFirst ? 'head' : 'aside'),
      aside([
        ...frameMarks(title, i === 0 ? traveller.title : traveller.tub),
        ...(traveller.sections.length > 1 ? numbers.flatMap((number) => tabMarks(number, size[0])) : []),
        ...footMarks(`${traveller.title} \u2013 ${traveller.tub}`, `${i + 1} of ${sheets.length}`, size),
      ]),
      ...pieces.map((piece) => movePiece(piece, [LEFT, TOP])),
    ],
  }));
};

/** Contents name sheets, and take room themselves: they alone are laid out again until they agree. */
const withContents = (sections: readonly Section[], room: number): PaperPage[] => {
  const [, ...rest] = sections;
  let contents: Entry[] = rest.map(({ key, title }) => ({ key, title, sheet: 1 }));
  const laid = sections.map(layOnce());
  for (let tries = 0; ; tries++) {
    const sheets = fillSheets(
      laid.map((section) => ({ ...section, strips: section.strips(contents) })),
      room,
    );
    const sheetOf = (key: string): number => 1 + sheets.findIndex(({ opens }) => opens.some((one) => one.key === key));
    if (tries === MOST_TRIES || contents.every(({ key, sheet }) => sheet === sheetOf(key))) return sheets;
    contents = contents.map((entry) => ({ ...entry, sheet: sheetOf(entry.key) }));
  }
};

type Head = Pick<Section, 'key' | 'title' | 'starts'>;

/** Lays sections one after the other, their blocks numbered through. */
const layOnce = (): ((section: Section) => Head & { readonly strips: (contents: readonly Entry[]) => Strip[] }) => {
  let count = 0;
  return ({ key, title, starts, blocks }) => {
    const laid = blocks.map((block, b): ((contents: readonly Entry[]) => readonly Strip[]) => {
      const number = count++;
      const together = (strips: readonly Strip[]): readonly Strip[] => besideOthers(block, blocks[b + 1], b, strips);
      if (block.kind === 'contents') return (contents) => together(layBlock(block, number, contents));
      const strips = together(layBlock(block, number, []));
      return () => strips;
    });
    return { key, title, starts, strips: (contents) => laid.flatMap((strips) => strips(contents)) };
  };
};

/** What introduces a section or a table stands above what it introduces; arrows that say how a drawing lies stand above it. */
const besideOthers = (
  block: Block,
  next: Block | undefined,
  place: number,
  strips: readonly Strip[],
): readonly Strip[] => {
  const introduces =
    (block.kind === 'text' && (place === 0 || next?.kind === 'table' || next?.kind === 'facts')) ||
    (block.kind === 'figure' && next?.kind === 'figure');
  const kept = introduces ? strips.map((strip): Strip => ({ ...strip, keepsWithNext: true })) : strips;
  return place > 0 ? [gapStrip, ...kept] : kept;
};

const MOST_TRIES = 4;

interface PaperPage {
  readonly title: string;
  /** Does the section of its title begin on it? */
  readonly isFirst: boolean;
  /** Of the sections on it. */
  readonly numbers: number[];
  readonly pieces: Piece[];
  readonly opens: Opening[];
}

/**
 * Share of a sheet below which what is left over of one section is joined by the next: by one that has to be cut all the same,
 * and by one that a sheet of its own would hold whole.
 */
const LEFT_OVER = { cut: 0.5, whole: 0.2 } as const;

const fillSheets = (sections: readonly (Head & { readonly strips: readonly Strip[] })[], room: number): PaperPage[] => {
  const sheets: PaperPage[] = [];
  let y = 0;
  const put = ({ pieces, height }: Strip): void => {
    sheets[sheets.length - 1].pieces.push(...pieces.map((piece) => movePiece(piece, [0, y])));
    y += height;
  };
  const open = (title: string, number: number, isFirst: boolean): void => {
    sheets.push({ title, isFirst, numbers: [number], pieces: [], opens: [] });
    y = 0;
  };
  sections.forEach((section, i) => {
    const { strips } = section;
    const head = headStrip(section.title);
    const height = strips.reduce((sum, strip) => sum + strip.height, head.height);
    const most = LEFT_OVER[height - head.height <= room ? 'whole' : 'cut'];
    const isLeftOver = y < most * room && y + head.height + startOf(strips) <= room;
    const fits = y + height <= room;
    if (sheets.length > 0 && (isLeftOver || (fits && section.starts === 'follows'))) {
      sheets[sheets.length - 1].opens.push({ key: section.key, title: section.title, y });
      put(head);
      sheets[sheets.length - 1].numbers.push(i + 1);
    } else {
      open(section.title, i + 1, true);
      sheets[sheets.length - 1].opens.push({ key: section.key, title: section.title, y: 0 });
    }
    strips.forEach((strip, k) => {
      const next = strip.keepsWithNext ? startOf(strips.slice(k + 1)) : 0;
      if (y > 0 && y + strip.height + next > room) {
        open(`${section.title}, continued`, i + 1, false);
        if (strip.heads) put({ ...strip.heads, pieces: [aside(strip.heads.pieces.flatMap(({ marks }) => marks))] });
      }
      if (y > 0 || strip.pieces.length > 0) put(strip);
    });
  });
  return sheets;
};

/** Height of the first strips that stay together. */
const startOf = (strips: readonly Strip[]): number => {
  const end = strips.findIndex(({ keepsWithNext, pieces }) => !keepsWithNext && pieces.length > 0);
  return strips.slice(0, end + 1).reduce((sum, { height }) => sum + height, 0);
};

/** Title of a section that goes below another one. */
const headStrip = (title: string): Strip => ({
  height: 20,
  pieces: [
    { as: { kind: 'head' }, marks: [words(title, [0, 13], 5.6, { weight: 'bold' })] },
    aside([
      line(
        [
          [0, 16],
          [CONTENT_WIDTH, 16],
        ],
        WEIGHT.frame,
      ),
    ]),
  ],
});

const gapStrip: Strip = { height: BLOCK_GAP, pieces: [] };

const TAB: Vec2 = [9, 14];
const TITLE_TYPE = 7.2;

const titlePiece = (title: string, kind: 'title' | 'head' | 'aside'): Piece => ({
  as: { kind },
  marks: [words(fitted(title), [LEFT, 20.5], TITLE_TYPE, { weight: 'bold' })],
});

/** As much of a title as one line holds. */
const fitted = (title: string): string => wrapText(title, CONTENT_WIDTH, TITLE_TYPE, 'bold')[0];

const frameMarks = (title: string, beside: string): Mark[] => {
  const right = LEFT + CONTENT_WIDTH;
  const room = CONTENT_WIDTH - widthOf(fitted(title), TITLE_TYPE, 'bold') - 8;
  return [
    ...(room > 30 ? [words(wrapText(beside, room, 4)[0], [right, 20.5], 4, { align: 'right' })] : []),
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

const footMarks = (text: string, count: string, [, height]: Vec2): Mark[] => {
  const right = LEFT + CONTENT_WIDTH;
  return [
    line(
      [
        [LEFT, height - BOTTOM + 5],
        [right, height - BOTTOM + 5],
      ],
      WEIGHT.thin,
    ),
    words(wrapText(text, CONTENT_WIDTH - 30, 3.2)[0], [LEFT, height - BOTTOM + 9.5], 3.2),
    words(`Sheet ${count}`, [right, height - BOTTOM + 9.5], 3.2, { align: 'right' }),
  ];
};
