import type { ChoiceAxesItem, ChoiceItem, SceneItem } from '../../../language/protocol.js';
import { button, html, plain, setAttributes, svg } from '../dom.js';
import { drawingOf } from '../picture.js';
import type { SceneChanges } from '../store.js';
import { rowsOf, type PreviewView, type TextTable, type ViewEvents } from '../view.js';
import { placesBetween, ticksOf, type Scale } from './scale.js';

/** Room for words beside the plot, px. */
const EDGE = { left: 70, right: 30, top: 30, bottom: 50 };
const DOT = 6;

/** The choices between two goals: each a point, the one and the other along the axes; one of them can be written into the text. */
export class ChoicesView implements PreviewView {
  readonly hint = 'Keys: arrows choose, Enter: text';
  readonly picture: HTMLElement;
  readonly controls: HTMLElement;
  private readonly drawing = svg('svg', { class: 'choices-plot', role: 'group', 'aria-label': 'Choices' });
  private readonly write: HTMLButtonElement;
  private items: ReadonlyMap<string, SceneItem> = new Map();
  private current: string | undefined;

  constructor(private readonly events: ViewEvents) {
    this.picture = html('div', { class: 'choices picture', tabindex: 0 }, this.drawing);
    this.write = button('Write These Values', 'Put the values of this choice into the text', () => {
      if (this.current !== undefined) this.events.taken(this.current);
    });
    this.controls = html(
      'div',
      { class: 'controls' },
      button('Previous', 'Previous choice', () => this.step(-1)),
      button('Next', 'Next choice', () => this.step(1)),
      this.write,
    );
    this.picture.addEventListener('keydown', (event) => this.onKey(event));
    new ResizeObserver(() => this.draw()).observe(this.picture);
  }

  update({ items }: SceneChanges): void {
    this.items = items;
    const points = this.points();
    if (this.current === undefined || !items.has(this.current))
      this.current = (points.find(([, { isChosen }]) => isChosen) ?? points[0])?.[0];
    this.draw();
  }

  select(keys: readonly string[]): void {
    const key = this.points().find(([each]) => keys.includes(each))?.[0];
    if (key === undefined) return;
    this.current = key;
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
    return { caption: 'Choices between two goals', columns: ['Values', 'What they give'], rows: rowsOf(this.points()) };
  }

  keep(): unknown {
    return this.current;
  }

  restore(kept: unknown): void {
    if (typeof kept === 'string') this.current = kept;
  }

  private points(): [string, ChoiceItem][] {
    return [...this.items]
      .filter((entry): entry is [string, ChoiceItem] => entry[1].kind === 'choice')
      .sort((a, b) => a[1].order - b[1].order);
  }

  private draw(): void {
    const axes = [...this.items.values()].find((item): item is ChoiceAxesItem => item.kind === 'choice-axes');
    const points = this.points();
    const [width, height] = [this.picture.clientWidth, this.picture.clientHeight];
    this.write.disabled = this.current === undefined || points.length === 0;
    setAttributes(this.drawing, { viewBox: `0 0 ${width} ${height}` });
    if (!axes || points.length === 0 || width < EDGE.left + EDGE.right || height < EDGE.top + EDGE.bottom) {
      this.drawing.replaceChildren();
      return;
    }
    const x = placesBetween(
      points.map(([, { across }]) => across),
      EDGE.left,
      width - EDGE.right,
    );
    const y = placesBetween(
      points.map(([, { up }]) => up),
      height - EDGE.bottom,
      EDGE.top,
    );
    const way = points.map(([, { across, up }]) => `${x.at(across)},${y.at(up)}`).join(' ');
    this.drawing.replaceChildren(
      ...axisMarks(x, y, axes, width, height),
      svg('polyline', { class: 'choices-way', points: way }),
      ...points.map(([key, item]) => this.dot(key, item, x.at(item.across), y.at(item.up))),
    );
  }

  private dot(key: string, item: ChoiceItem, cx: number, cy: number): SVGElement {
    const isCurrent = key === this.current;
    const dot = svg('circle', {
      class: `choice${isCurrent ? ' chosen' : ''}${item.isChosen ? ' best' : ''}`,
      cx,
      cy,
      r: isCurrent ? DOT * 1.5 : DOT,
      role: 'button',
      'aria-label': [item.told.what, ...item.told.facts].join('; '),
      'aria-current': isCurrent ? 'true' : 'false',
    });
    dot.addEventListener('click', () => this.choose(key));
    dot.addEventListener('dblclick', () => this.events.picked(key, 'text'));
    const label = svg(
      'text',
      { class: 'choice-label', x: cx + 2 * DOT, y: cy - DOT, display: isCurrent ? undefined : 'none' },
      item.told.what,
    );
    if (cx > this.picture.clientWidth / 2) setAttributes(label, { x: cx - 2 * DOT, 'text-anchor': 'end' });
    return svg('g', {}, dot, label);
  }

  private choose(key: string): void {
    this.current = key;
    this.draw();
    this.events.picked(key, 'preview');
  }

  private step(by: number): void {
    const keys = this.points().map(([key]) => key);
    const at = this.current === undefined ? -1 : keys.indexOf(this.current);
    const next = keys[Math.min(keys.length - 1, Math.max(0, at + by))];
    if (next !== undefined) this.choose(next);
  }

  private onKey(event: KeyboardEvent): void {
    const step = { ArrowRight: 1, ArrowUp: 1, ArrowLeft: -1, ArrowDown: -1 }[event.key];
    if (step === undefined || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    this.step(step);
  }
}

const axisMarks = (x: Scale, y: Scale, axes: ChoiceAxesItem, width: number, height: number): SVGElement[] => {
  const [left, bottom] = [EDGE.left - 2 * DOT, height - EDGE.bottom + 2 * DOT];
  const words = ({ wish, unit }: ChoiceAxesItem['across']): string => (unit === '' ? wish : `${wish}, ${unit}`);
  return [
    svg('path', { class: 'choices-axis', d: `M${left} ${EDGE.top} V${bottom} H${width - EDGE.right}` }),
    ...ticksOf(x).map((value) =>
      svg('text', { class: 'choices-tick', x: x.at(value), y: bottom + 16, 'text-anchor': 'middle' }, plain(value, 3)),
    ),
    ...ticksOf(y).map((value) =>
      svg('text', { class: 'choices-tick', x: left - 6, y: y.at(value) + 4, 'text-anchor': 'end' }, plain(value, 3)),
    ),
    svg(
      'text',
      { class: 'choices-name', x: width - EDGE.right, y: bottom + 32, 'text-anchor': 'end' },
      words(axes.across),
    ),
    svg('text', { class: 'choices-name', x: left - 50, y: EDGE.top - 12 }, words(axes.up)),
  ];
};
