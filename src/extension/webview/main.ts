import type { PictureFormat, SceneItem, View } from '../../language/protocol.js';
import { BendsView } from './bends/bends-view.js';
import { ChoicesView } from './choices/choices-view.js';
import { button, html } from './dom.js';
import { FlatView } from './flat/flat-view.js';
import { editor, onMessage, type KeptState } from './host.js';
import { NestView } from './nest/nest-view.js';
import { onThemeChange, readPalette, setInks } from './palette.js';
import { framed } from './framed.js';
import { Legend } from './legend.js';
import { Marks, type Place } from './marks.js';
import { pngOfSvg, svgText, toBase64 } from './picture.js';
import { ScaleBar } from './scale-bar.js';
import { named, Toolbar } from './toolbar.js';
import { setUnits } from './units.js';
import { HoursView } from './hours/hours-view.js';
import { FoldedView } from './solid/folded-view.js';
import { WaterView } from './solid/water-view.js';
import { SceneStore, type SceneChanges } from './store.js';
import type { PreviewView, ViewEvents } from './view.js';

const TITLES: Readonly<Record<View, string>> = {
  flat: 'Flat',
  folded: 'Folded',
  water: 'Water',
  hours: 'Hours',
  bends: 'Bends',
  nest: 'Nest',
  choices: 'Choices',
};
const ORDER = Object.keys(TITLES) as View[];

/** The whole preview: tabs, the view on show, notes, text table and status line. */
class Preview {
  private readonly store = new SceneStore();
  private readonly views = new Map<View, PreviewView>();
  private readonly tabs = new Map<View, HTMLButtonElement>();
  private readonly stage = html('div', { id: 'stage', role: 'tabpanel' });
  private readonly legend = new Legend();
  private readonly scaleBar = new ScaleBar();
  private readonly marks = new Marks(
    (key) => this.placeOn(key),
    (index, act) => editor.postMessage({ type: 'finding', index, act }),
    (key) => this.select([key]),
    (places) => this.keepClear(places),
  );
  private readonly toolbar: Toolbar;
  /** Of the tub on show. */
  private name = '';
  private readonly banner = html('p', { class: 'banner', role: 'status' });
  private readonly notes = html('ul', { class: 'notes', 'aria-label': 'What is not known' });
  private readonly status = html('p', { class: 'status', role: 'status' });
  private readonly table = html('section', { class: 'table', 'aria-label': 'The same as text' });
  private readonly tableButton = named(
    button('', 'Show the same facts as text', () => this.showTable(!this.kept.table), false),
    'table',
    'Text',
  );
  private readonly variants = html('select', { 'aria-label': 'Variant', hidden: true });
  private view: View;
  private chosen: readonly string[] = [];
  private kept: KeptState;
  /** Views whose drawing is behind the store, because they were not on show. */
  private readonly behind = new Set<View>();

  constructor() {
    const first = document.body.dataset as { readonly uri?: string; readonly view?: View };
    this.kept = {
      uri: first.uri ?? '',
      cameras: {},
      table: false,
      ...editor.getState(),
      view: editor.getState()?.view ?? first.view ?? 'flat',
    };
    this.view = this.kept.view;
    this.toolbar = this.newToolbar();
    const { element } = this.toolbar;
    const heading = html('h1', { class: 'unseen' }, 'Preview of the tub');
    document.body.append(
      element,
      html('main', {}, heading, this.banner, this.notes, this.stage, this.table, this.status),
    );
    new ResizeObserver(() => this.settle()).observe(this.stage);
    this.legend.element.addEventListener('toggle', () => this.settle());
    this.showTable(this.kept.table);
    this.warn('', 'rest');
    setInks();
    onThemeChange(() => this.refreshAll());
    this.variants.addEventListener('change', () => {
      this.keep({ variant: this.variants.value || undefined });
      this.want();
    });
    this.stage.addEventListener('keydown', (event) => this.onKey(event));
    this.show(this.view);
  }

  receive(): void {
    onMessage((message) => {
      if (message.type === 'scene') this.take(message.patch);
      else if (message.type === 'select') this.select(message.keys);
      else if (message.type === 'show') this.show(message.view);
      else if (message.type === 'savePicture') void this.sendPicture(message.format);
      else if (message.type === 'moved') this.keep({ uri: message.uri });
      else if (message.type === 'findings') this.mark(message.view, message.findings);
      else this.warn(message.reason, 'earlier');
    });
  }

