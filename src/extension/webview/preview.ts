import type { Leaning, PictureFormat, View } from '../../language/protocol.js';
import { Banner } from './around/banner.js';
import { FactsTable } from './around/facts-table.js';
import { framed } from './around/framed.js';
import { Notes } from './around/notes.js';
import { Overlay } from './around/overlay.js';
import { pngOfSvg, svgText, toBase64 } from './around/picture.js';
import { idOfTab, Tabs, TITLES } from './around/tabs.js';
import { named, Toolbar } from './around/toolbar.js';
import { Variants } from './around/variants.js';
import { button, html } from './dom.js';
import { editor, onMessage, type KeptState } from './host.js';
import { makeView } from './make-view.js';
import { onThemeChange, readPalette, setInks } from './palette.js';
import { SceneStore, type SceneChanges } from './store.js';
import { setUnits } from './units.js';
import type { PreviewView, ViewEvents } from './view.js';

/** The whole preview: tabs, the view on show, notes, text table and status line. */
export class Preview {
  private readonly store = new SceneStore();
  private readonly views = new Map<View, PreviewView>();
  private readonly tabs = new Tabs((view) => this.show(view));
  private readonly stage = html('div', { id: 'stage', role: 'tabpanel' });
  private readonly overlay = new Overlay(this.stage, {
    shown: () => this.views.get(this.view),
    acted: (index, act) => editor.postMessage({ type: 'finding', index, act }),
    picked: (key) => this.select([key]),
  });
  private readonly toolbar: Toolbar;
  /** Of the tub on show. */
  private name = '';
  private readonly banner = new Banner(this.stage);
  private readonly notes = new Notes((key) => this.pick(key, 'text'));
  private readonly status = html('p', { class: 'status', role: 'status' });
  private readonly table = new FactsTable((key, focus) => this.pick(key, focus));
  private readonly tableButton = named(
    button('', 'Show the same facts as text', () => this.showTable(!this.kept.table), false),
    'table',
    'Text',
  );
  private readonly variants = new Variants((variant) => {
    this.keep({ variant });
    this.want();
  });
  private view: View;
  private chosen: readonly string[] = [];
  private kept: KeptState;
  /** How the water is looked at; undefined: as the text has it stand. */
  private leaning: Leaning | undefined;
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
      html('main', {}, heading, this.banner.element, this.notes.element, this.stage, this.table.element, this.status),
    );
    new ResizeObserver(() => this.overlay.settle()).observe(this.stage);
    this.showTable(this.kept.table);
    setInks();
    onThemeChange(() => this.refreshAll());
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
      else this.banner.tellEarlier(message.reason);
    });
  }

  private newToolbar(): Toolbar {
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
    return new Toolbar(this.tabs.element, html('div', { class: 'view-controls' }), common);
  }

  private show(view: View): void {
    this.view = view;
    this.keep({ view });
    this.tabs.show(view);
    const shown = this.current();
    this.overlay.lieOver(shown.picture);
    this.stage.setAttribute('aria-labelledby', idOfTab(view));
    this.toolbar.show(shown.controls, [this.variants.element]);
    if (this.behind.has(view)) this.draw(this.wholeOf(view));
    else this.banner.tellSlip(this.store.slipOf(view));
    shown.shown();
    shown.select(this.chosen);
    this.notes.draw(this.store.itemsOf(this.view));
    this.drawTable();
    this.overlay.settle();
    this.status.textContent = this.store.serialOf(view) === 0 ? 'Working it out …' : shown.hint;
    this.want();
  }

  private mark(view: View, findings: Parameters<Overlay['mark']>[0]): void {
    if (view === this.view) this.overlay.mark(findings);
  }

  private want(): void {
    const { view } = this;
    editor.postMessage({
      type: 'want',
      view,
      have: this.store.serialOf(view),
      variant: this.kept.variant,
      leaning: this.leaning,
    });
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
      leaned: (leaning) => {
        this.leaning = leaning;
        this.want();
      },
      cleared: () => this.select([]),
      moved: () => {
        this.keepCamera();
        this.overlay.settle();
      },
      say: (text) => this.say(text),
    };
  }

  private take(patch: Parameters<SceneStore['apply']>[0]): void {
    const changes = this.store.apply(patch);
    setUnits(patch.units);
    this.name = patch.name;
    this.variants.offer(patch.variants, patch.variant);
    if (patch.view === this.view) this.current().offerLean?.(patch.within_deg);
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
      this.banner.tellSlip(this.store.slipOf(view));
    } catch (error) {
      this.behind.add(view);
      this.banner.tellEarlier(`${TITLES[view]} could not be drawn. The picture is that of an earlier text.`);
      console.error(error);
    }
    if (this.chosen.length === 0) this.status.textContent = this.current().hint;
    this.notes.draw(this.store.itemsOf(this.view));
    this.drawTable();
    this.overlay.settle();
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
    this.table.choose(keys);
  }

  private showTable(shown: boolean): void {
    this.keep({ table: shown });
    this.tableButton.setAttribute('aria-pressed', String(shown));
    this.table.show(shown);
    if (this.views.size > 0) this.drawTable();
  }

  private drawTable(): void {
    if (this.table.isShown) this.table.draw(this.current().table(), this.chosen);
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

  private async sendPicture(format: PictureFormat): Promise<void> {
    const shown = this.current();
    const { paper } = readPalette();
    const drawing = framed(shown.toSvg(), {
      title: `${this.name} – ${TITLES[this.view]}`,
      legend: shown.legend?.() ?? [],
      scale: shown.scale?.(),
      // Beside the rows of a list they are not in the picture.
      marks: this.view === 'bends' ? [] : this.overlay.marked,
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
    this.overlay.settle();
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
