import type { BendRowItem, BendStepItem, SceneItem } from '../../../language/protocol.js';
import { setAttributes, svg } from '../dom.js';
import type { Box, Point } from './free-place.js';
import { wordsOf } from './section-words.js';

/** What of a stroke to show: all of it or what is near the line, and how far it is, 0..1. */
export interface Look {
  readonly near: boolean;
  readonly share: number;
}

/** Draws a bend seen along its line: the tools and the part at a moment of the stroke, or the plain angle when no stroke is known. */
export const sectionDrawing = (drawing: SVGSVGElement, item: SceneItem | undefined, look: Look): void => {
  if (item?.kind === 'bend-step' && item.states_deg.length > 0) drawStroke(drawing, item, look);
  else if (item?.kind === 'bend-row') drawAngle(drawing, item);
  else drawing.replaceChildren();
};

/** mm around the bend line: the tools and the first of the metal. */
const NEAR: Box = [-75, -60, 75, 90];

/** Of what is drawn, free at each side: room for words. */
const MARGIN = 0.1;

/** Size of words, in pixels of the screen. */
const WORDS = 12;

/** Which state of a stroke stands for a share of it. */
export const stateAt = (item: BendStepItem, share: number): number => Math.round(share * (item.states_deg.length - 1));

const drawStroke = (drawing: SVGSVGElement, item: BendStepItem, { near, share }: Look): void => {
  const state = stateAt(item, share);
  const isHit = item.hit !== undefined && state === item.states_deg.length - 1;
  const tools = item.tools.map(({ name, outline, moves }) => ({
    name,
    outline: moves ? outline.map((point) => movedBy(point, moves[state])) : outline,
  }));
  const metal = item.sides.flatMap(({ outlines, moves, mirrored }) =>
    outlines.map((outline) => outline.map((point) => mirroredBy(movedBy(point, moves[state]), mirrored))),
  );
  const bend = item.bend[state];
  const stop = item.stop && stopOutline(item.stop.distance);
  const box = widened(near ? NEAR : withStop(item.box, stop));
  show(drawing, box, `Section at ${item.told.what}: operator to the right, back gauge to the left`);
  const size = WORDS * unitsPerPixel(drawing, box);
  drawing.append(
    ...tools.map(({ name, outline }) =>
      svg('polygon', { class: isHit && name === item.hit ? 'tool hit' : 'tool', points: pointsOf(outline) }),
    ),
    ...(stop ? [svg('polygon', { class: 'stop', points: pointsOf(stop) })] : []),
    ...metal.map((outline) => svg('polygon', { class: 'metal', points: pointsOf(outline) })),
    ...bend.map((outline) => svg('polygon', { class: 'metal made', points: pointsOf(outline) })),
    ...wordsOf({
      tools: [...tools, ...(stop && item.stop ? [{ name: item.stop.text, outline: stop }] : [])],
      metal: [...metal, ...bend],
      box,
      size,
    }),
  );
};

/** mm: how thick the stop is drawn, and how far below and above the sheet's underside it reaches. */
const STOP = { thick: 12, below: 4, above: 10 } as const;

/** What the part lies against while the sheet is still flat. */
const stopOutline = (distance: number): readonly Point[] => [
  [-distance - STOP.thick, -STOP.below],
  [-distance, -STOP.below],
  [-distance, STOP.above],
  [-distance - STOP.thick, STOP.above],
];

const withStop = ([left, bottom, right, top]: Box, stop: readonly Point[] | undefined): Box => [
  Math.min(left, ...(stop ?? []).map(([x]) => x)),
  bottom,
  right,
  top,
];

const drawAngle = (drawing: SVGSVGElement, item: BendRowItem): void => {
  const profile = profileOf((item.angle_deg * Math.PI) / 180, item.radius_mm, item.direction === 'down' ? -1 : 1);
  const [xs, ys] = [profile.map(([x]) => x), profile.map(([, y]) => y)];
  show(drawing, widened([Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys)]), `Angle of ${item.name}`);
  drawing.append(svg('polyline', { class: 'profile', points: pointsOf(profile) }));
};

const movedBy = ([x, y]: Point, [c, s, dx, dy]: readonly [number, number, number, number]): Point => [
  c * x - s * y + dx,
  s * x + c * y + dy,
];

const mirroredBy = ([x, y]: Point, mirrored: boolean): Point => (mirrored ? [-x, y] : [x, y]);

const widened = ([left, bottom, right, top]: Box): Box => {
  const margin = Math.max(right - left, top - bottom, 1) * MARGIN;
  return [left - margin, bottom - margin, right + margin, top + margin];
};

const show = (drawing: SVGSVGElement, [left, bottom, right, top]: Box, label: string): void => {
  setAttributes(drawing, { viewBox: `${left} ${-top} ${right - left} ${top - bottom}`, 'aria-label': label });
  drawing.replaceChildren();
};

const unitsPerPixel = (drawing: SVGSVGElement, [left, bottom, right, top]: Box): number =>
  Math.max((right - left) / Math.max(80, drawing.clientWidth), (top - bottom) / Math.max(80, drawing.clientHeight));

const pointsOf = (points: readonly Point[]): string =>
  points.map(([x, y]) => `${x.toFixed(2)},${(-y).toFixed(2)}`).join(' ');

/** Two legs of 40 mm and the arc between them; the first lies level. */
const profileOf = (angle: number, radius: number, turn: 1 | -1): Point[] => {
  const leg = 40;
  const points: Point[] = [[-leg, 0]];
  const steps = 16;
  for (let i = 0; i <= steps; i++) {
    const a = (angle * i) / steps;
    points.push([radius * Math.sin(a), turn * radius * (1 - Math.cos(a))]);
  }
  const [x, y] = points[points.length - 1];
  points.push([x + leg * Math.cos(angle), y + turn * leg * Math.sin(angle)]);
  return points;
};