  private newToolbar(): Toolbar {
    const tabs = html('div', { class: 'tabs', role: 'tablist', 'aria-label': 'View' });
    for (const view of ORDER) {
      const tab = named(
        html('button', {
          type: 'button',
          role: 'tab',
          id: `tab-${view}`,
          'aria-controls': 'stage',
          title: TITLES[view],
        }),
        view,
        TITLES[view],
      );
      tab.addEventListener('click', () => this.show(view));
      this.tabs.set(view, tab);
      tabs.append(tab);
    }
    tabs.addEventListener('keydown', (event) => this.onTabKey(event));
    const common = html(
      'div',
      { class: 'common' },
      named(
        button('', 'Show all of it', () => this.current().fit()),
        'fit',
        'Fit',
      ),
      this.tableButton,
      named(
        button('', 'Save this picture as a drawing', () => void this.sendPicture('svg')),
        'drawing',
        'Save SVG',
      ),
      named(
        button('', 'Save this picture as an image', () => void this.sendPicture('png')),
        'image',
        'Save PNG',
      ),
    );
    return new Toolbar(tabs, html('div', { class: 'view-controls' }), common);
  }

  private show(view: View): void {
    this.view = view;
    this.keep({ view });
    for (const [key, tab] of this.tabs) {
      tab.setAttribute('aria-selected', String(key === view));
      tab.tabIndex = key === view ? 0 : -1;
    }
    const shown = this.current();
    this.marks.set([]);
    this.stage.replaceChildren(
      shown.picture,
      this.marks.layer,
      this.legend.element,
      this.scaleBar.element,
      this.marks.callout,
    );
    this.stage.setAttribute('aria-labelledby', `tab-${view}`);
    this.toolbar.show(shown.controls, [this.variants]);
    if (this.behind.has(view)) this.draw(this.wholeOf(view));
    else this.warnOfSlip();
    shown.shown();
    shown.select(this.chosen);
    this.drawNotes();
    this.drawTable();
    this.settle();
    this.status.textContent = this.store.serialOf(view) === 0 ? 'Working it out …' : shown.hint;
    this.want();
  }

  /** What lies over the picture follows it. */
  private settle(): void {
    const shown = this.views.get(this.view);
    if (!shown) return;
    this.marks.settle();
    this.legend.set(shown.legend?.() ?? []);
    this.scaleBar.set(shown.scale?.());
  }

  /** The views write nothing over the marks, nor under what lies over the picture. */
  private keepClear(places: readonly Place[]): void {
    const whole = this.stage.getBoundingClientRect();
    const over = [this.legend.element, this.scaleBar.element].filter(({ hidden }) => !hidden);
    this.current().keepClear?.([
      ...places.map(([x, y]) => [x - 11, y - 11, x + 11, y + 11] as const),
      ...over.map((element) => {
        const { left, top, right, bottom } = element.getBoundingClientRect();
        return [left - whole.left, top - whole.top, right - whole.left, bottom - whole.top] as const;
      }),
    ]);
  }

  private mark(view: View, findings: Parameters<Marks['set']>[0]): void {
    if (view === this.view) this.marks.set(findings);
  }

  /** Of an item on the stage; undefined where it lies outside. */
  private placeOn(key: string): Place | undefined {
    const place = this.current().placeOf?.(key);
    const { clientWidth, clientHeight } = this.stage;
    const isOutside = place && (place[0] < 0 || place[1] < 0 || place[0] > clientWidth || place[1] > clientHeight);
    return isOutside ? undefined : place;
  }

  private want(): void {
    const { view } = this;
    editor.postMessage({ type: 'want', view, have: this.store.serialOf(view), variant: this.kept.variant });
  }

  /** The variants of the text to pick from; nothing where there are none. One that a slip takes away comes back with it. */
  private offerVariants(variants: readonly string[], shown: string | undefined): void {
    const known = [...this.variants.options].slice(1).map(({ value }) => value);
    if (known.join('\0') !== variants.join('\0'))
      this.variants.replaceChildren(
        html('option', { value: '' }, 'As written'),
        ...variants.map((name) => html('option', { value: name }, name)),
      );
    this.variants.hidden = variants.length === 0;
    this.variants.value = shown ?? '';
  }

