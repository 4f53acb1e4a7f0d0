/** Templates on paper, 1:1. */
import { circleContour, flattenContour, slotContour } from '../../geometry/contour.js';
import type { Vec2 } from '../../geometry/vec.js';
import { templateWords } from '../flat/template-files.js';
import { longestSpan, type Template } from '../flat/template.js';
import type { Paper } from './layout/block.js';
import { cross, line, WEIGHT, words, type LineMark, type Page } from './layout/mark.js';
import { tiledPages, type TrueDrawing, type TrueMark } from './tiled-pages.js';
import type { Units } from './layout/units.js';

/** mm. Round lines as chords: a tenth of a line's width. */
const CHORD_ERROR = 0.02;

/** First an overview, then the sheets of each template. */
export const templatePages = (tub: string, templates: readonly Template[], paper: Paper, units: Units): Page[] =>
  templates.flatMap((template) => tiledPages(tub, drawingOf(template, units), paper, units));

const drawingOf = (template: Template, units: Units): TrueDrawing => {
  const span = longestSpan(template);
  return {
    title: `Template: ${template.name}`,
    key: `template-${template.name}`,
    told: `template for ${template.name}, 1:1`,
    marks: trueMarks(template),
    lines: [
      ...templateWords(template),
      ...(span === undefined
        ? []
        : [`Check: the two bolts farthest apart stand ${units.lengthOf(span)} apart, middle to middle.`]),
    ],
  };
};

/** The template with y down, every line as it is. */
const trueMarks = ({ panels, bolts, slots, cutOut }: Template): TrueMark[] => {
  const down = ([x, y]: Vec2): Vec2 => [x, -y];
  const ring = (points: readonly Vec2[], width: number, rest: Partial<LineMark> = {}): LineMark =>
    line(points.map(down), width, { closed: true, ...rest });
  return [
    ...panels.map((points) => ring(points, WEIGHT.thin, { dash: 'chain' })),
    ...cutOut.map((points) => ring(points, WEIGHT.cut)),
    ...slots.map(({ from, to, width }) =>
      ring(flattenContour(slotContour(from, to, width / 2), CHORD_ERROR), WEIGHT.plain),
    ),
    ...bolts.flatMap(({ center, diameter, thread }) => {
      const [x, y] = down(center);
      const arm = diameter / 2 + 5;
      return [
        ring(flattenContour(circleContour(center, diameter / 2), CHORD_ERROR), WEIGHT.plain),
        ...cross([x, y], arm),
        besideHole(
          thread ? `${thread}, \u00d8 ${Number(diameter.toFixed(2))} mm` : `\u00d8 ${Number(diameter.toFixed(2))} mm`,
          [x, y],
          diameter / 2 + 1.5,
        ),
      ];
    }),
  ];
};

const WORDS = 3.3;

/** Above it or below it, to the right or to the left, or past its cross. */
const besideHole = (text: string, [x, y]: Vec2, off: number): TrueMark => {
  const places = [-off, off + WORDS * 0.75].flatMap((down) =>
    ([1, -1] as const).map((side) => ({
      at: [x + side * off, y + down] as const,
      align: side > 0 ? ('left' as const) : ('right' as const),
    })),
  );
  const past = off + 4.5;
  const middle = [-past, past + WORDS * 0.75].map((down) => ({ at: [x, y + down] as const, align: 'middle' as const }));
  const [first, ...orAt] = [...places, ...middle];
  return { ...words(text, first.at, WORDS, { align: first.align }), of: [x, y], orAt };
};
