import { svg } from '../dom.js';
import { textWidth } from '../text-width.js';
import { Crowd, type Rect } from './crowd.js';

type Point = readonly [number, number];

export interface Leader {
  readonly element: SVGPolylineElement;
  /** Points that it runs through before it comes to the words. */
  readonly through: readonly Point[];
  /** Drawn also where the words stand at their best place. */
  readonly always: boolean;
}

/** From a point of the drawing to the words. */
export const leader = (from: readonly [number, number], always = false): Leader => ({
  element: svg('polyline', { class: 'leader', style: 'display: none' }),
  through: [from],
  always,
});

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
  /** Points at which it may stand besides, the better first. */
  readonly spots?: readonly Point[];
  /** Pixels by which it may stand away from its point, the best first; at its point when there are none. */
  readonly shifts?: readonly Shift[];
  /** A line from a point of the drawing to the words; undefined: none. */
  readonly leader?: Leader | undefined;
  /** Corners of an area that it may not leave, in the drawing. */
  readonly within?: readonly Point[];
  /** From its neighbour, in the drawing's units: nearer than some pixels it would say the same. */
  readonly apart?: number;
  /** Shown only so far away that the first length is less than what two letters need, and so near that the second is not. */
  readonly range?: readonly [from: number, to: number];
  /** Shown only beside this one: words that go on where those leave off. */
  readonly after?: Label | undefined;
  /** Stands in its place where it has none. */
  readonly or?: Label;
  /** Of labels that would cover one another the one with the larger weight stands. */
  readonly weight: number;
}

/** All that is drawn of it. */
export const partsOf = ({ element, leader, or }: Label): SVGElement[] => [
  ...(leader ? [leader.element] : []),
  element,
  ...(or ? partsOf(or) : []),
];

const LINE = 14;
/** px */
const APART = 7;
/** px between letters of holes side by side. */
const LETTERS_APART = 24;
const LARGE = 3000;

/** Where the part that a label belongs to has been laid; or by which pixels words stand away from their point. */
type Shift = readonly [x: number, y: number];
const STAYS: readonly Shift[] = [[0, 0]];

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
    const told = new Set<Label>();
    for (const [owner, ground] of this.grounds) {
      const [left, top, right, bottom] = ground.map((side) => side * scale);
      // So near, words are small beside the room between parts.
      if (Math.max(right - left, bottom - top) < LARGE) crowd.own([left, top, right, bottom], owner);
    }
    for (const { label, always, shift, owner } of all) {
      const seek = (each: Label): Stand | undefined => {
        if (!isInRange(label, scale) || (!always && !hasRoom(each, scale))) return undefined;
        if (each.after && !told.has(each.after)) return undefined;
        return standsOf(each).find(
          (stand) => isWithin(each, scale, stand) && crowd.take(rectOf(each, scale, shift, stand), false, owner),
        );
      };
      let shown: { readonly label: Label; readonly stand: Stand } | undefined;
      for (const each of waysOf(label)) {
        const stand = shown ? undefined : seek(each);
        if (stand) shown = { label: each, stand };
      }
      if (!shown && always && label.weight > 2 && isInRange(label, scale)) {
        shown = { label, stand: standsOf(label)[0] };
        crowd.take(rectOf(label, scale, shift, shown.stand), true, owner);
      }
      if (shown) told.add(label);
      for (const each of waysOf(label)) show(each, scale, shown?.label === each ? shown.stand : undefined);
    }
  }
}

/** It, and what stands in its place. */
const waysOf = (label: Label): readonly Label[] => [label, ...(label.or ? waysOf(label.or) : [])];

/** A point of the drawing, and the pixels away from it. */
interface Stand {
  readonly at: Point;
  readonly away: Shift;
  /** Not the best of all. */
  readonly isOff: boolean;
}

const standsOf = ({ x, y, spots = [], shifts = STAYS }: Label): readonly [Stand, ...Stand[]] => {
  const [first, ...rest] = [[x, y] as const, ...spots].flatMap((at) =>
    shifts.map((away) => ({ at, away, isOff: true })),
  );
  return [{ ...first, isOff: false }, ...rest];
};

const widthOf = ({ element }: Label): number =>
  element.classList.contains('title')
    ? textWidth(element.textContent ?? '', 13, true)
    : textWidth(
        element.textContent ?? '',
        12,
        element.classList.contains('chosen') || element.classList.contains('letter'),
      );

const isInRange = ({ range }: Label, scale: number): boolean =>
  !range || (range[0] * scale < LETTERS_APART && range[1] * scale >= LETTERS_APART);

const hasRoom = (label: Label, scale: number): boolean =>
  label.room * scale > widthOf(label) &&
  (label.height === undefined || label.height * scale > 3.4 * LINE) &&
  (label.apart === undefined || label.apart * scale > APART);

/** Does it stand inside its area? */
const isWithin = (label: Label, scale: number, stand: Stand): boolean => {
  const { within } = label;
  if (!within) return true;
  const [left, top, right, bottom] = rectOf(label, scale, [0, 0], stand).map((side) => side / scale);
  const corners: readonly Point[] = [
    [left, top],
    [right, top],
    [right, bottom],
    [left, bottom],
  ];
  return corners.every((corner) => isInside(corner, within));
};

const isInside = ([x, y]: Point, area: readonly Point[]): boolean =>
  area.filter(([px, py], i) => {
    const [qx, qy] = area[(i + 1) % area.length];
    return py <= y !== qy <= y && px + ((qx - px) * (y - py)) / (qy - py) > x;
  }).length %
    2 ===
  1;

/** On the screen, upright: of a slanted label the rectangle around it. */
const rectOf = (label: Label, scale: number, [dx, dy]: Shift, { at, away }: Stand): Rect => {
  const turn = (label.turn * Math.PI) / 180;
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  // The words stand on their line: their middle is a third of a line above it.
  const down = (label.lines - 0.3) * LINE;
  const [x, y] = [(at[0] + dx) * scale - s * down + away[0], (at[1] + dy) * scale + c * down + away[1]];
  const [halfLong, halfHigh] = [widthOf(label) / 2, LINE * 0.4];
  const halfX = Math.abs(c) * halfLong + Math.abs(s) * halfHigh;
  const halfY = Math.abs(s) * halfLong + Math.abs(c) * halfHigh;
  return [x - halfX, y - halfY, x + halfX, y + halfY];
};

/** Without a place it is not shown. */
const show = (label: Label, scale: number, stand: Stand | undefined): void => {
  const { element, turn, lines, leader } = label;
  element.style.display = stand ? '' : 'none';
  if (leader) leader.element.style.display = stand && (leader.always || stand.isOff) ? '' : 'none';
  if (!stand) return;
  const { at, away } = stand;
  const [px, py] = [at[0] + away[0] / scale, at[1] + away[1] / scale];
  const down = (lines * LINE) / scale;
  element.setAttribute('transform', `translate(${px} ${py}) rotate(${turn}) translate(0 ${down})`);
  if (!leader) return;
  const points = [...leader.through, endOfLeader(label, leader, scale, stand)];
  leader.element.setAttribute('points', points.map((point) => point.join()).join(' '));
};

/** On the box of the words, where it is nearest to what they name. */
const endOfLeader = (label: Label, { through }: Leader, scale: number, stand: Stand): Point => {
  const [left, top, right, bottom] = rectOf(label, scale, [0, 0], stand).map((side) => side / scale);
  const [x, y] = through[through.length - 1];
  return [Math.min(right, Math.max(left, x)), Math.min(bottom, Math.max(top, y))];
};
