/**
 * A DXF drawing as text: ASCII, R2007 (AC1021), millimetres. The only file that knows the DXF library; what it takes to get
 * the same bytes each time, arcs, and lines that no text can break stays in here.
 */
import Drawing from 'dxf-writer';
import type { HeaderValue, Point2D } from 'dxf-writer';
import Handle from 'dxf-writer/src/Handle.js';
import { ROUND_OFF } from '../../geometry/tolerance.js';
import type { Vec2 } from '../../geometry/vec.js';

export interface DxfLayer {
  readonly name: string;
  /** Colour number of the format, 1 to 255. */
  readonly color: number;
}

export interface DxfVertex {
  readonly x: number;
  readonly y: number;
  /** Of the piece that starts here: the tangent of a quarter of its turn, counter-clockwise positive; 0: straight. */
  readonly bulge: number;
}

/** What lies on one layer. Lengths mm; text stands level, on its base line. */
export type DxfEntity =
  | { readonly kind: 'polyline'; readonly vertices: readonly DxfVertex[]; readonly closed: boolean }
  | { readonly kind: 'circle'; readonly center: Vec2; readonly radius: number }
  | { readonly kind: 'line'; readonly from: Vec2; readonly to: Vec2 }
  | { readonly kind: 'text'; readonly at: Vec2; readonly height: number; readonly text: string };

export interface DxfDrawing {
  /** First line of the file, for people and programs that look for it. */
  readonly comment: string;
  readonly extent: { readonly min: Vec2; readonly max: Vec2 };
  /** All that there are, each once. */
  readonly layers: readonly DxfLayer[];
  readonly entities: readonly (DxfEntity & { readonly layer: string })[];
}

const METRIC = 1;

/** The file's text: the same drawing gives the same bytes, in every locale. Fails where a number is none. */
export const dxfText = ({ comment, extent, layers, entities }: DxfDrawing): string => {
  // Handles come from one counter for the whole process: without this, a second file differs from the first.
  Handle.seed = 0;
  const file = new Drawing();
  file.setUnits('Millimeters');
  setHeader(file, 'MEASUREMENT', [[70, METRIC]]);
  setHeader(file, 'EXTMIN', pointTags(extent.min));
  setHeader(file, 'EXTMAX', pointTags(extent.max));
  // A layer that is added twice loses what was drawn on it, so all are added once, before anything is drawn.
  for (const { name, color } of layers) file.addLayer(name, color, 'CONTINUOUS');
  for (const entity of entities) {
    file.setActiveLayer(entity.layer);
    draw(file, entity);
  }
  return `999\n${comment}\n${file.toDxfString()}\n`;
};

const draw = (file: Drawing, entity: DxfEntity): void => {
  switch (entity.kind) {
    case 'polyline':
      file.drawPolyline(entity.vertices.map(pointOf), entity.closed);
      return;
    case 'circle':
      file.drawCircle(length(entity.center[0]), length(entity.center[1]), length(entity.radius));
      return;
    case 'line':
      file.drawLine(length(entity.from[0]), length(entity.from[1]), length(entity.to[0]), length(entity.to[1]));
      return;
    case 'text':
      file.drawText(length(entity.at[0]), length(entity.at[1]), length(entity.height), 0, oneLine(entity.text));
  }
};

/** The library's types know no third number of a vertex, its code does: the bulge of the piece that starts there. */
const pointOf = ({ x, y, bulge }: DxfVertex): Point2D =>
  bulge === 0 ? [length(x), length(y)] : ([length(x), length(y), bulgeNumber(bulge)] as unknown as Point2D);

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
const oneLine = (text: string): string =>
  text
    .replace(/[\u0000-\u001f\u007f-\u009f\u2028\u2029]+/g, ' ')
    .replace(/\^/g, '^ ')
    .replace(/%%/g, '% %')
    .trim();
