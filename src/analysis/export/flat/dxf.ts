/**
 * One flat pattern as a DXF drawing: ASCII, R2007 (AC1021), millimetres. The only file that knows the DXF library and
 * its traps: a process-wide handle counter, raw text, numbers as JavaScript prints them.
 */
import { ROUND_OFF } from '../../geometry/tolerance.js';
import Drawing from 'dxf-writer';
import type { HeaderValue, Point2D } from 'dxf-writer';
import Handle from 'dxf-writer/src/Handle.js';
import type { Vec2 } from '../../geometry/vec.js';
import { drawingLayers, type DrawingEntity, type DrawingLayer, type FlatDrawing } from './flat-drawing.js';
import { exportMark } from '../../../files/own-mark.js';

/** Colour numbers of the drawing format, one per layer; meaning is in the layer's name, never in the colour. */
const COLORS: Readonly<Record<DrawingLayer, number>> = {
  CUT_OUTER: 7,
  CUT_INNER: 4,
  PEN_BEND: 5,
  PEN_PLACE: 6,
  PEN_LETTERS: 3,
  READ_TEXT: 8,
  SCALE_100MM: 8,
};

const METRIC = 1;

/** The file's text. The same drawing gives the same bytes, in every locale, however often it is written. */
export const dxfOf = (drawing: FlatDrawing): string => {
  // Handles come from one counter for the whole process: without this, a second file differs from the first.
  Handle.seed = 0;
  const file = new Drawing();
  file.setUnits('Millimeters');
  setHeader(file, 'MEASUREMENT', [[70, METRIC]]);
  setHeader(file, 'EXTMIN', pointTags(drawing.extent.min));
  setHeader(file, 'EXTMAX', pointTags(drawing.extent.max));
  // A layer that is added twice loses what was drawn on it, so all are added once, before anything is drawn.
  for (const { name } of drawingLayers) file.addLayer(name, COLORS[name], 'CONTINUOUS');
  for (const entity of drawing.entities) draw(file, entity);
  return `999\n${exportMark(drawing.tub)}\n${file.toDxfString()}\n`;
};

const draw = (file: Drawing, entity: DrawingEntity): void => {
  file.setActiveLayer(entity.layer);
  switch (entity.kind) {
    case 'contour':
      file.drawPolyline(
        entity.contour.map(({ x, y, bulge }) => vertex(x, y, bulge)),
        true,
      );
      return;
    case 'circle':
      file.drawCircle(length(entity.center[0]), length(entity.center[1]), length(entity.radius));
      return;
    case 'line':
      file.drawLine(length(entity.from[0]), length(entity.from[1]), length(entity.to[0]), length(entity.to[1]));
      return;
    case 'polyline':
      file.drawPolyline(entity.points.map(plainVertex), entity.closed);
      return;
    case 'lettering':
      for (const stroke of entity.strokes) file.drawPolyline(stroke.map(plainVertex));
      return;
    case 'text':
      file.drawText(length(entity.at[0]), length(entity.at[1]), length(entity.height), 0, dxfText(entity.text));
  }
};

/** The library's types know no third number of a vertex, its code does: the bulge of the piece that starts there. */
const vertex = (x: number, y: number, bulge: number): Point2D =>
  bulge === 0 ? [length(x), length(y)] : ([length(x), length(y), bulgeNumber(bulge)] as unknown as Point2D);

const plainVertex = ([x, y]: Vec2): Point2D => [length(x), length(y)];

const pointTags = ([x, y]: Vec2): HeaderValue[] => [
  [10, length(x)],
  [20, length(y)],
  [30, 0],
];

const setHeader = (file: Drawing, name: string, values: HeaderValue[]): void => {
  file.header(name, values);
};

/** To 1e-6 mm: prints without an exponent, never as -0, and is far below what any machine can place. */
const length = (value: number): number => {
  if (!Number.isFinite(value)) throw new RangeError('A drawing holds a coordinate that is not a number');
  return Math.round(value * 1e6) / 1e6 + 0;
};

/** Finer than lengths, since it is multiplied by the chord; below 1e-6 it would print with an exponent and is straight. */
const bulgeNumber = (bulge: number): number => {
  if (!Number.isFinite(bulge)) throw new RangeError('A drawing holds an arc that is not a number');
  return Math.abs(bulge) < ROUND_OFF ? 0 : Math.round(bulge * 1e12) / 1e12;
};

/** One line of plain text: a line break would end the value and ruin the file; `^` and `%%` start codes. */
const dxfText = (text: string): string =>
  text
    .replace(/[\u0000-\u001f\u007f-\u009f\u2028\u2029]+/g, ' ')
    .replace(/\^/g, '^ ')
    .replace(/%%/g, '% %')
    .trim();
