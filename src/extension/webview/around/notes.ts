import type { SceneItem } from '../../../language/protocol.js';
import { button, html } from '../dom.js';

/** What no analysis can tell of a view, each with the way to its place in the text. */
export class Notes {
  readonly element = html('ul', { class: 'notes', 'aria-label': 'What is not known' });

  constructor(private readonly picked: (key: string) => void) {}

  draw(items: ReadonlyMap<string, SceneItem>): void {
    const notes = [...items].flatMap(([key, item]) => (item.kind === 'note' ? [{ key, text: item.text }] : []));
    this.element.replaceChildren(
      ...notes.map(({ key, text }) =>
        html(
          'li',
          {},
          button(text, 'Go to the text', () => this.picked(key)),
        ),
      ),
    );
    this.element.hidden = notes.length === 0;
  }
}
