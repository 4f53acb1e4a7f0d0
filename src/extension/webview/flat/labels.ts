import { textWidth } from '../text-width.js';
import { Crowd, type Rect } from './crowd.js';

/** Text that keeps its size on the screen and hides where it has no room, or where something more important stands. */
export interface Label {
  readonly element: SVGTextElement;
  readonly x: number;
  readonly y: number;
  /** Degrees, clockwise. */
  readonly turn: number;
  /** Lines of text by which it stands below its point. */
  readonly lines: number;
  /** Length available along the text, in the drawing's units. */
  readonly room: number;
  /** Height available, in the drawing's units; undefined: enough. */
  readonly height?: number;
  /** Of labels that would cover one another the one with the larger weight stands. */
  readonly weight: number;
}

const LINE = 14;
/** px */
const LARGE = 3000;

/** Where the part that a label belongs to has been laid. */
type Shift = readonly [x: number, y: number];

export class Labels {
  private readonly byKey = new Map<string, readonly Label[]>();
  private readonly shifts = new Map<string, () => Shift>();
  private readonly owners = new Map<string, string>();
  private grounds: ReadonlyMap<string, Rect> = new Map();
  private kept = new Set<string>();
  private stale = true;
  private scale = 0;

  /** `shift` tells where the labels' part lies by the time they are placed; `owner` names its ground. */
  set(key: string, labels: readonly Label[], shift: () => Shift, owner = ''): void {
    this.owners.set(key, owner);
    this.byKey.set(key, labels);
    this.shifts.set(key, shift);
    this.stale = true;
  }

  drop(key: string): void {
    this.byKey.delete(key);
    this.shifts.delete(key);
    this.owners.delete(key);
    this.stale = true;
  }

  /** Where each part lies: no words of another one may stand there. */
  ground(grounds: ReadonlyMap<string, Rect>): void {
    this.grounds = grounds;
    this.stale = true;
  }

  /** These are shown whatever room they have. */
  keepShown(keys: readonly string[]): void {
    this.kept = new Set(keys);
    this.stale = true;
  }

  /** Places all labels for a zoom of `scale` pixels per unit, the important ones first. O(n log n). */
  settle(scale: number): void {
    if (scale === this.scale && !this.stale) return;
    this.scale = scale;
    this.stale = false;
    const all = [...this.byKey].flatMap(([key, labels]) =>
      labels.map((label) => ({
        label,
        always: this.kept.has(key),
        owner: this.owners.get(key),
        shift: this.shifts.get(key)?.() ?? ([0, 0] as const),
      })),
    );
    all.sort((a, b) => Number(b.always) - Number(a.always) || b.label.weight - a.label.weight);
    const crowd = new Crowd(60);
    for (const [owner, ground] of this.grounds) {
      const [left, top, right, bottom] = ground.map((side) => side * scale);
      // So near, words are small beside the room between parts.
      if (Math.max(right - left, bottom - top) < LARGE) crowd.own([left, top, right, bottom], owner);
    }
    for (const { label, always, shift, owner } of all) {
      const rect = rectOf(label, scale, shift);
      const isShown = (always || hasRoom(label, scale)) && crowd.take(rect, always && label.weight > 2, owner);
      show(label, scale, isShown);
    }
  }
}

const widthOf = ({ element }: Label): number =>
  element.classList.contains('title')
    ? textWidth(element.textContent ?? '', 13, true)
    : textWidth(element.textContent ?? '', 12, element.classList.contains('chosen'));

const hasRoom = (label: Label, scale: number): boolean =>
  label.room * scale > widthOf(label) && (label.height === undefined || label.height * scale > 3.4 * LINE);

/** On the screen, upright: of a slanted label the rectangle around it. */
const rectOf = (label: Label, scale: number, [dx, dy]: Shift): Rect => {
  const turn = (label.turn * Math.PI) / 180;
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  // The words stand on their line: their middle is a third of a line above it.
  const down = (label.lines - 0.3) * LINE;
  const [x, y] = [(label.x + dx) * scale - s * down, (label.y + dy) * scale + c * down];
  const [halfLong, halfHigh] = [widthOf(label) / 2, LINE * 0.4];
  const halfX = Math.abs(c) * halfLong + Math.abs(s) * halfHigh;
  const halfY = Math.abs(s) * halfLong + Math.abs(c) * halfHigh;
  return [x - halfX, y - halfY, x + halfX, y + halfY];
};

const show = ({ element, x, y, turn, lines }: Label, scale: number, isShown: boolean): void => {
  element.style.display = isShown ? '' : 'none';
  if (!isShown) return;
  const down = (lines * LINE) / scale;
  element.setAttribute('transform', `translate(${x} ${y}) rotate(${turn}) translate(0 ${down})`);
};
