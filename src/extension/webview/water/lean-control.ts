import type { Leaning } from '../../../language/protocol.js';
import { choice, html, plain, slider } from '../dom.js';

type Low = Leaning['side'] | 'none';

/** Sets the tub up off level, as far as its text allows: which side is low, and by how much. */
export class LeanControl {
  readonly element = html('div', { class: 'controls', hidden: true });
  private readonly by: HTMLElement;
  private readonly words = html('output', { class: 'angle' });
  private within = 0;
  private side: Low = 'none';
  private share = 1;

  constructor(private readonly changed: (leaning: Leaning | undefined) => void) {
    this.by = slider('Low by', 100, (value) => {
      this.share = value / 100;
      this.tell();
    });
    this.by.append(this.words);
    this.by.hidden = true;
    const sides = choice<Low>(
      'Stands',
      [
        ['none', 'level'],
        ['front', 'front low'],
        ['back', 'back low'],
        ['left', 'left low'],
        ['right', 'right low'],
      ],
      (side) => {
        this.side = side;
        this.by.hidden = side === 'none';
        this.tell();
      },
    );
    this.element.append(sides, this.by);
  }

  /** deg; 0: it is not to be tried. */
  offer(within: number): void {
    if (within === this.within) return;
    this.within = within;
    this.element.hidden = within === 0;
    if (this.side !== 'none') this.tell();
  }

  private tell(): void {
    const low_deg = this.within * this.share;
    this.words.textContent = `${plain(low_deg, 2)}°`;
    this.changed(this.side === 'none' || low_deg === 0 ? undefined : { side: this.side, low_deg });
  }
}
