import { button, html } from '../dom.js';
import type { TextTable } from '../view.js';

/** The facts of a view as text, for those who do not see the picture; each row leads to what it tells of. */
export class FactsTable {
  readonly element = html('section', { class: 'table', 'aria-label': 'The same as text' });

  constructor(private readonly picked: (key: string, focus: 'text' | 'preview') => void) {}

  get isShown(): boolean {
    return !this.element.hidden;
  }

  show(isShown: boolean): void {
    this.element.hidden = !isShown;
  }

  draw({ caption, columns, rows }: TextTable, chosen: readonly string[]): void {
    const head = html('tr', {}, ...columns.map((column) => html('th', { scope: 'col' }, column)));
    const body = rows.map(({ key, cells }) => {
      const [first, ...rest] = cells;
      const row = html('tr', { 'data-key': key });
      const go = button(first, 'Select; Enter again goes to the text', () =>
        this.picked(key, row.classList.contains('chosen') ? 'text' : 'preview'),
      );
      row.append(html('th', { scope: 'row' }, go), ...rest.map((cell) => html('td', {}, cell)));
      return row;
    });
    this.element.replaceChildren(
      html('table', {}, html('caption', {}, caption), html('thead', {}, head), html('tbody', {}, ...body)),
    );
    this.choose(chosen);
  }

  choose(keys: readonly string[]): void {
    for (const row of this.element.querySelectorAll<HTMLElement>('tr[data-key]'))
      row.classList.toggle('chosen', keys.includes(row.dataset.key ?? ''));
  }
}
