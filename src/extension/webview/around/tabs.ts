import type { View } from '../../../language/protocol.js';
import { html } from '../dom.js';
import { named } from './toolbar.js';

export const TITLES: Readonly<Record<View, string>> = {
  flat: 'Flat',
  folded: 'Folded',
  water: 'Water',
  hours: 'Hours',
  bends: 'Bends',
  nest: 'Nest',
  choices: 'Choices',
  made: 'As Made',
};
const ORDER = Object.keys(TITLES) as View[];

export const idOfTab = (view: View): string => `tab-${view}`;

/** The views to choose from; arrow keys go from one to the next. */
export class Tabs {
  readonly element = html('div', { class: 'tabs', role: 'tablist', 'aria-label': 'View' });
  private readonly tabs = new Map<View, HTMLButtonElement>();
  private view: View = 'flat';

  constructor(private readonly chosen: (view: View) => void) {
    for (const view of ORDER) {
      const tab = html('button', {
        type: 'button',
        role: 'tab',
        id: idOfTab(view),
        'aria-controls': 'stage',
        title: TITLES[view],
      });
      tab.addEventListener('click', () => chosen(view));
      this.tabs.set(view, named(tab, view, TITLES[view]));
      this.element.append(tab);
    }
    this.element.addEventListener('keydown', (event) => this.onKey(event));
  }

  show(view: View): void {
    this.view = view;
    for (const [key, tab] of this.tabs) {
      tab.setAttribute('aria-selected', String(key === view));
      tab.tabIndex = key === view ? 0 : -1;
    }
  }

  private onKey(event: KeyboardEvent): void {
    const by = { ArrowRight: 1, ArrowLeft: -1 }[event.key];
    if (by === undefined) return;
    const next = ORDER[(ORDER.indexOf(this.view) + by + ORDER.length) % ORDER.length];
    this.chosen(next);
    this.tabs.get(next)?.focus();
  }
}
