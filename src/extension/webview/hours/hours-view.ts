import type { HoursLineItem, HoursMarkItem } from '../../../language/protocol.js';
import { html, plain, setAttributes, svg } from '../dom.js';
import { nextOf, PlottedView } from '../plotted-view.js';
import { rowsOf, type TextTable, type ViewEvents } from '../view.js';
import { placesBetween, ticksOf, type Scale } from '../choices/scale.js';

/** Room for words beside the plot, px. */
const EDGE = { left: 76, right: 24, top: 22, bottom: 44 };
/** Between two plots, for the name of the lower one. */
const GAP = 26;

/** A week of work: one plot below the other, the hours along all of them, a line where something goes wrong. */
export class HoursView extends PlottedView {
  readonly controls = html('div', { class: 'controls' });
  private chosen: ReadonlySet<string> = new Set();

  constructor(events: ViewEvents) {
    super(events, 'hours', 'Hours of a week of work');
  }

  select(keys: readonly string[]): void {
    this.chosen = new Set(keys);
    this.draw();
  }

  table(): TextTable {
    return { caption: 'A week of work', columns: ['What', 'How it goes'], rows: rowsOf(this.items) };
  }

  private lines(): [string, HoursLineItem][] {
    return [...this.items]
      .filter((entry): entry is [string, HoursLineItem] => entry[1].kind === 'hours-line')
      .sort((a, b) => a[1].order - b[1].order);
  }

  private marks(): [string, HoursMarkItem][] {
    return [...this.items].filter((entry): entry is [string, HoursMarkItem] => entry[1].kind === 'hours-mark');
  }

  protected draw(): void {
    const lines = this.lines();
    const [width, height] = [this.picture.clientWidth, this.picture.clientHeight];
    setAttributes(this.drawing, { viewBox: `0 0 ${width} ${height}` });
    const room = (height - EDGE.top - EDGE.bottom - GAP * (lines.length - 1)) / Math.max(1, lines.length);
    if (lines.length === 0 || width < EDGE.left + EDGE.right || room < GAP) {
      this.drawing.replaceChildren();
      return;
    }
    const x = placesBetween([0, lines[0][1].total], EDGE.left, width - EDGE.right);
    const bottom = height - EDGE.bottom;
    this.drawing.replaceChildren(
      ...lines.flatMap(([key, item], i) => this.plot(key, item, x, EDGE.top + i * (room + GAP), room)),
      ...this.marks().map(([key, item]) => this.mark(key, item, x.at(item.hour), bottom)),
      ...ticksOf(x).map((value) =>
        svg(
          'text',
          { class: 'choices-tick', x: x.at(value), y: bottom + 16, 'text-anchor': 'middle' },
          plain(value, 2),
        ),
      ),
      svg(
        'text',
        { class: 'choices-name', x: width - EDGE.right, y: bottom + 34, 'text-anchor': 'end' },
        'hours of work',
      ),
    );
  }

  private plot(key: string, item: HoursLineItem, x: Scale, top: number, room: number): SVGElement[] {
    const values = [...item.points.map(([, value]) => value), ...(item.limit === undefined ? [] : [item.limit])];
    const y = placesBetween(values, top + room, top);
    const way = item.points.map(([hour, value]) => `${x.at(hour)},${y.at(value)}`).join(' ');
    const line = svg('polyline', {
      class: `hours-line${this.chosen.has(key) ? ' chosen' : ''}`,
      points: way,
      'data-key': key,
      role: 'button',
      'aria-label': item.told ? [item.told.what, ...item.told.facts].join('; ') : item.name,
    });
    line.addEventListener('click', () => this.choose(key));
    line.addEventListener('dblclick', () => this.events.picked(key, 'text'));
    return [
      svg('path', { class: 'choices-axis', d: `M${EDGE.left} ${top} V${top + room} H${x.at(item.total)}` }),
      svg('text', { class: 'choices-name', x: EDGE.left + 4, y: top - 6 }, `${item.name}, ${item.unit}`),
      ...[...new Set([y.low, y.high])].map((value) =>
        svg(
          'text',
          { class: 'choices-tick', x: EDGE.left - 6, y: y.at(value) + 4, 'text-anchor': 'end' },
          plain(value, 1),
        ),
      ),
      ...(item.limit === undefined
        ? []
        : [svg('path', { class: 'hours-limit', d: `M${EDGE.left} ${y.at(item.limit)} H${x.at(item.total)}` })]),
      line,
    ];
  }

  private mark(key: string, { told }: HoursMarkItem, at: number, bottom: number): SVGElement {
    const line = svg('path', {
      class: `hours-mark${this.chosen.has(key) ? ' chosen' : ''}`,
      d: `M${at} ${EDGE.top - 8} V${bottom}`,
      'data-key': key,
      role: 'button',
      'aria-label': told ? [told.what, ...told.facts].join('; ') : 'Mark',
    });
    line.addEventListener('click', () => this.choose(key));
    const words = told ? told.facts.join('; ') : '';
    return svg('g', {}, line, svg('title', {}, words));
  }

  private choose(key: string): void {
    this.chosen = new Set([key]);
    this.draw();
    this.events.picked(key, 'preview');
  }

  protected step(by: 1 | -1): void {
    const next = nextOf(
      [...this.lines(), ...this.marks()].map(([key]) => key),
      (key) => this.chosen.has(key),
      by,
    );
    if (next !== undefined) this.choose(next);
  }
}
