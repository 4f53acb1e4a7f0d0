/**
 * A flat pattern as plain drawing entities on layers by what the machine does with them. Every flat format is written
 * from this one drawing, so that they cannot disagree. mm, y up, seen on the side that is marked.
 */
import { metalWords } from '../../model/wording.js';
import type { FlatBend, FlatPattern } from '../../fold/flat-pattern.js';
import type { Contour } from '../../geometry/contour.js';
import { extentOfContour, type Extent } from '../../geometry/contour.js';
import type { Vec2 } from '../../geometry/vec.js';
import type { Sheet, Tub } from '../../model/tub.js';
import { facingOf, wayOnDrawing } from '../../fold/facing.js';
import { isUnderneath, type Nick } from '../../stages/nicks.js';
import { isHidden, otherSide, sideUpOf } from '../../fold/marked-side.js';
import { placeLettering } from './place-lettering.js';

export type DrawingLayer =
  'CUT_OUTER' | 'CUT_INNER' | 'PEN_BEND' | 'PEN_PLACE' | 'PEN_LETTERS' | 'READ_TEXT' | 'SCALE_100MM';

/** Every layer, in the order in which the machine works; the last two are for people and are not worked at all. */
export const drawingLayers: readonly { readonly name: DrawingLayer; readonly use: string }[] = [
  { name: 'PEN_BEND', use: 'pen: middle of each bend' },
  { name: 'PEN_PLACE', use: 'pen: where clips and other parts sit' },
  { name: 'PEN_LETTERS', use: 'pen: lettering as single strokes' },
  { name: 'CUT_INNER', use: 'cut: holes and nicks, before the outline' },
  { name: 'CUT_OUTER', use: 'cut: outline' },
  { name: 'READ_TEXT', use: 'not worked: the same words as text' },
  { name: 'SCALE_100MM', use: 'not worked: a line 100 mm long, to check the scale' },
];

export type DrawingEntity =
  | { readonly kind: 'contour'; readonly layer: DrawingLayer; readonly contour: Contour }
  | { readonly kind: 'circle'; readonly layer: DrawingLayer; readonly center: Vec2; readonly radius: number }
  | { readonly kind: 'line'; readonly layer: DrawingLayer; readonly from: Vec2; readonly to: Vec2 }
  | {
      readonly kind: 'polyline';
      readonly layer: DrawingLayer;
      readonly points: readonly Vec2[];
      readonly closed: boolean;
    }
  | {
      readonly kind: 'lettering';
      readonly layer: DrawingLayer;
      readonly text: string;
      readonly strokes: readonly (readonly Vec2[])[];
    }
  | {
      readonly kind: 'text';
      readonly layer: DrawingLayer;
      readonly at: Vec2;
      readonly height: number;
      readonly text: string;
    };

export interface FlatDrawing {
  readonly name: string;
  readonly tub: string;
  readonly entities: readonly DrawingEntity[];
  /** Of everything drawn; text counts by an estimate of its width. */
  readonly extent: Extent;
}

/** Length of the line that shows the scale, mm. */
export const SCALE_LINE = 100;

const TEXT_HEIGHT = 5;
const TEXT_PITCH = 8;
/** Of a character, in text heights: no common face is wider on average. */
const TEXT_WIDTH = 0.7;
/** mm between the part and the words below it. */
const BELOW = 20;

