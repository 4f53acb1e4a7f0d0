import type { BendRowItem, BendStepItem, SceneItem } from '../../../language/protocol.js';
import { button, html, plain, svg } from '../dom.js';
import { drawingOf } from '../picture.js';
import type { SceneChanges } from '../store.js';
import type { PreviewView, TextTable, ViewEvents } from '../view.js';
import { sectionDrawing } from './section-drawing.js';

/** The bends one by one: in bending order with the tools once an order is known, else as a plain list. */
export class BendsView implements PreviewView {
  readonly hint = 'Keys: arrows step, Home and End go to the first and last, Enter goes to the text';
  readonly picture: HTMLElement;
  readonly controls: HTMLElement;
  private readonly list = html('ol', { class: 'steps', 'aria-label': 'Bends' });
  private readonly drawing = svg('svg', { class: 'section', role: 'img' });
  private readonly facts = html('div', { class: 'facts' });
  private items: ReadonlyMap<string, SceneItem> = new Map();
  private order: readonly string[] = [];
  private current: string | undefined;

  constructor(private readonly events: ViewEvents) {
    this.picture = html('div', { class: 'bends picture', tabindex: 0 }, this.list, html('div', { class: 'step' }, this.drawing, this.facts));
    this.controls = html(
      'div',
      { class: 'controls' },
      button('Previous', 'Previous bend', () => this.step(-1)),
      button('Next', 'Next bend', () => this.step(1)),
    );
    this.picture.addEventListener('keydown', (event) => this.onKey(event));
    new ResizeObserver(() => this.showCurrent()).observe(this.picture);
  }

  update({ items }: SceneChanges): void {
    this.items = items;
    const entries = [...items].filter(([, item]) => item.kind === 'bend-step');
    const shown = entries.length > 0 ? entries : [...items].filter(([, item]) => item.kind === 'bend-row');
    shown.sort((a, b) => orderOf(a[1]) - orderOf(b[1]));
    this.order = shown.map(([key]) => key);
    if (this.current === undefined || !items.has(this.current)) this.current = this.order[0];
    this.list.replaceChildren(...shown.map(([key, item]) => this.row(key, item)));
    this.showCurrent();
  }

  select(keys: readonly string[]): void {
    const key = keys.find((k) => this.order.includes(k)) ?? this.order.find((k) => keys.includes(bendKeyOf(this.items.get(k))));
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

  toSvg(): SVGSVGElement {
    return drawingOf(this.drawing);
  }

  table(): TextTable {
    const rows = this.order.flatMap((key) => {
      const item = this.items.get(key);
      return item ? [{ key, cells: [titleOf(item), factsOf(item).join('; ')] }] : [];
    });
    return { caption: 'Bends', columns: ['Bend', 'Facts'], rows };
  }

  keep(): unknown {
    return this.current;
  }

  restore(kept: unknown): void {
    if (typeof kept === 'string') this.current = kept;
  }

  private row(key: string, item: SceneItem): HTMLElement {
    const row = html('li', {}, button(titleOf(item), 'Show this bend', () => this.choose(key)));
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
    this.facts.replaceChildren(...(item ? [html('h2', {}, titleOf(item)), html('ul', {}, ...factsOf(item).map((fact) => html('li', {}, fact)))] : []));
    sectionDrawing(this.drawing, item);
  }

  private onKey(event: KeyboardEvent): void {
    const step = { ArrowDown: 1, ArrowRight: 1, ArrowUp: -1, ArrowLeft: -1, Home: -this.order.length, End: this.order.length }[event.key];
    if (step === undefined || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    this.step(step);
  }
}

const orderOf = (item: SceneItem): number => (item.kind === 'bend-step' || item.kind === 'bend-row' ? item.order : 0);

const bendKeyOf = (item: SceneItem | undefined): string => (item?.kind === 'bend-step' ? `bend:${item.bend}` : '');

const titleOf = (item: SceneItem): string => {
  if (item.kind === 'bend-step') return item.title;
  return item.kind === 'bend-row' ? item.name : '';
};

const factsOf = (item: SceneItem): readonly string[] => {
  if (item.kind === 'bend-step') return (item as BendStepItem).facts;
  return item.kind === 'bend-row' ? rowFacts(item) : [];
};

const rowFacts = (row: BendRowItem): string[] => [
  `${row.direction ?? 'side unknown'}, ${plain(row.angle_deg)}° from flat; a protractor between the panels reads ${plain(180 - row.angle_deg)}°`,
  `inside radius ${plain(row.radius_mm, 2)} mm`,
  `length ${plain(row.length_mm)} mm`,
  `K ${plain(row.k, 3)}: allowance ${plain(row.allowance_mm, 2)} mm, deduction ${plain(row.deduction_mm, 2)} mm`,
];
