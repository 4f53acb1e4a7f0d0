import { Vector3, type PerspectiveCamera } from 'three';
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
  camera: PerspectiveCamera,
  width: number,
  height: number,
  palette: Palette,
  isHidden: (point: V3) => boolean,
): SVGElement[] => {
  const taken: [number, number, number, number][] = [];
  const out: SVGElement[] = [];
  for (const label of [...labels].sort((a, b) => b.weight - a.weight)) {
    const at = new Vector3(...label.point).project(camera);
    if (at.z > 1 || Math.abs(at.x) > 1.05 || Math.abs(at.y) > 1.05) continue;
    const [x, y] = [((at.x + 1) / 2) * width, ((1 - at.y) / 2) * height];
    const half = (label.text.length * LETTER) / 2;
    const box: [number, number, number, number] = [x - half, y - LINE / 2, x + half, y + LINE / 2];
    if (label.mark === 'none' && taken.some((other) => overlap(box, other))) continue;
    if (out.length < MOST_LABELS && isHidden(label.point)) continue;
    taken.push(box);
    out.push(...drawn(label, x, y, palette));
  }
  return out;
};

const overlap = (a: readonly number[], b: readonly number[]): boolean => a[0] < b[2] && b[0] < a[2] && a[1] < b[3] && b[1] < a[3];

const drawn = ({ text, mark }: SpaceLabel, x: number, y: number, palette: Palette): SVGElement[] => {
  const lift = mark === 'none' ? 4 : -12;
  const words = svg(
    'text',
    {
      x, y: y + lift, 'text-anchor': 'middle', 'font-size': 12, 'font-family': palette.font, fill: palette.ink,
      stroke: palette.paper, 'stroke-width': 3.5, 'stroke-linejoin': 'round', 'paint-order': 'stroke',
    },
    text,
  );
  const pen = { fill: 'none', stroke: mark === 'cross' ? palette.warn : palette.ink, 'stroke-width': 2 };
  if (mark === 'ring') return [svg('circle', { cx: x, cy: y, r: 5, ...pen }), words];
  if (mark === 'cross') return [svg('path', { d: `M${x - 6} ${y - 6}L${x + 6} ${y + 6}M${x - 6} ${y + 6}L${x + 6} ${y - 6}`, ...pen }), words];
  if (mark === 'drop') return [svg('path', { d: `M${x} ${y - 7}C${x + 7} ${y + 3} ${x + 3} ${y + 7} ${x} ${y + 7}S${x - 7} ${y + 3} ${x} ${y - 7}Z`, ...pen }), words];
  return [words];
};
