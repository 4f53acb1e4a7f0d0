/** What is drawn on paper: lines, circles and words. mm from the top left corner of the page or figure, y down. */
import type { Vec2 } from '../../geometry/vec.js';

export type Mark = LineMark | CircleMark | TextMark;

/** Black on white throughout: a grey is only ever a fill, so that no line is lost on a poor printer. */
export interface LineMark {
  readonly kind: 'line';
  readonly points: readonly Vec2[];
  readonly closed: boolean;
  /** 0: fill only. */
  readonly width: number;
  readonly dash?: 'dashes' | 'chain';
  readonly fill?: Fill;
}

export type Fill = 'white' | 'light' | 'black';

export interface CircleMark {
  readonly kind: 'circle';
  readonly center: Vec2;
  readonly radius: number;
  readonly width: number;
  readonly fill?: Fill;
}

export interface TextMark {
  readonly kind: 'text';
  readonly text: string;
  /** On the base line. */
  readonly at: Vec2;
  /** Height of the type, mm. */
  readonly size: number;
  readonly weight: 'plain' | 'bold';
  readonly align: 'left' | 'middle' | 'right';
  /** Quarter turn to the left: reads upwards. */
  readonly upright?: true;
  readonly color?: 'white';
}

export interface Figure {
  /** Width and height. */
  readonly size: Vec2;
  readonly marks: readonly Mark[];
  /** What it shows, for those who do not see it. */
  readonly text: string;
}

export interface Page {
  readonly size: Vec2;
  readonly marks: readonly Mark[];
}

/** The same mark moved. */
export const moveMark = (mark: Mark, [dx, dy]: Vec2): Mark => {
  const move = ([x, y]: Vec2): Vec2 => [x + dx, y + dy];
  if (mark.kind === 'line') return { ...mark, points: mark.points.map(move) };
  return mark.kind === 'circle' ? { ...mark, center: move(mark.center) } : { ...mark, at: move(mark.at) };
};

export const line = (points: readonly Vec2[], width: number, rest: Partial<LineMark> = {}): LineMark => ({
  kind: 'line', points, closed: false, width, ...rest,
});

export const box = ([x, y]: Vec2, [w, h]: Vec2, width: number, rest: Partial<LineMark> = {}): LineMark =>
  line([[x, y], [x + w, y], [x + w, y + h], [x, y + h]], width, { closed: true, ...rest });

export const words = (text: string, at: Vec2, size: number, rest: Partial<TextMark> = {}): TextMark => ({
  kind: 'text', text, at, size, weight: 'plain', align: 'left', ...rest,
});

/** Line weights, mm. */
export const WEIGHT = { hair: 0.12, thin: 0.2, plain: 0.35, cut: 0.55, frame: 0.7 } as const;
