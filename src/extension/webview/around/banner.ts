import type { ScenePatch } from '../../../language/protocol.js';
import { html } from '../dom.js';

/** Words over the picture on why it is not that of the whole text; dims a picture that is of an earlier one. */
export class Banner {
  readonly element = html('p', { class: 'banner', role: 'status' });

  constructor(private readonly stage: HTMLElement) {
    this.clear();
  }

  clear(): void {
    this.tell('', 'rest');
  }

  /** What cannot be read of the text, if anything. */
  tellSlip(slip: ScenePatch['slip']): void {
    if (!slip) this.clear();
    else if (slip.shows === 'rest') this.tell(`Line ${slip.line + 1} cannot be read; the rest is drawn.`, 'rest');
    else this.tell(`Line ${slip.line + 1} cannot be read. This is the tub before that.`, 'earlier');
  }

  tellEarlier(words: string): void {
    this.tell(words, 'earlier');
  }

  private tell(words: string, shows: 'earlier' | 'rest'): void {
    this.element.textContent = words;
    this.element.hidden = words === '';
    this.stage.classList.toggle('earlier', shows === 'earlier');
  }
}
