import type { ChoiceAxesItem, ChoiceItem } from '../../../language/protocol.js';
import { button, html, plain, setAttributes, svg } from '../dom.js';
import { nextOf, PlottedView } from '../plotted-view.js';
import type { SceneChanges } from '../store.js';
import { rowsOf, type TextTable, type ViewEvents } from '../view.js';
import { placesBetween, ticksOf, type Scale } from './scale.js';

/** Room for words beside the plot, px. */
const EDGE = { left: 70, right: 30, top: 30, bottom: 50 };
const DOT = 6;

/** The choices between two goals: each a point, the one and the other along the axes; one of them can be written into the text. */
export class ChoicesView extends PlottedView {
  readonly controls: HTMLElement;
  private readonly write: HTMLButtonElement;
  private current: string | undefined;

  constructor(events: ViewEvents) {
    super(events, 'choices', 'Choices');
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
  }

  override update(changes: SceneChanges): void {
    this.items = changes.items;
    const points = this.points();
    if (this.current === undefined || !this.items.has(this.current))
      this.current = (points.find(([, { isChosen }]) => isChosen) ?? points[0])?.[0];
    this.draw();
  }

  select(keys: readonly string[]): void {
    const key = this.points().find(([each]) => keys.includes(each))?.[0];
    if (key === undefined) return;
    this.current = key;
    this.draw();
  }

  table(): TextTable {
    return { caption: 'Choices between two goals', columns: ['Values', 'What they give'], rows: rowsOf(this.points()) };
  }

  override keep(): unknown {
    return this.current;
  }

  override restore(kept: unknown): void {
    if (typeof kept === 'string') this.current = kept;
  }

  private points(): [string, ChoiceItem][] {
    return [...this.items]
      .filter((entry): entry is [string, ChoiceItem] => entry[1].kind === 'choice')
      .sort((a, b) => a[1].order - b[1].order);
  }

  protected draw(): void {
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
      'data-key': key,
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

  protected step(by: 1 | -1): void {
    const next = nextOf(
      this.points().map(([key]) => key),
      (key) => key === this.current,
      by,
    );
    if (next !== undefined) this.choose(next);
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
