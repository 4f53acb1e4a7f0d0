import type { FlatPanelItem } from '../../../language/protocol.js';
import { svg } from '../dom.js';
import { lengthNumber, lengthText } from '../units.js';
import type { FlatDrawing } from './flat-drawings.js';
import type { Label } from './labels.js';

type Point = readonly [number, number];

/** Overall width above and height left of a box [left, bottom, right, top], y up. */
export const overallSizes = (box: readonly [number, number, number, number]): FlatDrawing => {
  const [left, bottom, right, top] = box;
  const away = Math.max(right - left, top - bottom) * 0.04;
  const lines = [
    sizeLine(
      [left, -top - away],
      [right, -top - away],
      [
        [left, -top],
        [right, -top],
      ],
    ),
    sizeLine(
      [left - away, -bottom],
      [left - away, -top],
      [
        [left, -bottom],
        [left, -top],
      ],
    ),
  ];
  return {
    drawn: lines.flat(),
    labels: [
      sizeLabel([(left + right) / 2, -top - away], 0, lengthText(right - left), Infinity),
      sizeLabel([left - away, -(bottom + top) / 2], -90, lengthText(top - bottom), Infinity),
    ],
  };
};

/** The length of every straight side of a panel, inside along the side, clear of what stands at its middle. */
export const panelSizes = (region: FlatPanelItem['region']): FlatDrawing => ({
  drawn: [],
  labels: region.flatMap(([x, y, bulge], i): Label[] => {
    const [nx, ny] = region[(i + 1) % region.length];
    const length = Math.hypot(nx - x, ny - y);
    if (bulge !== 0 || length < 1) return [];
    // The region runs counter-clockwise with y up, so its inside is on the left.
    const turn = (Math.atan2(-(ny - y), nx - x) * 180) / Math.PI;
    const isOver = turn > 90 || turn <= -90;
    const at: Point = [x + (nx - x) * 0.25, -(y + (ny - y) * 0.25)];
    return [{ ...sizeLabel(at, isOver ? turn + 180 : turn, lengthNumber(length), length), lines: isOver ? 1 : -0.35 }];
  }),
});

const sizeLabel = ([x, y]: Point, turn: number, words: string, room: number): Label => ({
  element: svg('text', { class: 'size' }, words),
  x,
  y,
  turn,
  lines: -0.35,
  room,
  weight: 3.5,
});

const sizeLine = (from: Point, to: Point, feet: readonly [Point, Point]): SVGElement[] =>
  [[from, to] as const, [feet[0], from] as const, [feet[1], to] as const].map(([a, b]) =>
    svg('line', { class: 'size', x1: a[0], y1: a[1], x2: b[0], y2: b[1] }),
  );
