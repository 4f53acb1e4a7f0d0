/** A nested blank as a drawing: what the machine works in one setting. */
import { drawFlat, type DrawingEntity, type FlatDrawing } from './flat-drawing.js';
import type { FlatPattern } from '../../fold/flat-pattern.js';
import type { Nick } from '../../stages/nicks.js';
import { sideUpOf } from '../../fold/marked-side.js';
import { mapContour } from '../../geometry/contour.js';
import type { Vec2 } from '../../geometry/vec.js';
import type { Tub } from '../../model/tub.js';
import {
  placePoint,
  remnantText,
  shearWords,
  toldOffcutOf,
  utilisationOf,
  type NestSheet,
  type Placement,
} from '../../nest/nest.js';

type Nicker = (flat: FlatPattern) => readonly Nick[];

const TEXT_HEIGHT = 12;
const TEXT_PITCH = 20;

/**
 * The drawing of one blank, 1:1, its corner at the origin and the rolling direction along x. Every piece is on the same
 * layers as in its own drawing; the edge of the blank is on a layer that is not worked.
 */
export const drawSheet = (tub: Tub, sheet: NestSheet, number: number, nicks: Nicker = () => []): FlatDrawing => {
  const [length, width] = sheet.size;
  const words = wordsOf(sheet, number);
  const edge: DrawingEntity = {
    kind: 'polyline',
    layer: 'READ_TEXT',
    points: [
      [0, 0],
      [length, 0],
      [length, width],
      [0, width],
    ],
    closed: true,
  };
  const lines = words.map((text, i): DrawingEntity => ({
    kind: 'text',
    layer: 'READ_TEXT',
    at: [0, -TEXT_PITCH * (i + 1)],
    height: TEXT_HEIGHT,
    text,
  }));
  const pieces = sheet.placed.flatMap((placement) => piecesDrawn(tub, placement, nicks));
  const scale: DrawingEntity = {
    kind: 'line',
    layer: 'SCALE_100MM',
    from: [0, -TEXT_PITCH * (words.length + 1)],
    to: [100, -TEXT_PITCH * (words.length + 1)],
  };
  return {
    name: `sheet ${number}`,
    tub: tub.name,
    entities: [edge, ...pieces, scale, ...lines],
    extent: { min: [0, -TEXT_PITCH * (words.length + 1)], max: [length, width] },
  };
};

const wordsOf = (sheet: NestSheet, number: number): string[] => {
  const sheared = shearWords(sheet, (mm) => trimmed(mm, 1), 'mm');
  return [
    `Sheet ${number}: ${sheet.material} ${trimmed(sheet.thickness, 3)} mm, ${sheet.isRemnant ? 'remnant' : 'blank'} ${trimmed(sheet.size[0], 1)} by ${trimmed(sheet.size[1], 1)} mm, no. ${sheet.number} of its size, rolling direction along x`,
    ...(sheared ? [`This blank is ${sheared}`] : []),
    `${sheet.placed.length} pieces, ${trimmed(100 * utilisationOf(sheet), 0)} % used; all lengths in mm, scale 1:1, ${sideWords(sheet)}`,
    freeWords(sheet),
  ];
};

/** Pieces are marked on either side; each is lettered with the one that lies up. */
const sideWords = ({ placed }: NestSheet): string => {
  const sides = [...new Set(placed.map(({ flat }) => sideUpOf(flat)))];
  return sides.length === 1 ? `${sides[0]} side up` : 'pieces lie with the side up that is lettered on them';
};

const freeWords = (sheet: NestSheet): string => {
  const { from, isAlong, size } = toldOffcutOf(sheet);
  const free = `Free from ${isAlong ? 'y' : 'x'} = ${trimmed(from, 1)} mm`;
  return size ? `${free}; the remnant for a later job: ${remnantText(sheet, size)}` : free;
};

const trimmed = (value: number, places: number): string => String(Number(value.toFixed(places)));

const piecesDrawn = (tub: Tub, placement: Placement, nicks: Nicker): DrawingEntity[] =>
  drawFlat(tub, placement.flat, nicks(placement.flat))
    .entities.filter(({ layer }) => layer !== 'READ_TEXT' && layer !== 'SCALE_100MM')
    .map((entity) => placeEntity(entity, (point) => placePoint(placement, point)));

const placeEntity = (entity: DrawingEntity, place: (point: Vec2) => Vec2): DrawingEntity => {
  switch (entity.kind) {
    case 'contour':
      return { ...entity, contour: mapContour(entity.contour, place) };
    case 'circle':
      return { ...entity, center: place(entity.center) };
    case 'line':
      return { ...entity, from: place(entity.from), to: place(entity.to) };
    case 'polyline':
      return { ...entity, points: entity.points.map(place) };
    case 'lettering':
      return { ...entity, strokes: entity.strokes.map((stroke) => stroke.map(place)) };
    case 'text':
      return { ...entity, at: place(entity.at) };
  }
};
