/** Left, top, right, bottom. */
export type Rect = readonly [number, number, number, number];

/** Rectangles that keep clear of one another; looked up by the cells of a grid, so that thousands cost little. */
export class Crowd {
  private readonly cells = new Map<string, Rect[]>();

  constructor(private readonly cell: number) {}

  /** Takes a place if it is free, or in any case when told so; says whether it is taken now. */
  take(rect: Rect, always: boolean): boolean {
    const keys = this.keysOf(rect);
    const isFree = !keys.some((key) => this.cells.get(key)?.some((other) => overlap(rect, other)));
    if (!isFree && !always) return false;
    for (const key of keys) {
      const there = this.cells.get(key);
      if (there) there.push(rect);
      else this.cells.set(key, [rect]);
    }
    return true;
  }

  private keysOf([left, top, right, bottom]: Rect): string[] {
    const keys: string[] = [];
    const at = (value: number): number => Math.floor(value / this.cell);
    for (let i = at(left); i <= at(right); i++) for (let j = at(top); j <= at(bottom); j++) keys.push(`${i} ${j}`);
    return keys;
  }
}

const overlap = (a: Rect, b: Rect): boolean => a[0] < b[2] && b[0] < a[2] && a[1] < b[3] && b[1] < a[3];
