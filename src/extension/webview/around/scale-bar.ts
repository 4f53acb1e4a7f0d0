import { html } from '../dom.js';
import { lengthText, roundLength } from '../units.js';

/** px. A bar is at most so long. */
const LONGEST = 120;

/** A length that is drawn as long as it is in the picture; hidden where the picture has no one scale. */
export class ScaleBar {
  readonly element = html('div', { class: 'scale-bar' });
  private readonly bar = html('span', { class: 'bar-line' });
  private readonly words = html('span');

  constructor() {
    this.element.append(this.words, this.bar);
  }

  /** Pixels per mm. */
  set(scale: number | undefined): void {
    this.element.hidden = scale === undefined;
    if (scale === undefined) return;
    const { length, pixels } = barFor(scale);
    this.bar.style.width = `${pixels.toFixed(1)}px`;
    this.words.textContent = lengthText(length);
  }
}

export const barFor = (scale: number): { readonly length: number; readonly pixels: number } => {
  const length = roundLength(LONGEST / scale);
  return { length, pixels: length * scale };
};
