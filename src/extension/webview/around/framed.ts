import { setAttributes, svg } from '../dom.js';
import { signOf, type LegendEntry } from './legend.js';
import { shapeOf, type Marks } from './marks.js';
import { readPalette } from '../palette.js';
import { barFor } from './scale-bar.js';
import { lengthText } from '../units.js';

export interface Frame {
  readonly title: string;
  readonly legend: readonly LegendEntry[];
  /** Pixels per mm; undefined: the picture has no one scale. */
  readonly scale: number | undefined;
  readonly marks: Marks['shown'];
}

const HEAD = 34;
const LINE = 20;
const LETTER = 6.8;
const MARGIN = 14;

/** A drawing as it is on the screen, with the tub's name over it, and under it what its marks mean and how large it is. */
export const framed = (drawing: SVGSVGElement, { title, legend, scale, marks }: Frame): SVGSVGElement => {
  const palette = readPalette();
  const [width, height] = ['width', 'height'].map((name) => Number(drawing.getAttribute(name)));
  const text = (x: number, y: number, words: string, size: number): SVGElement =>
    svg('text', { x, y, 'font-size': size, 'font-family': palette.font, fill: palette.ink }, words);
  const rows = flowing(legend, width - 2 * MARGIN - BAR_ROOM);
  const foot = Math.max(rows.length, scale === undefined ? 0 : 1) * LINE + MARGIN;
  const under = HEAD + height;
  setAttributes(drawing, { x: 0, y: HEAD });
  const signs = rows.flatMap((row, i) =>
    row.flatMap(({ entry, x }) => {
      const y = under + MARGIN + i * LINE;
      return [
        svg('g', { transform: `translate(${MARGIN + x + 9} ${y})` }, signOf(entry, palette.faint)),
        text(MARGIN + x + 24, y + 4, entry.words, 12),
      ];
    }),
  );
  const paper = { error: palette.error, warning: palette.warn, info: palette.info };
  const shapes = marks.map(({ place: [x, y], severity }) => {
    const shape = shapeOf(severity);
    setAttributes(shape, { class: undefined, fill: palette.paper, stroke: paper[severity], 'stroke-width': 2 });
    return svg('g', { transform: `translate(${x} ${y + HEAD})` }, shape);
  });
  return svg(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      viewBox: `0 0 ${width} ${under + foot}`,
      width,
      height: under + foot,
    },
    text(MARGIN, 22, title, 15),
    drawing,
    ...shapes,
    ...signs,
    ...(scale === undefined ? [] : bar(scale, width, under + MARGIN, palette.ink, text)),
  );
};

/** px, kept free at the right for the scale. */
const BAR_ROOM = 220;

const bar = (
  scale: number,
  width: number,
  y: number,
  ink: string,
  text: (x: number, y: number, words: string, size: number) => SVGElement,
): SVGElement[] => {
  const { length, pixels } = barFor(scale);
  const left = width - MARGIN - pixels;
  const words = lengthText(length);
  const named = text(left - 8, y + 4, words, 12);
  named.setAttribute('text-anchor', 'end');
  return [
    svg('path', {
      d: `M${left} ${y - 5}v10M${left} ${y}h${pixels}M${left + pixels} ${y - 5}v10`,
      fill: 'none',
      stroke: ink,
    }),
    named,
  ];
};

interface Laid {
  readonly entry: LegendEntry;
  readonly x: number;
}

/** Entries one after the other in as many rows as they need. */
const flowing = (legend: readonly LegendEntry[], width: number): readonly (readonly Laid[])[] => {
  const rows: Laid[][] = [];
  let x = Infinity;
  for (const entry of legend) {
    const need = 24 + entry.words.length * LETTER + 18;
    if (x + need > width) {
      rows.push([]);
      x = 0;
    }
    rows[rows.length - 1].push({ entry, x });
    x += need;
  }
  return rows;
};
