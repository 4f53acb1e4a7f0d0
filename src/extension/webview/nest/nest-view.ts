import type { NestPieceItem, NestSheetItem, NestStateItem, SceneItem } from '../../../language/protocol.js';
import { button, html, svg, toggle } from '../dom.js';
import { listenTo } from '../flat/drawing-input.js';
import { Labels } from '../flat/labels.js';
import { PanZoom, type Window2 } from '../flat/pan-zoom.js';
import { drawingOf } from '../picture.js';
import type { SceneChanges } from '../store.js';
import { rowsOf, type PreviewView, type TextTable, type ViewEvents } from '../view.js';
import { pieceDrawing, sheetDrawing } from './nest-drawings.js';

/** mm between two sheets. */
const GAP = 160;

type Layout = NestSheetItem['layout'];

/** The sheets with the pieces that are cut from them, one above the other, and how the work on them comes along. */
export class NestView implements PreviewView {
  readonly hint = 'Drag, wheel; keys: arrows, + − 0, N and P step, Enter: text';
  readonly picture: SVGSVGElement;
  readonly controls: HTMLElement;
  private readonly sheets = svg('g');
  private readonly window: PanZoom;
  private labels = new Labels();
  private readonly elements = new Map<string, SVGElement[]>();
  private readonly bar = html('progress', { max: 1, value: 0, 'aria-label': 'Work on the nest' });
  private readonly words = html('span', { class: 'side', role: 'status' });
  private readonly stop: HTMLButtonElement;
  private readonly goOn: HTMLButtonElement;
  private items: ReadonlyMap<string, SceneItem> = new Map();
  private chosen: readonly string[] = [];
  private layout: Layout = 'now';
  private fitted = false;
  private box: readonly [number, number, number, number] = [0, 0, 100, 100];

  constructor(events: ViewEvents) {
    this.picture = svg(
      'svg',
      {
        class: 'flat nest picture',
        tabindex: 0,
        role: 'application',
        'aria-roledescription': 'drawing',
        'aria-label': 'Sheets to cut from',
      },
      this.sheets,
    );
    this.window = new PanZoom(this.picture, (scale) => {
      this.labels.settle(scale);
      events.moved();
    });
    this.stop = button('Stop', 'Keep the best so far', () => events.worked('stop'));
    this.goOn = button('Go On', 'Move pieces for up to a minute more than the files of an export take', () =>
      events.worked('go on'),
    );
    const first = toggle('As First Laid', 'Show the pieces before any was moved', (isOn) => {
      this.layout = isOn ? 'first' : 'now';
      this.draw();
    });
    const pin = button('Pin', 'Write the place of the selected piece, or of all, into the text: it stays there', () =>
      events.pinned('pin', this.chosenPieces()),
    );
    const unpin = button('Unpin', 'Take the pin of the selected piece, or all pins, out of the text', () =>
      events.pinned('unpin', this.chosenPieces()),
    );
    this.controls = html('div', { class: 'controls' }, first, this.stop, this.goOn, pin, unpin, this.bar, this.words);
    listenTo(this.picture, this.window, events, () => this.fit());
  }

  update({ items }: SceneChanges): void {
    this.items = items;
    this.draw();
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

  table(): TextTable {
    const now = [...this.items].filter(([, item]) => !('layout' in item) || item.layout === this.layout);
    return { caption: 'Sheets to cut from, dry side up', columns: ['What', 'Facts'], rows: rowsOf(now) };
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

  private draw(): void {
    this.tellState([...this.items.values()].find((item): item is NestStateItem => item.kind === 'nest-state'));
    this.elements.clear();
    this.labels = new Labels();
    const sheets = [...this.items].filter(
      (entry): entry is [string, NestSheetItem] => entry[1].kind === 'nest-sheet' && entry[1].layout === this.layout,
    );
    const pieces = [...this.items].filter(
      (entry): entry is [string, NestPieceItem] => entry[1].kind === 'nest-piece' && entry[1].layout === this.layout,
    );
    sheets.sort((a, b) => a[1].number - b[1].number);
    let [top, right] = [0, 10];
    const drawn = sheets.map(([key, sheet]) => {
      const [length, width] = sheet.size;
      const down = top + width;
      const root = svg('g', { transform: `translate(0 ${down})` });
      this.add(key, root, sheetDrawing(sheet), down);
      for (const [pieceKey, piece] of pieces)
        if (piece.sheet === key) this.add(pieceKey, root, pieceDrawing(piece), down);
      top = down + GAP;
      right = Math.max(right, length);
      return root;
    });
    this.sheets.replaceChildren(...drawn);
    this.box = [0, 0, right, Math.max(10, top - GAP / 2)];
    this.select(this.chosen);
    if (!this.fitted && sheets.length > 0 && this.picture.clientWidth > 0) this.fit();
    else this.window.see(this.box);
    this.labels.settle(this.window.current.scale);
  }

  private chosenPieces(): readonly string[] {
    return this.chosen.filter((key) => this.items.get(key)?.kind === 'nest-piece');
  }

  private add(key: string, root: SVGGElement, of: ReturnType<typeof pieceDrawing>, down: number): void {
    const words = of.labels.map(({ element }) => element);
    for (const element of of.drawn) element.dataset.key = key;
    root.append(...of.drawn, ...words);
    this.elements.set(key, [...of.drawn, ...words]);
    this.labels.set(key, of.labels, () => [0, down]);
  }

  private tellState(item: NestStateItem | undefined): void {
    const isAtWork = item === undefined || item.state === 'laying' || item.state === 'moving';
    this.stop.disabled = item?.state !== 'laying' && item?.state !== 'moving';
    this.goOn.disabled = item?.state !== 'stopped' && item?.state !== 'done';
    this.bar.hidden = !isAtWork;
    if (item && item.state !== 'laying') this.bar.value = item.done;
    else this.bar.removeAttribute('value');
    this.words.textContent = item ? `${item.text}: ${item.saving}` : '';
  }
}
