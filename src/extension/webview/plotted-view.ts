import type { SceneItem } from '../../language/protocol.js';
import { html, svg } from './dom.js';
import type { Place } from './around/marks.js';
import { drawingOf } from './around/picture.js';
import type { SceneChanges } from './store.js';
import type { PreviewView, TextTable, ViewEvents } from './view.js';

/** A view that is a plot: it is drawn anew as a whole whenever anything of it changes, and arrow keys choose along it. */
export abstract class PlottedView implements PreviewView {
  readonly hint = 'Keys: arrows choose, Enter: text';
  readonly picture: HTMLElement;
  abstract readonly controls: HTMLElement;
  protected readonly drawing: SVGSVGElement;
  protected items: ReadonlyMap<string, SceneItem> = new Map();

  constructor(
    protected readonly events: ViewEvents,
    name: string,
    label: string,
  ) {
    this.drawing = svg('svg', { class: 'choices-plot', role: 'group', 'aria-label': label });
    this.picture = html('div', { class: `${name} picture`, tabindex: 0 }, this.drawing);
    this.picture.addEventListener('keydown', (event) => this.onKey(event));
    new ResizeObserver(() => {
      this.draw();
      events.moved();
    }).observe(this.picture);
  }

  abstract select(keys: readonly string[]): void;
  abstract table(): TextTable;
  protected abstract draw(): void;
  /** Chooses the next item, or the one before. */
  protected abstract step(by: 1 | -1): void;

  update({ items }: SceneChanges): void {
    this.items = items;
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

  /** In the middle of what is drawn of it: halfway along a line. */
  placeOf(key: string): Place | undefined {
    const drawn = [...this.drawing.querySelectorAll<SVGGeometryElement>('[data-key]')];
    const element = drawn.find((each) => each.dataset.key === key);
    if (!element) return undefined;
    const { x, y } = element.getPointAtLength(element.getTotalLength() / 2);
    const { x: left, y: top } = this.picture.getBoundingClientRect();
    const seen = new DOMPoint(x, y).matrixTransform(element.getScreenCTM() ?? undefined);
    return [seen.x - left, seen.y - top];
  }

  toSvg(): SVGSVGElement {
    return drawingOf(this.drawing);
  }

  keep(): unknown {
    return undefined;
  }

  restore(_kept: unknown): void {}

  private onKey(event: KeyboardEvent): void {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const step = STEPS.get(event.key);
    if (step === undefined) return;
    event.preventDefault();
    this.step(step);
  }
}

/** Both ways along a plot go on: to the right and, as a list is read, down. */
const STEPS: ReadonlyMap<string, 1 | -1> = new Map([
  ['ArrowRight', 1],
  ['ArrowDown', 1],
  ['ArrowLeft', -1],
  ['ArrowUp', -1],
]);

/** The key `by` places after the chosen one, at most the last or first; the first where none is chosen. */
export const nextOf = (keys: readonly string[], isChosen: (key: string) => boolean, by: 1 | -1): string | undefined =>
  keys[Math.min(keys.length - 1, Math.max(0, keys.findIndex(isChosen) + by))];
