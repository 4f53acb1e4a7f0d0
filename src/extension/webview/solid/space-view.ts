import type { SceneItem } from '../../../language/protocol.js';
import type { LegendEntry } from '../around/legend.js';
import type { Place } from '../around/marks.js';
import type { Rect } from '../flat/crowd.js';
import type { SceneChanges } from '../store.js';
import { rowsOf, type PreviewView, type TextTable, type ViewEvents } from '../view.js';
import { Space, type SpaceOptions } from './space.js';

/** What the views in space have in common: where they are seen from, what is chosen, the picture that they leave. */
export abstract class SpaceView implements PreviewView {
  readonly hint = 'Drag, wheel; keys: arrows turn, + − 0, N and P step, Enter: text';
  readonly picture: HTMLElement;
  abstract readonly controls: HTMLElement;
  protected readonly space: Space;
  protected items: ReadonlyMap<string, SceneItem> = new Map();
  protected chosen: readonly string[] = [];

  constructor(
    protected readonly events: ViewEvents,
    look: SpaceOptions,
    private readonly caption: string,
  ) {
    this.space = new Space(events, look);
    this.picture = this.space.element;
  }

  abstract legend(): readonly LegendEntry[];

  /** All of it, after an edit. */
  protected abstract draw(): void;

  /** What looks otherwise when it is chosen. */
  protected abstract drawChosen(): void;

  update({ items }: SceneChanges): void {
    this.items = items;
    this.draw();
  }

  select(keys: readonly string[]): void {
    this.chosen = keys;
    this.space.select(keys);
    this.drawChosen();
  }

  fit(): void {
    this.space.viewpoint.fit();
  }

  refresh(): void {
    this.space.refresh();
  }

  shown(): void {
    this.space.refresh();
  }

  placeOf(key: string): Place | undefined {
    return this.space.placeOfPiece(key);
  }

  keepClear(boxes: readonly Rect[]): void {
    this.space.keepClear(boxes);
  }

  scale(): number | undefined {
    return this.space.viewpoint.scale();
  }

  toSvg(): SVGSVGElement {
    return this.space.toSvg();
  }

  table(): TextTable {
    return { caption: this.caption, columns: ['What', 'Facts'], rows: rowsOf(this.items) };
  }

  keep(): unknown {
    return this.space.viewpoint.keep();
  }

  restore(kept: unknown): void {
    this.space.viewpoint.restore(kept);
  }
}
