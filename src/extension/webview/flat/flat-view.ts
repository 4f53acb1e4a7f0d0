import type { FlatBendItem, FlatPanelItem, FlatPartItem, SceneItem } from '../../../language/protocol.js';
import { html, svg, toggle } from '../dom.js';
import type { LegendEntry } from '../around/legend.js';
import { readPalette } from '../palette.js';
import type { SceneChanges } from '../store.js';
import { rowsOf, type PreviewView, type TextTable, type ViewEvents } from '../view.js';
import { bendDrawing, panelDrawing, partDrawing, type FlatDrawing } from './flat-drawings.js';
import { DrawingView } from './drawing-view.js';
import { partsOf, type Label } from './labels.js';
import { bendTurned, panelTurned, partTurned } from './turned-over.js';
import { layOutRows, type Spot } from './shelves.js';
import { cornerSizes, panelSizes } from './sizes.js';

interface PartGroup {
  readonly root: SVGGElement;
  readonly panels: SVGGElement;
  readonly cuts: SVGGElement;
  readonly bends: SVGGElement;
  readonly sizes: SVGGElement;
  readonly labels: SVGGElement;
}

/** Flat patterns side by side, the marked side up: cut lines, bend lines with direction and angle, pen marks. */
export class FlatView extends DrawingView implements PreviewView {
  readonly controls: HTMLElement;
  private readonly groups = new Map<string, PartGroup>();
  private items: ReadonlyMap<string, SceneItem> = new Map();
  private withSizes = true;
  /** Seen from the side that is not marked. */
  private isOver = false;
  /** Which side is seen. */
  private readonly side = html('span', { class: 'side' });
  /** Parts that show sizes. */
  private readonly sized = new Set<string>();
  private readonly shifts = new Map<string, readonly [number, number]>();

  constructor(events: ViewEvents) {
    super(events, 'flat picture', 'Flat patterns');
    const sizes = toggle(
      'Sizes',
      'Show lengths from the ringed corner',
      (isOn) => {
        this.withSizes = isOn;
        this.drawSizes();
      },
      this.withSizes,
    );
    const over = toggle('Turn Over', 'Show the flats from their other side', (isOn) => {
      this.isOver = isOn;
      this.update({ items: this.items, changed: new Set(this.items.keys()), removed: new Set() });
    });
    this.controls = html('div', { class: 'controls' }, sizes, over, this.side);
  }

  update({ items, changed }: SceneChanges): void {
    this.items = items;
    for (const key of [...this.groups.keys(), ...this.elements.keys()]) if (!items.has(key)) this.drop(key);
    // Parts first: panels and bends hang in their part's group.
    const keys = [...changed].sort(
      (a, b) => Number(items.get(b)?.kind === 'flat-part') - Number(items.get(a)?.kind === 'flat-part'),
    );
    for (const key of keys) {
      const item = items.get(key);
      if (item) this.draw(key, item);
    }
    this.arrange();
    this.side.textContent = this.sideWords();
    this.select(this.chosen);
    this.see();
  }

  /** The side that is seen of all parts, where it is the same of all. */
  private sideWords(): string {
    const sides = new Set([...this.items.values()].flatMap((item) => (item.kind === 'flat-part' ? [item.side] : [])));
    if (sides.size === 0) return '';
    if (sides.size > 1) return this.isOver ? 'Seen from the other side' : 'Seen from the marked side';
    return `Seen from the ${sides.has('dry') !== this.isOver ? 'dry' : 'wet'} side`;
  }

  override select(keys: readonly string[]): void {
    super.select(keys.filter((key) => this.items.has(key)));
    this.drawSizes();
  }

