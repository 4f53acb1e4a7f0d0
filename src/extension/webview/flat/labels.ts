/** Text that keeps its size on the screen and hides where it has no room. */
export interface Label {
  readonly element: SVGTextElement;
  readonly x: number;
  readonly y: number;
  /** Degrees, clockwise. */
  readonly turn: number;
  /** Lines of text by which it stands below its point. */
  readonly lines: number;
  /** Length available along the text, in the drawing's units. */
  readonly room: number;
  /** Height available, in the drawing's units; undefined: enough. */
  readonly height?: number;
}

const LETTER = 6.4;
const LINE = 14;

export class Labels {
  private readonly byKey = new Map<string, readonly Label[]>();
  private kept = new Set<string>();
  /** Labels that are not placed for the current zoom. */
  private readonly unplaced = new Set<string>();
  private scale = 0;

  set(key: string, labels: readonly Label[]): void {
    this.byKey.set(key, labels);
    this.unplaced.add(key);
  }

  drop(key: string): void {
    this.byKey.delete(key);
    this.unplaced.delete(key);
  }

  /** These are shown whatever room they have. */
  keepShown(keys: readonly string[]): void {
    for (const key of [...this.kept, ...keys]) this.unplaced.add(key);
    this.kept = new Set(keys);
  }

  /** Places all labels that need it for a zoom of `scale` pixels per unit. */
  settle(scale: number): void {
    const keys = scale === this.scale ? this.unplaced : this.byKey.keys();
    for (const key of keys) for (const label of this.byKey.get(key) ?? []) this.place(label, scale, this.kept.has(key));
    this.unplaced.clear();
    this.scale = scale;
  }

  private place(label: Label, scale: number, always: boolean): void {
    const { element, x, y, turn, lines, room, height } = label;
    const width = (element.textContent?.length ?? 0) * LETTER;
    const shown = always || (room * scale > width && (height === undefined || height * scale > 3.4 * LINE));
    element.style.display = shown ? '' : 'none';
    if (!shown) return;
    const down = (lines * LINE) / scale;
    element.setAttribute('transform', `translate(${x} ${y}) rotate(${turn}) translate(0 ${down})`);
  }
}
