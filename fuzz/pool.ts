import type { Dice } from './dice.js';

/** Texts that are changed further. One that gives two findings together that no other gave is taken in. */
export class Pool {
  private readonly seen = new Set<string>();
  private readonly found: string[] = [];

  constructor(
    private readonly seeds: readonly string[],
    private readonly most: number,
  ) {}

  get all(): readonly string[] {
    return this.found.length === 0 ? this.seeds : [...this.seeds, ...this.found];
  }

  get marks(): number {
    return this.seen.size;
  }

  draw(dice: Dice): string {
    return this.found.length > 0 && dice.onceIn(3) ? dice.of(this.found) : dice.of(this.seeds);
  }

  learn(text: string, marks: readonly string[], dice: Dice): void {
    let isNew = false;
    marks.forEach((a, i) => {
      for (const b of marks.slice(i)) {
        if (this.seen.has(`${a} ${b}`)) continue;
        this.seen.add(`${a} ${b}`);
        isNew = true;
      }
    });
    if (!isNew) return;
    if (this.found.length < this.most) this.found.push(text);
    else this.found[dice.below(this.most)] = text;
  }
}
