import type { BendOrderItem, BendRowItem, BendStepItem, SceneItem } from '../../../language/protocol.js';
import { button, html, plain, slider, svg, toggle } from '../dom.js';
import type { LegendEntry } from '../around/legend.js';
import type { Place } from '../around/marks.js';
import { readPalette } from '../palette.js';
import { drawingOf } from '../around/picture.js';
import type { SceneChanges } from '../store.js';
import { rowsOf, type PreviewView, type TextTable, type ViewEvents } from '../view.js';
import { sectionDrawing, stateAt } from './section-drawing.js';

/** The bends one by one: in bending order with the tools once an order is known, else as a plain list. */
export class BendsView implements PreviewView {
  readonly hint = 'Keys: arrows step, Home, End, Enter: text';
  readonly picture: HTMLElement;
  readonly controls: HTMLElement;
  private readonly list = html('div', { class: 'steps', role: 'list', 'aria-label': 'Bends' });
  private readonly drawing = svg('svg', { class: 'section', role: 'img' });
  private readonly facts = html('div', { class: 'facts' });
  private items: ReadonlyMap<string, SceneItem> = new Map();
  private order: readonly string[] = [];
  private current: string | undefined;
  private near = false;
  /** How far the stroke is, 0..1. */
  private share = 1;
  private readonly angle = html('output', { class: 'angle' });
  private readonly stroke: HTMLElement;

  constructor(private readonly events: ViewEvents) {
    this.picture = html(
      'div',
      { class: 'bends picture', tabindex: 0 },
      this.list,
      html('div', { class: 'step' }, this.drawing, this.facts),
    );
    const near = toggle('Near the line', 'Show what is near the bend line only', (isOn) => {
      this.near = isOn;
      this.showCurrent();
    });
    this.stroke = slider('Stroke', 100, (value) => {
      this.share = value / 100;
      this.showDrawing();
    });
    this.controls = html(
      'div',
      { class: 'controls' },
      near,
      this.stroke,
      this.angle,
      button('Previous', 'Previous bend', () => this.step(-1)),
      button('Next', 'Next bend', () => this.step(1)),
    );
    this.picture.addEventListener('keydown', (event) => this.onKey(event));
    new ResizeObserver(() => this.showCurrent()).observe(this.picture);
    this.list.addEventListener('scroll', () => events.moved());
  }

  update({ items }: SceneChanges): void {
    this.items = items;
    const shown = inOrder(items);
    this.order = shown.filter(([, item]) => item.kind !== 'bend-order').map(([key]) => key);
    if (this.current === undefined || !items.has(this.current)) this.current = this.order[0];
    this.list.replaceChildren(
      ...shown.map(([key, item]) => (item.kind === 'bend-order' ? heading(item) : this.row(key, item))),
    );
    this.showCurrent();
  }

  select(keys: readonly string[]): void {
    const key =
      keys.find((k) => this.order.includes(k)) ??
      this.order.find((k) => bendKeysOf(this.items.get(k)).some((bend) => keys.includes(bend)));
    if (key === undefined) return;
    this.current = key;
    this.showCurrent();
  }

  fit(): void {
    this.showCurrent();
  }

  refresh(): void {
    this.showCurrent();
  }

  shown(): void {
    this.showCurrent();
  }

  /** Beside its row in the list, while that is seen. */
  placeOf(key: string): Place | undefined {
    const row = [...this.list.children].find((each) => (each as HTMLElement).dataset.key === key);
    if (!row) return undefined;
    const [box, list, whole] = [row, this.list, this.picture].map((each) => each.getBoundingClientRect());
    const y = box.top + 14;
    return y < list.top || y > list.bottom ? undefined : [list.right - whole.left - 16, y - whole.top];
  }

  legend(): readonly LegendEntry[] {
    const { bendUp, bendDown, error, faint } = readPalette();
    const item = this.current === undefined ? undefined : this.items.get(this.current);
    if (item?.kind !== 'bend-step' || item.states_deg.length === 0) return [];
    const patch = (words: string, color: string): LegendEntry => ({ words, color, mark: 'patch' });
    return [
      patch('sheet', bendUp),
      patch('what is bent now', bendDown),
      { words: 'tool', color: faint, mark: 'line', dash: '5 2' },
      ...(item.hit === undefined ? [] : [patch('what it runs into', error)]),
    ];
  }