/** The drawing of one flat pattern, with its nicks as cuts. O(n log n) in edges, holes and bends. */
export const drawFlat = (tub: Tub, flat: FlatPattern, nicks: readonly Nick[] = []): FlatDrawing => {
  const part = extentOfContour(flat.outline);
  const left = part.min[0];
  const scaleAt = part.min[1] - BELOW;
  const words = wordsOf(tub.name, tub.sheets[flat.sheet], flat, nicks);
  const entities: DrawingEntity[] = [
    { kind: 'contour', layer: 'CUT_OUTER', contour: flat.outline },
    ...flat.holes.map(({ contour, circle }): DrawingEntity =>
      circle ? { kind: 'circle', layer: 'CUT_INNER', ...circle } : { kind: 'contour', layer: 'CUT_INNER', contour },
    ),
    ...nicks.map(({ from, to }): DrawingEntity => ({ kind: 'line', layer: 'CUT_INNER', from, to })),
    ...flat.bends.map(({ start, end }): DrawingEntity => ({ kind: 'line', layer: 'PEN_BEND', from: start, to: end })),
    ...flat.marks.map((mark): DrawingEntity => ({
      kind: 'polyline',
      layer: isHidden(flat, mark) ? 'READ_TEXT' : 'PEN_PLACE',
      points: mark.points,
      closed: mark.closed,
    })),
    ...placeLettering(flat, partLettering(tub.sheets[flat.sheet], flat)).map(({ text, strokes }): DrawingEntity => ({
      kind: 'lettering',
      layer: 'PEN_LETTERS',
      text,
      strokes,
    })),
    { kind: 'line', layer: 'SCALE_100MM', from: [left, scaleAt], to: [left + SCALE_LINE, scaleAt] },
    ...words.map((text, i): DrawingEntity => ({
      kind: 'text',
      layer: 'READ_TEXT',
      at: [left, scaleAt - TEXT_PITCH * (i + 1)],
      height: TEXT_HEIGHT,
      text,
    })),
  ];
  const longest = Math.max(...words.map((text) => text.length));
  const extent: Extent = {
    min: [left, scaleAt - TEXT_PITCH * words.length],
    max: [Math.max(part.max[0], left + SCALE_LINE, left + longest * TEXT_HEIGHT * TEXT_WIDTH), part.max[1]],
  };
  return { name: flat.name, tub: tub.name, entities, extent };
};

/** What is said of a flat with parts on the side that lies down; undefined: there are none. */
export const hiddenPlacesText = (flat: FlatPattern): string | undefined =>
  flat.marks.some((mark) => isHidden(flat, mark))
    ? `What sits or stands on the ${otherSide(sideUpOf(flat))} side has its places drawn as if the sheet were glass, and not marked`
    : undefined;

/** What the pen writes on the part itself. */
const partLettering = (sheet: Sheet, flat: FlatPattern): readonly string[] => [
  flat.name,
  sheetWords(sheet),
  `QTY ${flat.quantity}  ${sideUpOf(flat).toUpperCase()} SIDE`,
];

const wordsOf = (tubName: string, sheet: Sheet, flat: FlatPattern, nicks: readonly Nick[]): readonly string[] => [
  `The line above is ${SCALE_LINE} mm long; all lengths in mm, scale 1:1, ${sideUpOf(flat)} side up`,
  `Part ${flat.name} of ${tubName}`,
  `Sheet ${sheet.name}: ${sheetWords(sheet)}, quantity ${flat.quantity}`,
  ...facingWords(flat),
  ...[hiddenPlacesText(flat)].filter((text) => text !== undefined),
  ...flat.bends.map(
    (bend) =>
      `Bend ${bend.name}: ${bend.direction} ${degrees(bend.angle)} deg, inside radius ${decimals(bend.radius, 2)} mm, ` +
      `K ${decimals(bend.kFactor, 3)}, allowance ${decimals(bend.allowance, 3)} mm`,
  ),
  ...flat.bends.flatMap((bend, i) => lineWords(flat, bend, nicks.filter((nick) => nick.bend === i).length)),
];

/** `Front of the tub: to the left`, for the first panel. */
const facingWords = (flat: FlatPattern): readonly string[] => {
  const ways = facingOf(flat).map(({ name, towards }) => `${name} ${wayOnDrawing(towards)}`);
  return ways.length === 0
    ? []
    : [`As panel ${flat.panels[0].name} stands in the tub: ${ways.join(', ')} of the drawing`];
};

const lineWords = (flat: FlatPattern, { name, direction }: FlatBend, nicks: number): readonly string[] =>
  nicks > 0 && isUnderneath({ direction })
    ? [`Line ${name} is underneath when it is bent, ${otherSide(sideUpOf(flat))} side up: nicked at the edge`]
    : [];

const sheetWords = (sheet: Sheet): string =>
  `${metalWords(sheet)} ${decimals(sheet.thickness, 3)} mm${sheet.gauge === undefined ? '' : ` (${sheet.gauge} ga)`}`;

/** Finer than a gauge reads: over a long leg a twentieth of a degree is seen. */
const degrees = (angle: number): string => decimals((angle * 180) / Math.PI, 2);

/** Without needless zeros: `1.2`, `90`. */
const decimals = (value: number, places: number): string => String(Number(value.toFixed(places)));
