import { html } from '../dom.js';
import { icon, type Icon } from './icons.js';

/** An icon with its name beside it; the name goes first when there is no room, and stays what it is called. */
export const named = <T extends HTMLElement>(element: T, sign: Icon, label: string): T => {
  element.append(icon(sign), html('span', { class: 'label' }, label));
  element.setAttribute('aria-label', label);
  return element;
};

/** What gives way, one after the other: names of buttons, names of views, controls into a tray, that of the view on show. */
const FOLDS = 5;

/** One row whatever the width: measures itself, and folds until it fits. */
export class Toolbar {
  readonly element = html('header');
  private readonly bar: HTMLElement;
  private readonly more: HTMLButtonElement;

  constructor(
    tabs: HTMLElement,
    private readonly controls: HTMLElement,
    common: HTMLElement,
  ) {
    this.more = named(
      html('button', {
        type: 'button',
        class: 'more',
        title: 'Show the controls of this view',
        'aria-expanded': 'false',
      }),
      'controls',
      'Controls',
    );
    this.more.addEventListener('click', () => this.openTray(this.element.dataset.tray !== 'open'));
    common.prepend(this.more);
    this.bar = html('div', { class: 'bar' }, tabs, controls, common);
    this.element.append(this.bar);
    // What a view tells among its controls grows and shrinks while it is on show.
    const observer = new ResizeObserver(() => this.fold());
    for (const each of [this.element, controls]) observer.observe(each);
    this.element.addEventListener('keydown', (event) => {
      if (event.key === 'Escape') this.openTray(false);
    });
  }

  /** The controls of another view. */
  show(controls: HTMLElement, extra: readonly HTMLElement[]): void {
    this.controls.replaceChildren(...extra, controls);
    this.fold();
  }

  fold(): void {
    const { dataset } = this.element;
    for (let fold = 0; fold < FOLDS; fold++) {
      dataset.fold = String(fold);
      if (this.bar.scrollWidth <= this.bar.clientWidth) return;
    }
  }

  private openTray(isOpen: boolean): void {
    this.element.dataset.tray = isOpen ? 'open' : 'shut';
    this.more.setAttribute('aria-expanded', String(isOpen));
  }
}
