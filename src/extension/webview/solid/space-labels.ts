import { Vector3, type Camera } from 'three';
import { svg } from '../dom.js';
import { textWidth } from '../text-width.js';
import type { Palette } from '../palette.js';
import type { V3 } from './piece.js';

export interface SpaceLabel {
  readonly point: V3;
  readonly text: string;
  /** Larger stands first when labels would cover one another. */
  readonly weight: number;
  readonly mark: 'none' | 'ring' | 'cross' | 'drop';
}

const LINE = 15;
/** Looking whether something stands in front of a label costs; of more labels than this, the rest is not looked at. */
const MOST_LABELS = 60;

/** Labels as SVG in screen pixels; one that would cover another, heavier one is left out. */
export const placeLabels = (
  labels: readonly SpaceLabel[],
  camera: Camera,
  width: number,
  height: number,
  palette: Palette,
  isHidden: (point: V3) => boolean,
  clear: readonly Box[] = [],
): SVGElement[] => {
  const taken: Box[] = [...clear];
  const out: SVGElement[] = [];
  for (const label of [...labels].sort((a, b) => b.weight - a.weight)) {
    const at = new Vector3(...label.point).project(camera);
    if (at.z > 1 || Math.abs(at.x) > 1.05 || Math.abs(at.y) > 1.05) continue;
    const [x, y] = [((at.x + 1) / 2) * width, ((1 - at.y) / 2) * height];
    const place = placeFor(label, x, y, taken, [width, height]);
    if (!place && label.mark === 'none') continue;
    if (out.length < MOST_LABELS && isHidden(label.point)) continue;
    if (place) taken.push(place.box);
    out.push(...drawn(label, x, y, place?.at, palette));
  }
  return out;
};

type Box = readonly [number, number, number, number];

/** Where the words go: on the point, or beside a mark; a marked place is always shown, in the first free position. */
const placeFor = (
  { text, mark }: SpaceLabel,
  x: number,
  y: number,
  taken: readonly Box[],
  [width, height]: readonly [number, number],
): { readonly at: readonly [number, number]; readonly box: Box } | undefined => {
  const half = textWidth(text, 12) / 2 + 2;
  const choices: readonly (readonly [number, number])[] =
    mark === 'none'
      ? [
          [0, 0],
          [0, -18],
          [0, 18],
          [0, -36],
          [0, 36],
        ]
      : [
          [0, -16],
          [0, 18],
          [half + 12, 0],
          [-half - 12, 0],
          [0, -32],
          [0, 34],
          ...[48, 64, 80, 96].flatMap((far): readonly (readonly [number, number])[] => [
            [0, -far],
            [0, far],
            [half + 12, -far / 2],
            [-half - 12, -far / 2],
            [half + 12, far / 2],
            [-half - 12, far / 2],
          ]),
        ];
  const places = choices.map(([dx, dy]) => {
    const middle = Math.min(width - half - 4, Math.max(half + 4, x + dx));
    const down = Math.min(height - LINE / 2 - 2, Math.max(LINE / 2 + 2, y + dy));
    const box: Box = [middle - half, down - LINE / 2, middle + half, down + LINE / 2];
    return { at: [middle, down] as const, box };
  });
  return places.find(({ box }) => !taken.some((other) => overlap(box, other)));
};

const overlap = (a: Box, b: Box): boolean => a[0] < b[2] && b[0] < a[2] && a[1] < b[3] && b[1] < a[3];

const drawn = (
  { text, mark }: SpaceLabel,
  x: number,
  y: number,
  at: readonly [number, number] | undefined,
  palette: Palette,
): SVGElement[] => {
  const words =
    at &&
    svg(
      'text',
      {
        x: at[0],
        y: at[1] + 4,
        'text-anchor': 'middle',
        'font-size': 12,
        'font-family': palette.font,
        fill: palette.ink,
        stroke: palette.paper,
        'stroke-width': 3.5,
        'stroke-linejoin': 'round',
        'paint-order': 'stroke',
      },
      text,
    );
  const pen = { fill: 'none', stroke: mark === 'cross' ? palette.warn : palette.ink, 'stroke-width': 2 };
  const beside = words && at ? [...leader([x, y], at, palette), words] : [];
  if (mark === 'ring') return [svg('circle', { cx: x, cy: y, r: 5, ...pen }), ...beside];
  if (mark === 'cross')
    return [
      svg('path', { d: `M${x - 6} ${y - 6}L${x + 6} ${y + 6}M${x - 6} ${y + 6}L${x + 6} ${y - 6}`, ...pen }),
      ...beside,
    ];
  if (mark === 'drop')
    return [
      svg('path', {
        d: `M${x} ${y - 7}C${x + 7} ${y + 3} ${x + 3} ${y + 7} ${x} ${y + 7}S${x - 7} ${y + 3} ${x} ${y - 7}Z`,
        ...pen,
      }),
      ...beside,
    ];
  return words ? [words] : [];
};

/** px. Words so far from their mark are led to it by a line. */
const FAR = 30;

const leader = ([x, y]: readonly [number, number], at: readonly [number, number], { faint }: Palette): SVGElement[] =>
  Math.abs(at[1] - y) < FAR
    ? []
    : [svg('line', { x1: x, y1: y, x2: at[0], y2: at[1], stroke: faint, 'stroke-width': 1 })];
