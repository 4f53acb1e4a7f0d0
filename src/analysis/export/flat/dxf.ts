/** One flat pattern as a DXF drawing. */
import type { Vec2 } from '../../geometry/vec.js';
import { exportMark, fileMark } from '../../../files/own-mark.js';
import { dxfText, type DxfDrawing, type DxfVertex } from './dxf-drawing.js';
import { drawingLayers, type DrawingEntity, type DrawingLayer, type FlatDrawing } from './flat-drawing.js';

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

/** The file's text. The same drawing gives the same bytes, in every locale, however often it is written. `file`: its name, without ending. */
export const dxfOf = ({ tub, extent, entities }: FlatDrawing, file: string): string =>
  dxfText({
    comment: `${exportMark(tub)} ${fileMark(file)}`,
    extent,
    layers: drawingLayers.map(({ name }) => ({ name, color: COLORS[name] })),
    entities: entities.flatMap(drawn),
  });

const drawn = (entity: DrawingEntity): DxfDrawing['entities'][number][] => {
  const { layer } = entity;
  switch (entity.kind) {
    case 'contour':
      return [{ kind: 'polyline', layer, vertices: entity.contour, closed: true }];
    case 'polyline':
      return [{ kind: 'polyline', layer, vertices: entity.points.map(straight), closed: entity.closed }];
    case 'lettering':
      return entity.strokes.map((stroke) => ({
        kind: 'polyline',
        layer,
        vertices: stroke.map(straight),
        closed: false,
      }));
    case 'circle':
    case 'line':
    case 'text':
      return [entity];
  }
};

const straight = ([x, y]: Vec2): DxfVertex => ({ x, y, bulge: 0 });
