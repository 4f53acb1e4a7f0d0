/** Model values as the preview gets them: rounded, short, plain. */
import type { Contour } from '../geometry/contour.js';
import { flattenContour } from '../geometry/contour.js';
import type { Frame } from '../geometry/frame.js';
import { levelAt } from '../fold/zone/zone-end.js';
import type { Roll, ZoneEnd } from '../fold/flat-pattern.js';
import type { Vec2, Vec3 } from '../geometry/vec.js';
import type { Sheet } from '../model/tub.js';
import type { DrawnContour, DrawnFrame, RollItem, SceneEntry } from './scene-items.js';

const round = (value: number, steps: number): number => Math.round(value * steps) / steps + 0;

/** To a micrometre: a hundredth of a screen pixel at any sensible zoom. */
export const drawnLength = (value: number): number => round(value, 1e3);
export const drawn2 = (p: Vec2): Vec2 => [drawnLength(p[0]), drawnLength(p[1])];
export const drawn3 = (p: Vec3): Vec3 => [drawnLength(p[0]), drawnLength(p[1]), drawnLength(p[2])];
export const drawnUnit = (p: Vec3): Vec3 => [round(p[0], 1e6), round(p[1], 1e6), round(p[2], 1e6)];
/** rad to deg, for reading. */
export const drawnDegrees = (angle: number): number => round((angle * 180) / Math.PI, 1e3);
/** rad, for turning. */
export const drawnAngle = (angle: number): number => round(angle, 1e6);
export const drawnNumber = (value: number): number => round(value, 1e3);

export const drawnContour = (contour: Contour): DrawnContour =>
  contour.map((vertex) => [drawnLength(vertex.x), drawnLength(vertex.y), round(vertex.bulge, 1e6)]);

/** mm by which a drawn chord may stray from its arc. */
const SAG = 0.05;

export const drawnRing = (contour: Contour): readonly Vec2[] => flattenContour(contour, SAG).map(drawn2);

export const drawnFrame = (frame: Frame): DrawnFrame => ({
  origin: drawn3(frame.origin),
  u: drawnUnit(frame.u),
  v: drawnUnit(frame.v),
  normal: drawnUnit(frame.normal),
});

/** `stainless, 1.214 mm (18 ga)`. */
export const sheetWords = (sheet: Sheet): string =>
  `${sheet.material}, ${drawnLength(sheet.thickness)} mm${sheet.gauge === undefined ? '' : ` (${sheet.gauge} ga)`}`;

export const note = (key: string, text: string, at?: number): SceneEntry => ({
  key: `note:${key}`,
  at,
  item: { kind: 'note', text },
});

/** Even steps of the turn by which a curved end is drawn. */
const CURVED_STEPS = 8;

const drawnLevels = (end: ZoneEnd): readonly number[] => {
  const steps = end.length === 2 && end[0].bulge === 0 ? 1 : CURVED_STEPS;
  return Array.from({ length: steps + 1 }, (_, i) => drawnLength(levelAt(end, i / steps)));
};

type DrawnRoll = Pick<RollItem, 'axis' | 'sweep' | 'innerRadius' | 'outerRadius' | 'wet' | 'near' | 'far'>;

export const drawnRoll = ({ axis, sweep, innerRadius, outerRadius, wet, near, far }: Roll): DrawnRoll => ({
  axis: drawnFrame(axis),
  sweep: round(sweep, 1e6),
  innerRadius: drawnLength(innerRadius),
  outerRadius: drawnLength(outerRadius),
  wet,
  near: drawnLevels(near),
  far: drawnLevels(far),
});