  private current(): PreviewView {
    const made = this.views.get(this.view);
    if (made) return made;
    const view = makeView(this.view, this.eventsFor());
    this.views.set(this.view, view);
    view.restore(this.kept.cameras[this.view]);
    return view;
  }

  private eventsFor(): ViewEvents {
    return {
      picked: (key, focus) => this.pick(key, focus),
      taken: (key) => editor.postMessage({ type: 'take', key }),
      worked: (act) => editor.postMessage({ type: 'nest', act }),
      pinned: (act, keys) => editor.postMessage({ type: 'pin', act, keys }),
      cleared: () => this.select([]),
      moved: () => {
        this.keepCamera();
        this.settle();
      },
      say: (text) => this.say(text),
    };
  }

  private take(patch: Parameters<SceneStore['apply']>[0]): void {
    const changes = this.store.apply(patch);
    setUnits(patch.units);
    this.name = patch.name;
    this.offerVariants(patch.variants, patch.variant);
    if (changes && patch.view === this.view) this.draw(changes);
    else if (changes) this.behind.add(patch.view);
    // Answered after the next frame, so that the editor never sends more than can be painted.
    requestAnimationFrame(() => {
      editor.postMessage({
        type: 'painted',
        view: patch.view,
        serial: this.store.serialOf(patch.view),
        version: this.store.versionOf(patch.view),
      });
      // For measuring from outside: which version of the text is on the screen, and since when.
      document.body.dataset.painted = `${patch.version} ${performance.timeOrigin + performance.now()}`;
    });
  }

  /** Whatever goes wrong in a drawing, the editor gets its answer, and the next change is drawn from the start. */
  private draw(changes: SceneChanges): void {
    const { view } = this;
    try {
      this.current().update(this.behind.has(view) ? this.wholeOf(view) : changes);
      this.behind.delete(view);
      this.warnOfSlip();
    } catch (error) {
      this.behind.add(view);
      this.warn(`${TITLES[view]} could not be drawn. The picture is that of an earlier text.`, 'earlier');
      console.error(error);
    }
    if (this.chosen.length === 0) this.status.textContent = this.current().hint;
    this.drawNotes();
    this.drawTable();
    this.settle();
  }

  private warnOfSlip(): void {
    const slip = this.store.slipOf(this.view);
    if (!slip) this.warn('', 'rest');
    else if (slip.shows === 'rest') this.warn(`Line ${slip.line + 1} cannot be read; the rest is drawn.`, 'rest');
    else this.warn(`Line ${slip.line + 1} cannot be read. This is the tub before that.`, 'earlier');
  }

  /** Words over the picture on why it is not that of the whole text; none when it is. */
  private warn(words: string, shows: 'earlier' | 'rest'): void {
    this.banner.textContent = words;
    this.banner.hidden = words === '';
    this.stage.classList.toggle('earlier', shows === 'earlier');
  }

  private wholeOf(view: View): SceneChanges {
    const items = this.store.itemsOf(view);
    return { items, changed: new Set(items.keys()), removed: new Set() };
  }

  private pick(key: string, focus: 'text' | 'preview'): void {
    this.select([key]);
    editor.postMessage({ type: 'reveal', view: this.view, key, focus });
  }

  private select(keys: readonly string[]): void {
    this.chosen = keys;
    this.current().select(keys);
    const rows = this.current()
      .table()
      .rows.filter((row) => keys.includes(row.key));
    this.status.textContent =
      rows.length > 0 ? rows.map((row) => row.cells.join(': ')).join(' · ') : this.current().hint;
    for (const row of this.table.querySelectorAll<HTMLElement>('tr[data-key]'))
      row.classList.toggle('chosen', keys.includes(row.dataset.key ?? ''));
  }

  private drawNotes(): void {
    const notes = [...this.store.itemsOf(this.view)].filter(
      (entry): entry is [string, Extract<SceneItem, { kind: 'note' }>] => entry[1].kind === 'note',
    );
    this.notes.replaceChildren(
      ...notes.map(([key, { text }]) =>
        html(
          'li',
          {},
          button(text, 'Go to the text', () => this.pick(key, 'text')),
        ),
      ),
    );
    this.notes.hidden = notes.length === 0;
  }

