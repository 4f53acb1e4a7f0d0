/** What is drawn of each item of a flat, in the flat's own place, and the words that go with it. */
import type { FlatBendItem, FlatPanelItem, FlatPartItem } from '../../../language/protocol.js';
import { svg } from '../dom.js';
import { contourPath } from './contour-path.js';
import { leader, type Label } from './labels.js';
import { letterLabels } from './letter-labels.js';
import { textWidth } from '../text-width.js';
import { spotFor } from './name-spot.js';
import { factLines } from './words.js';

export interface FlatDrawing {
  readonly drawn: readonly SVGElement[];
  readonly labels: readonly Label[];
}

export const partDrawing = (part: FlatPartItem): FlatDrawing => {
  const [left, bottom, right] = part.box;
  const name = part.quantity > 1 ? `${part.quantity} × ${part.name}` : part.name;
  const title = svg('text', { class: 'title' }, part.isCut ? `${name}, cut already` : name);
  const below = factLines(part).map((line) => svg('text', { class: 'facts' }, line));
  const middle = { x: (left + right) / 2, y: -bottom, turn: 0 };
  const spare = (right - left) * 1.6;
  return {
    drawn: [
      svg('path', { class: 'cut outer', d: contourPath(part.outline) }),
      ...part.holes.map((hole) => svg('path', { class: 'cut inner', d: contourPath(hole) })),
      ...part.nicks.map(([[x1, y1], [x2, y2]]) => svg('line', { class: 'nick', x1, y1: -y1, x2, y2: -y2 })),
      ...part.marks.map((mark) => {
        const points = mark.points.map(([x, y]) => `${x},${-y}`).join(' ');
        return svg(mark.closed ? 'polygon' : 'polyline', { class: `mark ${mark.kind}`, points });
      }),
    ],
    labels: [
      { element: title, ...middle, lines: 1.5, room: Infinity, weight: 5 },
      ...below.reduce<Label[]>(
        (lines, element, i) => [
          ...lines,
          {
            element,
            ...middle,
            lines: 2.6 + 1.1 * i,
            room: i === 0 ? spare * 2 : spare,
            weight: 2 - i * 0.1,
            after: lines.at(-1),
          },
        ],
        [],
      ),
      ...letterLabels(part),
      ...part.facing.ways.map((way) => facingLabel(way, part.facing)),
    ],
  };
};

/** The word along the way that it names, with an arrow at the end that points there. */
const facingLabel = (
  { name, towards: [x, y] }: FlatPartItem['facing']['ways'][number],
  { at, panel }: FlatPartItem['facing'],
): Label => {
  const turn = readableTurn(x, -y);
  const isAlong = Math.cos((turn * Math.PI) / 180) * x - Math.sin((turn * Math.PI) / 180) * y > 0;
  return {
    element: svg('text', { class: 'facing' }, isAlong ? `${name} \u2192` : `\u2190 ${name}`),
    x: at[0],
    y: -at[1],
    turn,
    lines: 0.35,
    // On a small piece it would be all that is seen.
    room: Math.sqrt(areaOf(panel)) * 0.4,
    weight: 1.5,
    shifts: FACING_SHIFTS,
    within: panel.map(([px, py]) => [px, -py] as const),
  };
};

const areaOf = (ring: FlatPartItem['facing']['panel']): number =>
  Math.abs(
    ring.reduce((sum, [x, y], i) => {
      const [nextX, nextY] = ring[(i + 1) % ring.length];
      return sum + x * nextY - nextX * y;
    }, 0) / 2,
  );

/** px, about the middle of a panel, in which its name stands. */
const FACING_SHIFTS: Label['shifts'] = [24, -24, 40, -40, 60, -60, 84, -84].flatMap((down) =>
  [0, 30, -30, 64, -64].map((across) => [across, down] as const),
);

export const panelDrawing = (panel: FlatPanelItem, { holes, box, name }: FlatPartItem): FlatDrawing => {
  const label = svg('text', { class: 'name' }, panel.name);
  const spot = spotFor(panel, holes);
  return {
    drawn: [svg('path', { class: 'panel', d: contourPath(panel.region) })],
    labels: [
      {
        element: label,
        ...spot,
        lines: 0.35,
        weight: 3,
        ...(panel.name === name ? {} : { or: nameBeside(panel, box) }),
      },
    ],
  };
};

