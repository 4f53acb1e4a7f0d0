import { Vector3, type Camera } from 'three';
import { svg } from '../dom.js';
import type { Palette } from '../palette.js';
import type { V3 } from './pieces.js';

export interface SpaceLabel {
  readonly point: V3;
  readonly text: string;
  /** Larger stands first when labels would cover one another. */
  readonly weight: number;
  readonly mark: 'none' | 'ring' | 'cross' | 'drop';
}

const LETTER = 6.6;
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
): SVGElement[] => {
  const taken: Box[] = [];
  const out: SVGElement[] = [];
  for (const label of [...labels].sort((a, b) => b.weight - a.weight)) {
    const at = new Vector3(...label.point).project(camera);
    if (at.z > 1 || Math.abs(at.x) > 1.05 || Math.abs(at.y) > 1.05) continue;
    const [x, y] = [((at.x + 1) / 2) * width, ((1 - at.y) / 2) * height];
    const place = placeFor(label, x, y, taken, width);
    if (!place) continue;
    if (out.length < MOST_LABELS && isHidden(label.point)) continue;
    taken.push(place.box);
    out.push(...drawn(label, x, y, place.at, palette));
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
  width: number,
): { readonly at: readonly [number, number]; readonly box: Box } | undefined => {
  const half = (text.length * LETTER) / 2;
  const choices: readonly (readonly [number, number])[] =
    mark === 'none'
      ? [[0, 0]]
      : [
          [0, -16],
          [0, 18],
          [half + 12, 0],
          [-half - 12, 0],
          [0, -32],
          [0, 34],
        ];
  const places = choices.map(([dx, dy]) => {
    const middle = Math.min(width - half - 4, Math.max(half + 4, x + dx));
    const box: Box = [middle - half, y + dy - LINE / 2, middle + half, y + dy + LINE / 2];
    return { at: [middle, y + dy] as const, box };
  });
  const free = places.find(({ box }) => !taken.some((other) => overlap(box, other)));
  return free ?? (mark === 'none' ? undefined : places[0]);
};

const overlap = (a: Box, b: Box): boolean => a[0] < b[2] && b[0] < a[2] && a[1] < b[3] && b[1] < a[3];

const drawn = (
  { text, mark }: SpaceLabel,
  x: number,
  y: number,
  at: readonly [number, number],
  palette: Palette,
): SVGElement[] => {
  const words = svg(
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
  if (mark === 'ring') return [svg('circle', { cx: x, cy: y, r: 5, ...pen }), words];
  if (mark === 'cross')
    return [
      svg('path', { d: `M${x - 6} ${y - 6}L${x + 6} ${y + 6}M${x - 6} ${y + 6}L${x + 6} ${y - 6}`, ...pen }),
      words,
    ];
  if (mark === 'drop')
    return [
      svg('path', {
        d: `M${x} ${y - 7}C${x + 7} ${y + 3} ${x + 3} ${y + 7} ${x} ${y + 7}S${x - 7} ${y + 3} ${x} ${y - 7}Z`,
        ...pen,
      }),
      words,
    ];
  return [words];
};