  private showTable(shown: boolean): void {
    this.keep({ table: shown });
    this.tableButton.setAttribute('aria-pressed', String(shown));
    this.table.hidden = !shown;
    if (this.views.size > 0) this.drawTable();
  }

  private drawTable(): void {
    if (this.table.hidden) return;
    const { caption, columns, rows } = this.current().table();
    const head = html('tr', {}, ...columns.map((column) => html('th', { scope: 'col' }, column)));
    const body = rows.map(({ key, cells }) => {
      const [first, ...rest] = cells;
      const go = button(first, 'Select; Enter again goes to the text', () =>
        this.pick(key, this.chosen.includes(key) ? 'text' : 'preview'),
      );
      const row = html('tr', {}, html('th', { scope: 'row' }, go), ...rest.map((cell) => html('td', {}, cell)));
      row.dataset.key = key;
      row.classList.toggle('chosen', this.chosen.includes(key));
      return row;
    });
    this.table.replaceChildren(
      html('table', {}, html('caption', {}, caption), html('thead', {}, head), html('tbody', {}, ...body)),
    );
  }

  private onKey(event: KeyboardEvent): void {
    if (
      event.ctrlKey ||
      event.metaKey ||
      event.altKey ||
      event.target instanceof HTMLInputElement ||
      event.target instanceof HTMLSelectElement
    )
      return;
    const rows = this.current().table().rows;
    const at = rows.findIndex((row) => this.chosen.includes(row.key));
    if (event.key === 'n' || event.key === 'p') {
      const next =
        rows[
          (at + (event.key === 'n' ? 1 : -1) + rows.length + (at < 0 && event.key === 'p' ? 1 : 0)) %
            Math.max(1, rows.length)
        ];
      if (next) this.pick(next.key, 'preview');
    } else if (event.key === 'Enter' && at >= 0 && !(event.target instanceof HTMLButtonElement))
      this.pick(rows[at].key, 'text');
    else if (event.key === 'Escape') this.select([]);
    else return;
    event.preventDefault();
  }

  private onTabKey(event: KeyboardEvent): void {
    const by = { ArrowRight: 1, ArrowLeft: -1 }[event.key];
    if (by === undefined) return;
    const next = ORDER[(ORDER.indexOf(this.view) + by + ORDER.length) % ORDER.length];
    this.show(next);
    this.tabs.get(next)?.focus();
  }

  private async sendPicture(format: PictureFormat): Promise<void> {
    const shown = this.current();
    const { paper } = readPalette();
    const drawing = framed(shown.toSvg(), {
      title: `${this.name} – ${TITLES[this.view]}`,
      legend: shown.legend?.() ?? [],
      scale: shown.scale?.(),
      marks: this.marks.shown,
    });
    const text = svgText(drawing, paper);
    const base64 = format === 'svg' ? toBase64(text) : await pngOfSvg(text, paper);
    editor.postMessage({ type: 'picture', format, name: TITLES[this.view].toLowerCase(), base64 });
  }

  private say(text: string): void {
    this.status.textContent = text;
  }

  private refreshAll(): void {
    setInks();
    for (const view of this.views.values()) view.refresh();
    this.settle();
  }

  private keepCamera(): void {
    const kept = this.views.get(this.view)?.keep();
    if (kept !== undefined) this.keep({ cameras: { ...this.kept.cameras, [this.view]: kept } });
  }

  private keep(change: Partial<KeptState>): void {
    this.kept = { ...this.kept, ...change };
    editor.setState(this.kept);
  }
}

const makeView = (view: View, events: ViewEvents): PreviewView => {
  switch (view) {
    case 'flat':
      return new FlatView(events);
    case 'folded':
      return new FoldedView(events);
    case 'water':
      return new WaterView(events);
    case 'hours':
      return new HoursView(events);
    case 'bends':
      return new BendsView(events);
    case 'nest':
      return new NestView(events);
    case 'choices':
      return new ChoicesView(events);
  }
};

new Preview().receive();
