import { svg } from '../dom.js';
import type { Place } from '../around/marks.js';
import type { Palette } from '../palette.js';
import { lengthText } from '../units.js';
import type { V3 } from './piece.js';

/** Measures between two places that are picked one after the other; a third one begins anew. */
export class Rule {
  private ends: readonly V3[] = [];

  constructor(private readonly say: (words: string) => void) {
    say('Pick two places; a corner is taken where one is near');
  }

  take(point: V3): void {
    this.ends = this.ends.length === 1 ? [...this.ends, point] : [point];
    this.say(this.ends.length === 1 ? 'Pick the other place' : wordsOf(this.ends[0], this.ends[1]));
  }

  drawn(placeOf: (point: V3) => Place | undefined, { ink, paper, chosen, font }: Palette): SVGElement[] {
    const places = this.ends.flatMap((end) => placeOf(end) ?? []);
    const ends = this.ends.map(placeOf).filter((place) => place !== undefined);
    const rings = ends.map(([x, y]) =>
      svg('circle', { cx: x, cy: y, r: 4, fill: paper, stroke: chosen, 'stroke-width': 2 }),
    );
    if (places.length < 4) return rings;
    const [[x0, y0], [x1, y1]] = ends;
    const words = svg(
      'text',
      {
        class: 'rule',
        x: (x0 + x1) / 2,
        y: (y0 + y1) / 2 - 8,
        'text-anchor': 'middle',
        'font-size': 13,
        'font-weight': 600,
        'font-family': font,
        fill: ink,
        stroke: paper,
        'stroke-width': 4,
        'stroke-linejoin': 'round',
        'paint-order': 'stroke',
      },
      lengthText(Math.hypot(...between(this.ends[0], this.ends[1])), 1),
    );
    return [svg('line', { x1: x0, y1: y0, x2: x1, y2: y1, stroke: chosen, 'stroke-width': 2 }), ...rings, words];
  }
}

const between = (a: V3, b: V3): V3 => [b[0] - a[0], b[1] - a[1], b[2] - a[2]];

const wordsOf = (a: V3, b: V3): string => {
  const [x, y, z] = between(a, b);
  const along = [x, y, z].map((part) => lengthText(Math.abs(part), 1));
  return `${lengthText(Math.hypot(x, y, z), 1)} apart: ${along[0]} across, ${along[1]} deep, ${along[2]} high`;
};
