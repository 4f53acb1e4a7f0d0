import { svg } from '../dom.js';
import type { Place } from '../around/marks.js';
import { drawingOf } from '../around/picture.js';
import type { ViewEvents } from '../view.js';
import { Labels } from './labels.js';
import { PanZoom, type Window2 } from './pan-zoom.js';

/** Pixels that an arrow key moves; times that a key goes nearer. */
const PAN = 60;
const NEARER = 1.25;

/** Clicks pick what lies under the pointer; keys move the window over the drawing. */
const listenTo = (
  picture: SVGSVGElement,
  window: PanZoom,
  events: Pick<ViewEvents, 'picked' | 'cleared'>,
  fit: () => void,
): void => {
  const pick = (event: MouseEvent, focus: 'text' | 'preview'): void => {
    const key = (event.target as Element).closest<SVGElement>('[data-key]')?.dataset.key;
    if (key) events.picked(key, focus);
    else if (focus === 'preview') events.cleared();
  };
  const keys: Readonly<Record<string, () => void>> = {
    ArrowLeft: () => window.pan(-PAN, 0),
    ArrowRight: () => window.pan(PAN, 0),
    ArrowUp: () => window.pan(0, -PAN),
    ArrowDown: () => window.pan(0, PAN),
    '+': () => window.zoom(NEARER),
    '=': () => window.zoom(NEARER),
    '-': () => window.zoom(1 / NEARER),
    '0': fit,
  };
  picture.addEventListener('click', (event) => pick(event, 'preview'));
  picture.addEventListener('dblclick', (event) => pick(event, 'text'));
  picture.addEventListener('keydown', (event) => {
    const act = event.ctrlKey || event.metaKey || event.altKey ? undefined : keys[event.key];
    if (!act) return;
    event.preventDefault();
    act();
  });
};

const placeAlong = (line: SVGLineElement, share: number, whole: DOMRect): Place => {
  const [from, to] = [
    [line.x1, line.y1],
    [line.x2, line.y2],
  ].map(([x, y]) => new DOMPoint(x.baseVal.value, y.baseVal.value).matrixTransform(line.getScreenCTM() ?? undefined));
  return [from.x + (to.x - from.x) * share - whole.left, from.y + (to.y - from.y) * share - whole.top];
};

/** A drawing that is seen through a window: what the views have in common that draw on one plane. */
export abstract class DrawingView {
  readonly hint = 'Drag, wheel; keys: arrows, + − 0, N and P step, Enter: text';
  readonly picture: SVGSVGElement;
  /** All that is drawn hangs in it. */
  protected readonly sheet = svg('g');
  protected readonly window: PanZoom;
  protected labels = new Labels();
  /** What is drawn of an item. */
  protected readonly elements = new Map<string, SVGElement[]>();
  protected chosen: readonly string[] = [];
  /** Around all that is drawn: left, top, right, bottom. */
  protected box: readonly [number, number, number, number] = [0, 0, 100, 100];
  private fitted = false;

  constructor(events: ViewEvents, kind: string, name: string) {
    this.picture = svg(
      'svg',
      { class: kind, tabindex: 0, role: 'application', 'aria-roledescription': 'drawing', 'aria-label': name },
      this.sheet,
    );
    this.window = new PanZoom(this.picture, (scale) => {
      this.labels.settle(scale);
      events.moved();
    });
    listenTo(this.picture, this.window, events, () => this.fit());
  }

  select(keys: readonly string[]): void {
    for (const key of this.chosen)
      for (const element of this.elements.get(key) ?? []) element.classList.remove('chosen');
    this.chosen = keys;
    for (const key of keys) for (const element of this.elements.get(key) ?? []) element.classList.add('chosen');
    this.labels.keepShown(keys);
    this.labels.settle(this.window.current.scale);
  }

  fit(): void {
    this.fitted = true;
    this.window.fit(this.box);
  }

  refresh(): void {
    this.window.apply();
  }

  shown(): void {
    if (this.fitted) this.window.apply();
    else if (this.elements.size > 0) this.fit();
  }

  toSvg(): SVGSVGElement {
    return drawingOf(this.picture);
  }

  placeOf(key: string): Place | undefined {
    const element = this.elements.get(key)?.find((each) => !(each instanceof SVGTextElement));
    if (!element) return undefined;
    const whole = this.picture.getBoundingClientRect();
    const line = element.querySelector<SVGLineElement>('line.line');
    // At the middle of a line stand its words, over the middle of an area its name.
    if (line) return placeAlong(line, 0.2, whole);
    const box = element.getBoundingClientRect();
    const down = Math.min(box.width, box.height) > 40 ? 0.5 - 18 / box.height : 0.5;
    return [box.left + box.width / 2 - whole.left, box.top + box.height * down - whole.top];
  }

  scale(): number | undefined {
    return this.window.current.scale;
  }

  keep(): Window2 | undefined {
    return this.fitted ? this.window.current : undefined;
  }

  restore(kept: unknown): void {
    const window = kept as Window2 | undefined;
    if (!window || typeof window.scale !== 'number') return;
    this.fitted = true;
    this.window.set(window);
  }

  /** After all was drawn: the window goes to it the first time, and follows it then. */
  protected see(): void {
    if (!this.fitted && this.elements.size > 0 && this.picture.clientWidth > 0) this.fit();
    else this.window.see(this.box);
    this.labels.settle(this.window.current.scale);
  }
}
