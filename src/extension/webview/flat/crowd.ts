/** Left, top, right, bottom. */
export type Rect = readonly [number, number, number, number];

/** Rectangles that keep clear of one another; looked up by the cells of a grid, so that thousands cost little. */
export class Crowd {
  private readonly cells = new Map<string, Taken[]>();

  constructor(private readonly cell: number) {}

  /** Takes a place if it is free, or in any case when told so; says whether it is taken now. What stands on its own ground is not in its way. */
  take(rect: Rect, always: boolean, owner?: string): boolean {
    const keys = this.keysOf(rect);
    const isInTheWay = (other: Taken): boolean =>
      (other.ground === undefined || other.ground !== owner) && overlap(rect, other.rect);
    const isFree = !keys.some((key) => this.cells.get(key)?.some(isInTheWay));
    if (!isFree && !always) return false;
    this.put(keys, { rect, ground: undefined });
    return true;
  }

  /** Ground on which only what belongs to it may stand. */
  own(rect: Rect, owner: string): void {
    this.put(this.keysOf(rect), { rect, ground: owner });
  }

  private put(keys: readonly string[], taken: Taken): void {
    for (const key of keys) {
      const there = this.cells.get(key);
      if (there) there.push(taken);
      else this.cells.set(key, [taken]);
    }
  }

  private keysOf([left, top, right, bottom]: Rect): string[] {
    const keys: string[] = [];
    const at = (value: number): number => Math.floor(value / this.cell);
    for (let i = at(left); i <= at(right); i++) for (let j = at(top); j <= at(bottom); j++) keys.push(`${i} ${j}`);
    return keys;
  }
}

interface Taken {
  readonly rect: Rect;
  /** Whose ground it is; undefined: no one may stand here. */
  readonly ground: string | undefined;
}

const overlap = (a: Rect, b: Rect): boolean => a[0] < b[2] && b[0] < a[2] && a[1] < b[3] && b[1] < a[3];
