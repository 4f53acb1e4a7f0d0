/** One flat pattern as SVG: true size in mm, one group per layer, arcs as arcs, y turned over once, here. */
import type { Contour } from '../../geometry/contour.js';
import { segmentOf } from '../../geometry/contour.js';
import type { Vec2 } from '../../geometry/vec.js';
import { drawingLayers, type DrawingEntity, type DrawingLayer, type FlatDrawing } from './flat-drawing.js';
import { exportMark, fileMark } from '../../../files/own-mark.js';

/** Legible on white and on dark ground alike. */
const COLORS: Readonly<Record<DrawingLayer, string>> = {
  CUT_OUTER: '#d1242f',
  CUT_INNER: '#bc4c00',
  PEN_BEND: '#0969da',
  PEN_PLACE: '#8250df',
  PEN_LETTERS: '#1a7f37',
  READ_TEXT: '#6e7781',
  SCALE_100MM: '#6e7781',
};

const BORDER = 5;

/** The file's text; the same drawing gives the same bytes. `file`: its name, without ending. */
export const svgOf = (drawing: FlatDrawing, file: string): string => {
  const { min, max } = drawing.extent;
  const width = number(max[0] - min[0] + 2 * BORDER);
  const height = number(max[1] - min[1] + 2 * BORDER);
  const left = number(min[0] - BORDER);
  const top = number(-max[1] - BORDER);
  const groups = drawingLayers.map(({ name, use }) => {
    const inside = drawing.entities.filter((entity) => entity.layer === name).map(elementOf);
    const paint =
      name === 'READ_TEXT' ? `fill="${COLORS[name]}" stroke="none"` : `fill="none" stroke="${COLORS[name]}"`;
    return [`<g id="${name}" ${paint}>`, `<desc>${escape(use)}</desc>`, ...inside, '</g>'].join('\n');
  });
  return [
    '<?xml version="1.0" encoding="UTF-8"?>',
    `<!-- ${exportMark(drawing.tub)} ${fileMark(file)} -->`,
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width}mm" height="${height}mm" viewBox="${left} ${top} ${width} ${height}" stroke-width="0.25" font-family="sans-serif">`,
    `<title>${escape(`${drawing.name}, flat pattern of ${drawing.tub}`)}</title>`,
    ...groups,
    '</svg>',
    '',
  ].join('\n');
};

const elementOf = (entity: DrawingEntity): string => {
  switch (entity.kind) {
    case 'contour':
      return `<path d="${contourPath(entity.contour)}"/>`;
    case 'circle':
      return `<circle cx="${number(entity.center[0])}" cy="${number(-entity.center[1])}" r="${number(entity.radius)}"/>`;
    case 'line':
      return `<path d="M${point(entity.from)} L${point(entity.to)}"/>`;
    case 'polyline':
      return `<path d="${linePath(entity.points)}${entity.closed ? ' Z' : ''}"/>`;
    case 'lettering':
      return `<path aria-label="${escape(entity.text)}" d="${entity.strokes.map(linePath).join(' ')}"/>`;
    case 'text':
      return `<text x="${number(entity.at[0])}" y="${number(-entity.at[1])}" font-size="${number(entity.height)}">${escape(entity.text)}</text>`;
  }
};

const contourPath = (contour: Contour): string => {
  const steps = contour.map(({ x, y, bulge }, i) => {
    const next = contour[(i + 1) % contour.length];
    const to: Vec2 = [next.x, next.y];
    if (bulge === 0) return i + 1 === contour.length ? '' : ` L${point(to)}`;
    const radius = number(segmentOf([x, y], to, bulge).radius);
    // Seen with y down, a counter-clockwise arc runs against the positive angle.
    return ` A${radius} ${radius} 0 ${Math.abs(bulge) > 1 ? 1 : 0} ${bulge > 0 ? 0 : 1} ${point(to)}`;
  });
  return `M${point([contour[0].x, contour[0].y])}${steps.join('')} Z`;
};

const linePath = (points: readonly Vec2[]): string => `M${points.map(point).join(' L')}`;

const point = ([x, y]: Vec2): string => `${number(x)} ${number(-y)}`;

/** To 1e-6 mm, without an exponent, never -0. */
const number = (value: number): string => {
  if (!Number.isFinite(value)) throw new RangeError('A drawing holds a coordinate that is not a number');
  return String(Math.round(value * 1e6) / 1e6 + 0);
};

const escape = (text: string): string =>
  text
    .replace(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]/g, ' ')
    .replace(/&/g, '&amp;')
    .replace(/</g, '&lt;')
    .replace(/>/g, '&gt;')
    .replace(/"/g, '&quot;');