  scale(): number | undefined {
    const { width, height } = this.drawing.viewBox.baseVal;
    if (width === 0 || height === 0) return undefined;
    return Math.min(this.drawing.clientWidth / width, this.drawing.clientHeight / height);
  }

  toSvg(): SVGSVGElement {
    return drawingOf(this.drawing);
  }

  table(): TextTable {
    return { caption: 'Bends in bending order', columns: ['Bend', 'Facts'], rows: rowsOf(inOrder(this.items)) };
  }

  keep(): unknown {
    return this.current;
  }

  restore(kept: unknown): void {
    if (typeof kept === 'string') this.current = kept;
  }

  private row(key: string, item: BendStepItem | BendRowItem): HTMLElement {
    const number = item.kind === 'bend-step' && item.hit === undefined ? `${item.order % PART}. ` : '';
    const row = html(
      'div',
      { class: 'row', role: 'listitem' },
      button(`${number}${item.told.what}`, 'Show this bend', () => this.choose(key)),
    );
    row.dataset.key = key;
    row.addEventListener('dblclick', () => this.events.picked(key, 'text'));
    return row;
  }

  private choose(key: string): void {
    this.current = key;
    this.showCurrent();
    this.events.picked(key, 'preview');
  }

  private step(by: number): void {
    const at = this.current === undefined ? -1 : this.order.indexOf(this.current);
    const next = this.order[Math.min(this.order.length - 1, Math.max(0, at + by))];
    if (next !== undefined) this.choose(next);
  }

  private showCurrent(): void {
    for (const row of this.list.children) {
      const chosen = (row as HTMLElement).dataset.key === this.current;
      row.classList.toggle('chosen', chosen);
      row.firstElementChild?.setAttribute('aria-current', chosen ? 'step' : 'false');
      if (chosen) row.scrollIntoView({ block: 'nearest' });
    }
    const item = this.current === undefined ? undefined : this.items.get(this.current);
    this.facts.replaceChildren(
      ...(item && item.kind !== 'note' && item.told
        ? [html('h2', {}, item.told.what), html('ul', {}, ...item.told.facts.map((fact) => html('li', {}, fact)))]
        : []),
    );
    this.showDrawing();
  }

  private showDrawing(): void {
    const item = this.current === undefined ? undefined : this.items.get(this.current);
    sectionDrawing(this.drawing, item, { near: this.near, share: this.share });
    this.events.moved();
    const isStroke = item?.kind === 'bend-step' && item.states_deg.length > 0;
    this.stroke.hidden = !isStroke;
    this.angle.textContent = isStroke ? `${plain(item.states_deg[stateAt(item, this.share)])}°` : '';
  }

  private onKey(event: KeyboardEvent): void {
    const step = {
      ArrowDown: 1,
      ArrowRight: 1,
      ArrowUp: -1,
      ArrowLeft: -1,
      Home: -this.order.length,
      End: this.order.length,
    }[event.key];
    if (step === undefined || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    this.step(step);
  }
}

/** Items of the n-th part count from n times this. */
const PART = 100_000;

type Ordered = BendOrderItem | BendStepItem | BendRowItem;

const isOrdered = (entry: readonly [string, SceneItem]): entry is [string, Ordered] =>
  entry[1].kind === 'bend-order' || entry[1].kind === 'bend-step' || entry[1].kind === 'bend-row';

const inOrder = (items: ReadonlyMap<string, SceneItem>): [string, Ordered][] =>
  [...items].filter(isOrdered).sort((a, b) => a[1].order - b[1].order);

const bendKeysOf = (item: SceneItem | undefined): readonly string[] =>
  item?.kind === 'bend-step' ? item.bends.map((bend) => `bend:${bend}`) : [];

/** A part with what is known of its order, and what would free it where there is none. */
const heading = ({ name, told }: BendOrderItem): HTMLElement => {
  const [order, ...more] = told.facts;
  return html(
    'div',
    { class: 'order', role: 'listitem' },
    html('strong', {}, name),
    html('p', {}, order),
    ...(more.length === 0 ? [] : [html('ul', {}, ...more.map((fact) => html('li', {}, fact)))]),
  );
};
