import type { NestPieceItem, NestSheetItem, NestStateItem, SceneItem } from '../../../language/protocol.js';
import { button, html, svg, toggle } from '../dom.js';
import { DrawingView } from '../flat/drawing-view.js';
import { Labels } from '../flat/labels.js';
import type { SceneChanges } from '../store.js';
import { rowsOf, type PreviewView, type TextTable, type ViewEvents } from '../view.js';
import { pieceDrawing, sheetDrawing } from './nest-drawings.js';

/** mm between two sheets. */
const GAP = 160;

type Layout = NestSheetItem['layout'];

/** The sheets with the pieces that are cut from them, one above the other, and how the work on them comes along. */
export class NestView extends DrawingView implements PreviewView {
  readonly controls: HTMLElement;
  private readonly bar = html('progress', { max: 1, value: 0, 'aria-label': 'Work on the nest' });
  private readonly words = html('span', { class: 'side', role: 'status' });
  private readonly stop: HTMLButtonElement;
  private readonly goOn: HTMLButtonElement;
  private items: ReadonlyMap<string, SceneItem> = new Map();
  private layout: Layout = 'now';

  constructor(events: ViewEvents) {
    super(events, 'flat nest picture', 'Sheets to cut from');
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
  }

  update({ items }: SceneChanges): void {
    this.items = items;
    this.draw();
  }

  table(): TextTable {
    const now = [...this.items].filter(([, item]) => !('layout' in item) || item.layout === this.layout);
    return { caption: 'Sheets to cut from, marked side up', columns: ['What', 'Facts'], rows: rowsOf(now) };
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
    this.sheet.replaceChildren(...drawn);
    this.box = [0, 0, right, Math.max(10, top - GAP / 2)];
    this.select(this.chosen);
    this.see();
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