  legend(): readonly LegendEntry[] {
    const { ink, bendUp, bendDown, mark } = readPalette();
    const kinds = [...this.items.values()];
    const line = (words: string, color: string, dash?: string): LegendEntry => ({ words, color, mark: 'line', dash });
    const bends = (direction: string): boolean =>
      kinds.some((item) => item.kind === 'flat-bend' && (item.direction === direction) !== this.isOver);
    const cuts = (isCut: boolean): boolean => kinds.some((item) => item.kind === 'flat-part' && item.isCut === isCut);
    return [
      ...(cuts(false) ? [line('cut', ink)] : []),
      ...(cuts(true) ? [line('cut already', ink, '2 3')] : []),
      ...(bends('up') ? [line('▲ bend up', bendUp, '10 3')] : []),
      ...(bends('down') ? [line('▽ bend down', bendDown, '6 2 1.5 2')] : []),
      ...(kinds.some((item) => item.kind === 'flat-part' && item.marks.length > 0)
        ? [line('pen mark', mark, '1.5 3')]
        : []),
      ...(kinds.some((item) => item.kind === 'flat-part' && item.nicks.length > 0)
        ? [line('nick of a line underneath', readPalette().cut)]
        : []),
      ...(this.withSizes && this.groups.size > 0
        ? [{ words: 'lengths from here', color: ink, mark: 'ring' } as const]
        : []),
    ];
  }

  table(): TextTable {
    return { caption: 'Flat patterns, marked side up', columns: ['What', 'Facts'], rows: rowsOf(this.items) };
  }

  private draw(key: string, item: SceneItem): void {
    if (item.kind === 'flat-part') this.drawPart(key, item);
    else if (item.kind === 'flat-panel') this.drawPanel(key, item);
    else if (item.kind === 'flat-bend') this.drawBend(key, item);
  }

  private drawPart(key: string, marked: FlatPartItem): void {
    const part = this.isOver ? partTurned(marked) : marked;
    const group = this.groups.get(key) ?? this.newGroup(key);
    const { drawn, labels } = partDrawing(part);
    group.root.classList.toggle('cut-already', part.isCut);
    group.cuts.replaceChildren(...drawn);
    this.label(key, key, [group.cuts], labels);
  }

  private newGroup(key: string): PartGroup {
    const [panels, cuts, bends, sizes, labels] = [0, 1, 2, 3, 4].map(() => svg('g'));
    cuts.dataset.key = key;
    const root = svg('g', { class: 'part' }, panels, cuts, bends, sizes, labels);
    this.sheet.append(root);
    const group = { root, panels, cuts, bends, sizes, labels };
    this.groups.set(key, group);
    return group;
  }

  private drawPanel(key: string, panel: FlatPanelItem): void {
    const part = this.partOf(panel);
    if (!part) return;
    const [seen, of] = this.isOver ? [panelTurned(panel, part), partTurned(part)] : [panel, part];
    this.hang(key, panel.part, 'panels', panelDrawing(seen, of));
  }

  private drawBend(key: string, bend: FlatBendItem): void {
    const part = this.partOf(bend);
    if (part) this.hang(key, bend.part, 'bends', bendDrawing(this.isOver ? bendTurned(bend, part) : bend, part.box));
  }

  private partOf({ part }: FlatPanelItem | FlatBendItem): FlatPartItem | undefined {
    const item = this.items.get(part);
    return item?.kind === 'flat-part' ? item : undefined;
  }

  /** Into the group of its part; a part that is not drawn has none. */
  private hang(key: string, part: string, into: 'panels' | 'bends', { drawn, labels }: FlatDrawing): void {
    const group = this.groups.get(part);
    if (!group) return;
    this.drop(key);
    for (const element of drawn) element.dataset.key = key;
    group[into].append(...drawn);
    this.label(key, part, drawn, labels);
  }

  private label(key: string, part: string, drawn: readonly SVGElement[], labels: readonly Label[]): void {
    this.labels.set(key, labels, this.shiftOf(part), part);
    const into = this.groups.get(part)?.labels;
    const words = labels.flatMap(partsOf);
    if (into) this.remember(key, drawn, into, words);
  }

