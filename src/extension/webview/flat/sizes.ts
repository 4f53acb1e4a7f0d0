import type { DrawnOrdinate, FlatPanelItem, FlatPartItem } from '../../../language/protocol.js';
import { svg } from '../dom.js';
import { textWidth } from '../text-width.js';
import { lengthNumber } from '../units.js';
import type { FlatDrawing } from './flat-drawings.js';
import type { Label } from './labels.js';

type Point = readonly [number, number];

/** Lengths from one corner, which a ring marks: across above the part, upwards at the side of the ring, as on paper. */
export const cornerSizes = ({ box, datum, ordinates }: FlatPartItem): FlatDrawing => {
  const [left, bottom, right, top] = box;
  const [across, up] = ordinates;
  const [from, way] = datum === 'left' ? [left, 1] : [right, -1];
  const size = Math.max(right - left, top - bottom);
  const labels = [
    ...across.map((each, i) => {
      const x = from + way * each.value;
      const witness: Witness = { at: [x, -top], reach: [x, -bottom - each.reach], turn: -90, way: [0, -1] };
      return ordinateLabel(each, size, witness, apartOf(across, i));
    }),
    ...up.map((each, i) => {
      const y = -bottom - each.value;
      const witness: Witness = { at: [from, y], reach: [from + way * each.reach, y], turn: 0, way: [-way, 0] };
      return ordinateLabel(each, size, witness, apartOf(up, i));
    }),
  ];
  return {
    drawn: [
      svg('line', { class: 'datum', x1: from, y1: -bottom, x2: from, y2: -bottom }),
      svg('line', { class: 'datum inner', x1: from, y1: -bottom, x2: from, y2: -bottom }),
    ],
    labels,
  };
};

/** mm from the nearest that weighs more, or from the corner; the weightiest come first. */
const apartOf = (ordinates: readonly DrawnOrdinate[], index: number): number =>
  ordinates
    .slice(0, index)
    .reduce((least, { value }) => Math.min(least, Math.abs(value - ordinates[index].value)), ordinates[index].value);

interface Witness {
  /** On the border of the box, and where what is measured stands. */
  readonly at: Point;
  readonly reach: Point;
  readonly turn: number;
  /** Away from the part. */
  readonly way: Point;
}

/** px between words and the part. */
const AWAY = 12;
/** px by which words give way to their neighbours. */
const ASIDE = [0, 13, -13, 26, -26];

const ordinateLabel = (
  { value, weight }: DrawnOrdinate,
  size: number,
  { at, reach, turn, way: [dx, dy] }: Witness,
  apart: number,
): Label => {
  // Along a line that is bent nothing else is drawn: its dashes tell the way.
  const isBend = weight >= WEIGHTY && weight < WHOLE;
  const words = lengthNumber(value);
  const away = AWAY + textWidth(words, 11) / 2;
  return {
    element: svg('text', { class: 'size' }, words),
    x: at[0],
    y: at[1],
    turn,
    lines: 0.35,
    room: size * (weight >= WEIGHTY ? 0.35 : 0.25),
    weight: 3.1 + Math.min(0.6, weight / 1500),
    shifts: ASIDE.map((aside) => [dx * away - dy * aside, dy * away + dx * aside] as const),
    apart,
    leader: { element: svg('polyline', { class: 'size' }), through: isBend ? [at] : [reach, at], always: true },
  };
};

/** The whole of it, and bends. */
const WEIGHTY = 500;
const WHOLE = 1000;

/** The length of every straight side of a panel, inside along the side, clear of what stands at its middle. */
export const panelSizes = (region: FlatPanelItem['region']): FlatDrawing => ({
  drawn: [],
  labels: region.flatMap(([x, y, bulge], i): Label[] => {
    const [nx, ny] = region[(i + 1) % region.length];
    const length = Math.hypot(nx - x, ny - y);
    if (bulge !== 0 || length < 1) return [];
    // The region runs counter-clockwise with y up, so its inside is on the left.
    const turn = (Math.atan2(-(ny - y), nx - x) * 180) / Math.PI;
    const isOver = turn > 90 || turn <= -90;
    return [
      {
        element: svg('text', { class: 'size' }, lengthNumber(length)),
        x: x + (nx - x) * 0.25,
        y: -(y + (ny - y) * 0.25),
        turn: isOver ? turn + 180 : turn,
        lines: isOver ? 1 : -0.35,
        room: length,
        weight: 3.9,
      },
    ];
  }),
});
