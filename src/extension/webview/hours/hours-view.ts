import type { HoursLineItem, HoursMarkItem, SceneItem } from '../../../language/protocol.js';
import { html, plain, setAttributes, svg } from '../dom.js';
import { drawingOf } from '../picture.js';
import type { SceneChanges } from '../store.js';
import { rowsOf, type PreviewView, type TextTable, type ViewEvents } from '../view.js';
import { placesBetween, ticksOf, type Scale } from '../choices/scale.js';

/** Room for words beside the plot, px. */
const EDGE = { left: 76, right: 24, top: 22, bottom: 44 };
/** Between two plots, for the name of the lower one. */
const GAP = 26;

/** A week of work: one plot below the other, the hours along all of them, a line where something goes wrong. */
export class HoursView implements PreviewView {
  readonly hint = 'Keys: arrows choose, Enter: text';
  readonly picture: HTMLElement;
  readonly controls = html('div', { class: 'controls' });
  private readonly drawing = svg('svg', {
    class: 'choices-plot',
    role: 'group',
    'aria-label': 'Hours of a week of work',
  });
  private items: ReadonlyMap<string, SceneItem> = new Map();
  private chosen: ReadonlySet<string> = new Set();

  constructor(private readonly events: ViewEvents) {
    this.picture = html('div', { class: 'hours picture', tabindex: 0 }, this.drawing);
    this.picture.addEventListener('keydown', (event) => this.onKey(event));
    new ResizeObserver(() => this.draw()).observe(this.picture);
  }

  update({ items }: SceneChanges): void {
    this.items = items;
    this.draw();
  }

  select(keys: readonly string[]): void {
    this.chosen = new Set(keys);
    this.draw();
  }

  fit(): void {
    this.draw();
  }

  refresh(): void {
    this.draw();
  }

  shown(): void {
    this.draw();
  }

  toSvg(): SVGSVGElement {
    return drawingOf(this.drawing);
  }

  table(): TextTable {
    return { caption: 'A week of work', columns: ['What', 'How it goes'], rows: rowsOf(this.items) };
  }

  keep(): unknown {
    return undefined;
  }

  restore(): void {}

  private lines(): [string, HoursLineItem][] {
    return [...this.items]
      .filter((entry): entry is [string, HoursLineItem] => entry[1].kind === 'hours-line')
      .sort((a, b) => a[1].order - b[1].order);
  }

  private marks(): [string, HoursMarkItem][] {
    return [...this.items].filter((entry): entry is [string, HoursMarkItem] => entry[1].kind === 'hours-mark');
  }

  private draw(): void {
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

  private onKey(event: KeyboardEvent): void {
    const step = { ArrowDown: 1, ArrowRight: 1, ArrowUp: -1, ArrowLeft: -1 }[event.key];
    if (step === undefined || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    const keys = [...this.lines(), ...this.marks()].map(([key]) => key);
    const at = keys.findIndex((key) => this.chosen.has(key));
    const next = keys[Math.min(keys.length - 1, Math.max(0, at + step))];
    if (next !== undefined) this.choose(next);
  }
}