  /** Where a part has been laid, asked for when it is needed. */
  private shiftOf(part: string): () => readonly [number, number] {
    return () => this.shifts.get(part) ?? [0, 0];
  }

  private remember(key: string, drawn: readonly SVGElement[], into: SVGGElement, labels: readonly SVGElement[]): void {
    const before = this.elements.get(key) ?? [];
    for (const element of before) if (!drawn.includes(element)) element.remove();
    into.append(...labels);
    this.elements.set(key, [...drawn, ...labels]);
  }

  private drop(key: string): void {
    const group = this.groups.get(key);
    if (group) {
      group.root.remove();
      this.groups.delete(key);
    }
    for (const element of this.elements.get(key) ?? []) element.remove();
    this.elements.delete(key);
    this.labels.drop(key);
  }

  /** Lays the parts out in rows; a part whose place stays is not touched. */
  private arrange(): void {
    const parts = [...this.items].filter((entry): entry is [string, FlatPartItem] => entry[1].kind === 'flat-part');
    parts.sort((a, b) => a[1].order - b[1].order);
    const boxes = parts.map(([key, { box }]) => ({ key, width: box[2] - box[0], height: box[3] - box[1] }));
    const largest = boxes.reduce((most, { width, height }) => Math.max(most, width, height), 0);
    const gap = Math.max(15, largest * 0.24);
    const spots = layOutRows(boxes, this.proportion(), gap);
    let [left, top, right, bottom] = [0, 0, 10, 10];
    const grounds = new Map<string, readonly [number, number, number, number]>();
    for (const [key, { box }] of parts) {
      const spot = spots.get(key) as Spot;
      const [dx, dy] = [spot.x - box[0], -(spot.y - box[1])];
      const transform = `translate(${dx} ${dy})`;
      this.shifts.set(key, [dx, dy]);
      grounds.set(key, [spot.x, -spot.y - (box[3] - box[1]), spot.x + box[2] - box[0], -spot.y]);
      const group = this.groups.get(key);
      if (group && group.root.getAttribute('transform') !== transform) group.root.setAttribute('transform', transform);
      left = Math.min(left, spot.x);
      right = Math.max(right, spot.x + box[2] - box[0]);
      top = Math.min(top, -spot.y - (box[3] - box[1]));
      bottom = Math.max(bottom, -spot.y + gap * 0.75);
    }
    const room = this.withSizes ? gap * 0.8 : 0;
    this.box = [left - (this.isOver ? 0 : room), top - room, right + (this.isOver ? room : gap * 0.3), bottom];
    this.labels.ground(grounds);
  }

  private proportion(): number {
    const { clientWidth, clientHeight } = this.picture;
    return clientWidth > 0 && clientHeight > 0 ? clientWidth / clientHeight : 1.4;
  }

  private drawSizes(): void {
    for (const key of this.sized) {
      this.groups.get(key)?.sizes.replaceChildren();
      this.labels.drop(`sizes:${key}`);
    }
    this.sized.clear();
    const told = new Map<string, Label[]>();
    const draw = (key: string, { drawn, labels }: FlatDrawing): void => {
      this.groups.get(key)?.sizes.append(...drawn, ...labels.flatMap(partsOf));
      this.sized.add(key);
      told.set(key, [...(told.get(key) ?? []), ...labels]);
    };
    if (this.withSizes) {
      for (const key of this.groups.keys()) {
        const part = this.items.get(key);
        if (part?.kind === 'flat-part') draw(key, cornerSizes(this.isOver ? partTurned(part) : part));
      }
    }
    for (const key of this.chosen) {
      const panel = this.items.get(key);
      if (panel?.kind !== 'flat-panel') continue;
      const part = this.partOf(panel);
      draw(panel.part, panelSizes((this.isOver && part ? panelTurned(panel, part) : panel).region));
    }
    for (const [key, labels] of told) this.labels.set(`sizes:${key}`, labels, this.shiftOf(key), key);
    this.labels.settle(this.window.current.scale);
  }
}
