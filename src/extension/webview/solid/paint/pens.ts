import { svg } from '../../dom.js';

export type Point = readonly [x: number, y: number];

/** What a picture without a graphics card is painted with, in screen pixels. */
export interface Pen {
  /** Outer ring, then holes. */
  fill(rings: readonly (readonly Point[])[], color: string, opacity: number): void;
  lines(pairs: readonly (readonly [Point, Point])[], color: string, width: number): void;
}

/** px. A hair of its own colour closes the gaps between neighbours. */
const HAIR = 0.6;

const moves = (pairs: readonly (readonly [Point, Point])[]): string =>
  pairs.map(([a, b]) => `M${spot(a)}L${spot(b)}`).join('');
const spot = ([x, y]: Point): string => `${x.toFixed(1)} ${y.toFixed(1)}`;

/** Writes a drawing. */
export class SvgPen implements Pen {
  readonly drawn: SVGElement[] = [];

  fill(rings: readonly (readonly Point[])[], color: string, opacity: number): void {
    this.drawn.push(
      svg('path', {
        d: rings.map((ring) => `M${ring.map(spot).join('L')}Z`).join(''),
        'fill-rule': 'evenodd',
        fill: color,
        'fill-opacity': opacity,
        stroke: opacity < 1 ? 'none' : color,
        'stroke-width': HAIR,
        'stroke-linejoin': 'round',
      }),
    );
  }

  lines(pairs: readonly (readonly [Point, Point])[], color: string, width: number): void {
    if (pairs.length === 0) return;
    this.drawn.push(svg('path', { d: moves(pairs), fill: 'none', stroke: color, 'stroke-width': width }));
  }
}

/** Paints on the screen: many times as fast as a new drawing a frame. */
export class CanvasPen implements Pen {
  constructor(private readonly context: CanvasRenderingContext2D) {
    context.lineJoin = 'round';
  }

  fill(rings: readonly (readonly Point[])[], color: string, opacity: number): void {
    const { context } = this;
    context.beginPath();
    for (const ring of rings) {
      ring.forEach(([x, y], i) => (i === 0 ? context.moveTo(x, y) : context.lineTo(x, y)));
      context.closePath();
    }
    context.globalAlpha = opacity;
    context.fillStyle = color;
    context.fill('evenodd');
    context.globalAlpha = 1;
    if (opacity < 1) return;
    context.strokeStyle = color;
    context.lineWidth = HAIR;
    context.stroke();
  }

  lines(pairs: readonly (readonly [Point, Point])[], color: string, width: number): void {
    const { context } = this;
    context.beginPath();
    for (const [[ax, ay], [bx, by]] of pairs) {
      context.moveTo(ax, ay);
      context.lineTo(bx, by);
    }
    context.strokeStyle = color;
    context.lineWidth = width;
    context.stroke();
  }
}
