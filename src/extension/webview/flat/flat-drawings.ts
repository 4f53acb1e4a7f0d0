/** What is drawn of each item of a flat, in the flat's own place, and the words that go with it. */
import type { FlatBendItem, FlatPanelItem, FlatPartItem } from '../../../language/protocol.js';
import { plain, svg } from '../dom.js';
import { contourPath } from './contour-path.js';
import type { Label } from './labels.js';
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
      ...part.marks.map((mark) => {
        const points = mark.points.map(([x, y]) => `${x},${-y}`).join(' ');
        return svg(mark.closed ? 'polygon' : 'polyline', { class: `mark ${mark.kind}`, points });
      }),
    ],
    labels: [
      { element: title, ...middle, lines: 1.5, room: Infinity, weight: 5 },
      ...below.map((element, i) => ({
        element,
        ...middle,
        lines: 2.6 + 1.1 * i,
        room: i === 0 ? spare * 2 : spare,
        weight: 2 - i * 0.1,
      })),
    ],
  };
};

export const panelDrawing = (panel: FlatPanelItem, holes: FlatPartItem['holes']): FlatDrawing => {
  const label = svg('text', { class: 'name' }, panel.name);
  const spot = spotFor(panel, holes);
  return {
    drawn: [svg('path', { class: 'panel', d: contourPath(panel.region) })],
    labels: [{ element: label, ...spot, lines: 0.35, height: spot.height, weight: 3 }],
  };
};

export const bendDrawing = (bend: FlatBendItem): FlatDrawing => {
  const { direction, start, end, tangents } = bend;
  const line = { x1: start[0], y1: -start[1], x2: end[0], y2: -end[1] };
  const [[a, b], [c, d]] = tangents;
  const points = [a, b, d, c].map(([x, y]) => `${x},${-y}`).join(' ');
  const words = `${direction === 'up' ? '▲ up' : '▽ down'} ${plain(bend.angle_deg)}°`;
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
        element: svg('text', { class: `angle ${direction}` }, words),
        x: (line.x1 + line.x2) / 2,
        y: (line.y1 + line.y2) / 2,
        turn: readableTurn(line.x2 - line.x1, line.y2 - line.y1),
        lines: -0.45,
        room: bend.length_mm,
        weight: 4,
      },
    ],
  };
};

/** Degrees by which to turn text along a line so that it reads from the left or from below. */
const readableTurn = (dx: number, dy: number): number => {
  const turn = (Math.atan2(dy, dx) * 180) / Math.PI;
  if (turn > 89.9) return turn - 180;
  return turn <= -90.1 ? turn + 180 : turn;
};
