import type { FlatPanelItem } from '../../../language/protocol.js';
import { svg } from '../dom.js';
import { lengthNumber, lengthText } from '../units.js';

/** Overall width below and height left of a box [left, bottom, right, top], y up. */
export const overallSizes = (box: readonly [number, number, number, number]): SVGElement[] => {
  const [left, bottom, right, top] = box;
  const away = Math.max(right - left, top - bottom) * 0.04;
  return [
    ...sizeLine(
      [left, -top - away],
      [right, -top - away],
      [
        [left, -top],
        [right, -top],
      ],
      lengthText(right - left),
    ),
    ...sizeLine(
      [left - away, -bottom],
      [left - away, -top],
      [
        [left, -bottom],
        [left, -top],
      ],
      lengthText(top - bottom),
    ),
  ];
};

/** The length of every straight side of a panel, inside along the side, clear of what stands at its middle. */
export const panelSizes = (region: FlatPanelItem['region']): SVGElement[] =>
  region.flatMap(([x, y, bulge], i) => {
    const [nx, ny] = region[(i + 1) % region.length];
    const length = Math.hypot(nx - x, ny - y);
    if (bulge !== 0 || length < 1) return [];
    // The region runs counter-clockwise with y up, so its inside is on the left.
    const turn = (Math.atan2(-(ny - y), nx - x) * 180) / Math.PI;
    const flip = turn > 90 || turn <= -90 ? 180 : 0;
    return [
      svg(
        'text',
        {
          class: 'size',
          transform: `translate(${x + (nx - x) * 0.25} ${-(y + (ny - y) * 0.25)}) rotate(${turn + flip})`,
          dy: flip ? '1em' : '-0.35em',
        },
        lengthNumber(length),
      ),
    ];
  });

type Point = readonly [number, number];

const sizeLine = (from: Point, to: Point, feet: readonly [Point, Point], text: string): SVGElement[] => {
  const turn = (Math.atan2(to[1] - from[1], to[0] - from[0]) * 180) / Math.PI;
  return [
    svg('line', { class: 'size', x1: from[0], y1: from[1], x2: to[0], y2: to[1] }),
    svg('line', { class: 'size', x1: feet[0][0], y1: feet[0][1], x2: from[0], y2: from[1] }),
    svg('line', { class: 'size', x1: feet[1][0], y1: feet[1][1], x2: to[0], y2: to[1] }),
    svg(
      'text',
      {
        class: 'size',
        transform: `translate(${(from[0] + to[0]) / 2} ${(from[1] + to[1]) / 2}) rotate(${turn})`,
        dy: '-0.35em',
      },
      text,
    ),
  ];
};
