import type { BendRowItem, BendStepItem, SceneItem } from '../../../language/protocol.js';
import { button, html, plain, slider, svg, toggle } from '../dom.js';
import type { LegendEntry } from '../around/legend.js';
import type { Place } from '../around/marks.js';
import { mix, readPalette } from '../palette.js';
import { drawingOf, sideBySide } from '../around/picture.js';
import type { SceneChanges } from '../store.js';
import { rowsOf, type PreviewView, type TextTable, type ViewEvents } from '../view.js';
import { wantsMotion } from '../solid/streams.js';
import { Acting } from './acting.js';
import { handlingBetween, isNone, type Handling } from './handling.js';
import { partDrawing } from './part-drawing.js';
import { bendKeysOf, heading, inOrder, numberOf } from './bend-list.js';
import { sectionDrawing, stateAt } from './section-drawing.js';

/** The bends one by one: in bending order with the tools once an order is known, else as a plain list. */
export class BendsView implements PreviewView {
  readonly hint = 'Keys: arrows step, Home, End, Enter: text';
  readonly picture: HTMLElement;
  readonly controls: HTMLElement;
  private readonly list = html('div', { class: 'steps', role: 'list', 'aria-label': 'Bends' });
  private readonly drawing = svg('svg', { class: 'section', role: 'img' });
  private readonly part = svg('svg', { class: 'at-brake', role: 'img' });
  private readonly handling = html('figcaption');
  private readonly figure = html('figure', {}, this.part, this.handling);
  private readonly facts = html('div', { class: 'facts' });
  private readonly acting = new Acting(
    () => this.showDrawing(),
    () => this.picture.isConnected,
  );
  private readonly play: HTMLButtonElement;
  private items: ReadonlyMap<string, SceneItem> = new Map();
  private order: readonly string[] = [];
  private current: string | undefined;
  private near = false;
  private readonly angle = html('output', { class: 'angle' });
  private readonly stroke: HTMLElement;

  constructor(private readonly events: ViewEvents) {
    this.picture = html(
      'div',
      { class: 'bends picture', tabindex: 0 },
      this.list,
      html('div', { class: 'step' }, html('div', { class: 'figures' }, this.drawing, this.figure), this.facts),
    );
    const near = toggle('Near the line', 'Show what is near the bend line only', (isOn) => {
      this.near = isOn;
      this.showCurrent();
    });
    this.play = toggle('Play', 'Act out this stroke and those after it', (isOn) => {
      if (isOn) this.actOut(true);
      else this.rest();
    });
    this.stroke = slider('Stroke', 100, (value) => {
      this.acting.rest();
      this.play.setAttribute('aria-pressed', 'false');
      this.acting.share = value / 100;
      this.showDrawing();
    });
    this.controls = html(
      'div',
      { class: 'controls' },
      near,
      this.play,
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
    this.rest();
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
    if (key === undefined || key === this.current) return;
    this.rest();
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
    this.rest();
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
    const { paper, bendUp, bendDown, error, faint, wetMetal, dryMetal } = readPalette();
    const item = this.current === undefined ? undefined : this.items.get(this.current);
    if (item?.kind !== 'bend-step' || item.states_deg.length === 0) return [];
    const patch = (words: string, color: string): LegendEntry => ({ words, color, mark: 'patch' });
    return [
      patch('sheet', mix(paper, bendUp, 0.35)),
      patch('what is bent now', mix(paper, bendDown, 0.8)),
      ...(item.lies ? [patch('dry side', dryMetal), patch('wet side', wetMetal)] : []),
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
    const pictures = this.figure.hidden ? [this.drawing] : [this.drawing, this.part];
    return sideBySide(
      pictures.map((picture) => ({ picture: drawingOf(picture), at: picture.getBoundingClientRect() })),
    );
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
    const before = item.kind === 'bend-step' ? item.before.text : '';
    const row = html(
      'div',
      { class: 'row', role: 'listitem' },
      ...(before === '' ? [] : [html('p', { class: 'before' }, before)]),
      button(`${numberOf(item)}${item.told.what}`, 'Show this bend', () => this.choose(key)),
    );
    row.dataset.key = key;
    row.addEventListener('dblclick', () => this.events.picked(key, 'text'));
    return row;
  }

  private choose(key: string): void {
    const isNew = key !== this.current;
    this.rest();
    this.current = key;
    this.showCurrent();
    this.events.picked(key, 'preview');
    if (isNew) this.actOut(false);
  }

  /** Lies still, at the end of the handling and of the stroke. */
  private rest(): void {
    this.acting.rest();
    this.play.setAttribute('aria-pressed', 'false');
    this.showDrawing();
  }

  /** How the part gets here from the stroke before, and the stroke; `goesOn`: and all that come after. */
  private actOut(goesOn: boolean): void {
    const item = this.currentStep();
    const handling = this.handlingOf(item);
    if (wantsMotion() && item && (goesOn || !isNone(handling)))
      this.acting.start(handling, goesOn, () => this.goOn(goesOn));
  }

  private goOn(goesOn: boolean): void {
    const next = goesOn ? this.order[this.order.indexOf(this.current ?? '') + 1] : undefined;
    if (next !== undefined) {
      this.current = next;
      this.showCurrent();
      this.events.picked(next, 'preview');
    }
    if (next !== undefined && this.currentStep()) this.actOut(true);
    else this.rest();
  }

  private currentStep(): BendStepItem | undefined {
    const item = this.current === undefined ? undefined : this.items.get(this.current);
    return item?.kind === 'bend-step' && item.states_deg.length > 0 ? item : undefined;
  }

  /** From the stroke before of the same part. */
  private handlingOf(item: BendStepItem | undefined): Handling {
    const at = this.current === undefined ? -1 : this.order.indexOf(this.current);
    const before = this.items.get(this.order[at - 1] ?? '');
    if (!item?.lies || before?.kind !== 'bend-step' || !before.lies || before.part !== item.part) return NONE;
    return handlingBetween(before.lies, item.lies);
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
      row.querySelector('button')?.setAttribute('aria-current', chosen ? 'step' : 'false');
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
    sectionDrawing(this.drawing, item, { near: this.near, share: this.acting.share });
    this.drawPart();
    this.events.moved();
    const isStroke = item?.kind === 'bend-step' && item.states_deg.length > 0;
    this.stroke.hidden = !isStroke;
    const input = this.stroke.querySelector('input');
    if (input) input.value = String(Math.round(this.acting.share * 100));
    this.play.hidden = !isStroke || !wantsMotion();
    this.angle.textContent = isStroke ? `${plain(item.states_deg[stateAt(item, this.acting.share)])}°` : '';
  }

  private drawPart(): void {
    const item = this.currentStep();
    this.figure.hidden = !item?.lies;
    if (!item?.lies) return;
    const words = `${item.lies.up} side up${item.before.text === '' ? '' : `: ${item.before.text}`}`;
    if (this.handling.textContent !== words) this.handling.textContent = words;
    this.part.setAttribute('aria-label', `The part at the brake, seen by its operator, ${words}`);
    const handling = this.handlingOf(item);
    partDrawing(this.part, { pose: item.lies, stop: item.stop?.distance, handling, share: this.acting.way });
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

const NONE: Handling = { round: 0, over: undefined };