/** A name that has no room in its panel stands below the part where the panel reaches down, else right of it; a line leads there. */
const nameBeside = ({ name, region }: FlatPanelItem, [left, bottom, right, top]: FlatPartItem['box']): Label => {
  const [xs, ys] = [region.map(([x]) => x), region.map(([, y]) => y)];
  const [low, high] = [Math.min(...ys), Math.max(...ys)];
  const [near, far] = [Math.min(...xs), Math.max(...xs)];
  const isBelow = low - bottom <= right - far;
  const half = textWidth(name, 12) / 2;
  const from = isBelow
    ? ([(near + far) / 2, -(low + (high - low) * 0.06)] as const)
    : ([far - (far - near) * 0.06, -(low + high) / 2] as const);
  return {
    element: svg('text', { class: 'name' }, name),
    ...(isBelow ? { x: from[0], y: -bottom } : { x: right, y: from[1] }),
    turn: 0,
    lines: 0.35,
    // A small part is told by its title.
    room: Math.max(right - left, top - bottom) * 0.35,
    weight: 2.8,
    shifts: isBelow
      ? [0, -24, 24, -48, 48, -half - 30, half + 30].flatMap((across) =>
          [14, 28, 44].map((down) => [across, down] as const),
        )
      : [0, -14, 14, -28, 28, -44, 44].map((down) => [half + 16, down] as const),
    leader: leader(from, true),
  };
};

export const bendDrawing = (bend: FlatBendItem, box: FlatPartItem['box']): FlatDrawing => {
  const { direction, start, end, tangents } = bend;
  const line = { x1: start[0], y1: -start[1], x2: end[0], y2: -end[1] };
  const [[a, b], [c, d]] = tangents;
  const points = [a, b, d, c].map(([x, y]) => `${x},${-y}`).join(' ');
  const words = `${direction === 'up' ? '▲ up' : '▽ down'} ${bend.angle}`;
  const along = (share: number): readonly [number, number] => [
    line.x1 + (line.x2 - line.x1) * share,
    line.y1 + (line.y2 - line.y1) * share,
  ];
  const [x, y] = along(0.5);
  const turn = readableTurn(line.x2 - line.x1, line.y2 - line.y1);
  const tilt = (turn * Math.PI) / 180;
  const place = {
    x,
    y,
    spots: SHARES.map(along),
    turn,
    lines: ABOVE,
    shifts: [[0, 0] as const, [-Math.sin(tilt) * BELOW, Math.cos(tilt) * BELOW] as const],
    room: bend.length_mm,
    weight: 4,
    within: cornersOf(box),
  };
  const letter = (content: string): SVGTextElement => svg('text', { class: `angle ${direction}` }, content);
  const whole = bend.number === undefined ? words : `${bend.number}. ${words}`;
  const short: Label | undefined =
    bend.number === undefined
      ? undefined
      : { ...place, element: letter(String(bend.number)), room: bend.length_mm * 0.4 };
  return {
    drawn: [
      svg(
        'g',
        { class: `bend ${direction}` },
        svg('polygon', { class: `zone ${direction}`, points }),
        svg('line', { class: 'reach', ...line }),
        svg('line', { class: 'line', ...line }),
      ),
    ],
    labels: [
      {
        ...place,
        element: letter(whole),
        ...(short && { or: short }),
      },
    ],
  };
};

/** Lines of text by which words stand over their line, and px from there to below it. */
const ABOVE = -0.45;
const BELOW = 22;

const cornersOf = ([left, bottom, right, top]: FlatPartItem['box']): Label['within'] => [
  [left, -bottom],
  [right, -bottom],
  [right, -top],
  [left, -top],
];

/** Of a bend line at which its words may stand besides its middle. */
const SHARES = [0.28, 0.72, 0.14, 0.86];

/** Degrees by which to turn text along a line so that it reads from the left or from below. */
const readableTurn = (dx: number, dy: number): number => {
  const turn = (Math.atan2(dy, dx) * 180) / Math.PI;
  if (turn > 89.9) return turn - 180;
  return turn <= -90.1 ? turn + 180 : turn;
};
