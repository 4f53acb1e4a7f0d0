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

const LETTER = 6.4;
const LINE = 14;

/** Where the part that a label belongs to has been laid. */
type Shift = readonly [x: number, y: number];

export class Labels {
  private readonly byKey = new Map<string, readonly Label[]>();
  private readonly shifts = new Map<string, () => Shift>();
  private kept = new Set<string>();
  private stale = true;
  private scale = 0;

  /** `shift` tells where the labels' part lies by the time they are placed. */
  set(key: string, labels: readonly Label[], shift: () => Shift): void {
    this.byKey.set(key, labels);
    this.shifts.set(key, shift);
    this.stale = true;
  }

  drop(key: string): void {
    this.byKey.delete(key);
    this.shifts.delete(key);
    this.stale = true;
  }

  /** Parts lie elsewhere. */
  moved(): void {
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
        shift: this.shifts.get(key)?.() ?? ([0, 0] as const),
      })),
    );
    all.sort((a, b) => Number(b.always) - Number(a.always) || b.label.weight - a.label.weight);
    const crowd = new Crowd(60);
    for (const { label, always, shift } of all) {
      const isShown = (always || hasRoom(label, scale)) && crowd.take(rectOf(label, scale, shift), always);
      show(label, scale, isShown);
    }
  }
}

const widthOf = ({ element }: Label): number => (element.textContent?.length ?? 0) * LETTER;

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
