import type { MadeBendItem, MadeProfileItem, MadeSeamItem } from '../../../language/protocol.js';
import { choice, html, plain, setAttributes, svg } from '../dom.js';
import type { LegendEntry } from '../around/legend.js';
import { readPalette } from '../palette.js';
import { nextOf, PlottedView } from '../plotted-view.js';
import { shortened, textWidth } from '../text-width.js';
import { rowsOf, type TextTable, type ViewEvents } from '../view.js';
import { acrossLine, boundsOf, placed, toScreen, type Screen, type Vec2 } from './exaggerate.js';

/** Room for words around a profile, px; at its sides that of the longest word too. */
const EDGE = { side: 24, top: 46, bottom: 26 };
/** px, as the style says. */
const TYPE = 12;
const TIMES = ['1', '5', '10', '20', '50'] as const;
type Times = (typeof TIMES)[number];

/** Strips from the side: as planned, as made, open bends, and where what is cut stands off; differences larger on demand. */
export class MadeView extends PlottedView {
  override readonly hint = 'Keys: arrows choose, Enter: text';
  readonly controls: HTMLElement;
  private times: Times = '1';
  private current: string | undefined;

  constructor(events: ViewEvents) {
    super(events, 'made', 'Strips as planned and as made');
    this.controls = html(
      'div',
      { class: 'controls' },
      choice<Times>(
        'Differences',
        TIMES.map((times) => [times, times === '1' ? 'true size' : `${times} times larger`] as const),
        (times) => {
          this.times = times;
          this.draw();
        },
      ),
    );
  }

  select(keys: readonly string[]): void {
    this.current = keys.find((key) => this.items.has(key));
    this.draw();
  }

  table(): TextTable {
    return { caption: 'As planned and as made', columns: ['What', 'How it came out'], rows: rowsOf(this.items) };
  }

  legend(): readonly LegendEntry[] {
    const { ink, faint, warn } = readPalette();
    if (this.profiles().length === 0) return [];
    const entries: LegendEntry[] = [
      { words: 'as made', color: ink, mark: 'line' },
      { words: 'as planned', color: faint, mark: 'line', dash: '5 3' },
      { words: 'bend still open', color: ink, mark: 'ring' },
    ];
    const hasSeams = [...this.items.values()].some(({ kind }) => kind === 'made-seam');
    return hasSeams ? [...entries, { words: 'cut part stands off', color: warn, mark: 'patch' }] : entries;
  }

  private profiles(): [string, MadeProfileItem][] {
    return [...this.items]
      .filter((entry): entry is [string, MadeProfileItem] => entry[1].kind === 'made-profile')
      .sort((a, b) => a[1].order - b[1].order);
  }

  protected draw(): void {
    const profiles = this.profiles();
    const [width, height] = [this.picture.clientWidth, this.picture.clientHeight];
    setAttributes(this.drawing, { viewBox: `0 0 ${width} ${height}` });
    const room = height / Math.max(1, profiles.length);
    if (profiles.length === 0 || width < 4 * EDGE.side || room < EDGE.top + EDGE.bottom) {
      this.drawing.replaceChildren();
      return;
    }
    this.drawing.replaceChildren(
      ...profiles.flatMap(([key, item], i) => this.drawProfile(key, item, { width, room, top: i * room })),
    );
  }

  private drawProfile(
    key: string,
    item: MadeProfileItem,
    { width, room, top }: { readonly width: number; readonly room: number; readonly top: number },
  ): SVGElement[] {
    const times = Number(this.times);
    const made = item.planned.map((from, i) => placed(from, item.made[i], times));
    const bends = this.bendsOf(key);
    const side = Math.max(EDGE.side, ...bends.map(([, bend]) => EDGE.side + textWidth(wordsOf(bend), TYPE)));
    const screen = toScreen(boundsOf([...item.planned, ...made]), {
      left: side,
      top: top + EDGE.top,
      width: width - 2 * side,
      height: room - EDGE.top - EDGE.bottom,
    });
    const line = (points: readonly Vec2[], name: string): SVGElement =>
      svg('polyline', { class: name, points: points.map((point) => screen.at(point).join(',')).join(' ') });
    const size = times === 1 ? 'differences in true size' : `differences ${times} times larger than they are`;
    return [
      svg(
        'text',
        { class: 'choices-name', x: 12, y: top + 20 },
        shortened(`${item.name}, from the side`, TYPE, width - 24),
      ),
      svg('text', { class: 'choices-tick', x: 12, y: top + 36 }, size),
      ...this.seamsOf(key).map(([each, seam]) => this.drawSeam(each, seam, made, screen)),
      line(item.planned, 'made-planned'),
      this.chosenBy(key, line(made, 'made-line'), item),
      ...bends.flatMap(([each, bend]) => this.drawBend(each, bend, made, screen)),
    ];
  }

  private bendsOf(profile: string): [string, MadeBendItem][] {
    return [...this.items].filter(
      (entry): entry is [string, MadeBendItem] => entry[1].kind === 'made-bend' && entry[1].profile === profile,
    );
  }

  private seamsOf(profile: string): [string, MadeSeamItem][] {
    return [...this.items].filter(
      (entry): entry is [string, MadeSeamItem] => entry[1].kind === 'made-seam' && entry[1].profile === profile,
    );
  }

  /** The sliver between the leg as made and the edge of the cut part; its size stands at the end where it is largest. */
  private drawSeam(key: string, seam: MadeSeamItem, made: readonly Vec2[], screen: Screen): SVGElement {
    const times = Number(this.times);
    const { leg, from, to, start_mm: start, end_mm: end } = seam;
    const own = [from, to].map((share) => placed(made[leg], made[leg + 1], share));
    const edge = [
      acrossLine(made[leg], made[leg + 1], own[0], start * times),
      acrossLine(made[leg], made[leg + 1], own[1], end * times),
    ];
    const points = [own[0], own[1], edge[1], edge[0]].map((point) => screen.at(point).join(',')).join(' ');
    return this.chosenBy(
      key,
      svg('polygon', { class: `made-seam ${start + end < 0 ? 'over' : 'open'}`, points }),
      seam,
    );
  }

  private drawBend(key: string, bend: MadeBendItem, made: readonly Vec2[], screen: Screen): SVGElement[] {
    const [x, y] = screen.at(made[bend.corner]);
    const away = screen.awayFrom(made, bend.corner);
    return [
      this.chosenBy(key, svg('circle', { class: `made-bend ${bend.state}`, cx: x, cy: y, r: 4 }), bend),
      svg(
        'text',
        {
          class: 'choices-tick made-label',
          x: x + 12 * away[0],
          y: y + 12 * away[1] + 4,
          'text-anchor': away[0] < -0.4 ? 'end' : away[0] > 0.4 ? 'start' : 'middle',
        },
        wordsOf(bend),
      ),
    ];
  }

  private chosenBy(
    key: string,
    element: SVGElement,
    { told }: MadeProfileItem | MadeBendItem | MadeSeamItem,
  ): SVGElement {
    element.classList.toggle('chosen', key === this.current);
    const words = told ? [told.what, ...told.facts].join('; ') : '';
    setAttributes(element, { role: 'button', 'aria-label': words, 'data-key': key });
    element.append(svg('title', {}, words));
    element.addEventListener('click', () => this.choose(key));
    element.addEventListener('dblclick', () => this.events.picked(key, 'text'));
    return element;
  }

  private choose(key: string): void {
    this.current = key;
    this.draw();
    this.events.picked(key, 'preview');
  }

  protected step(by: 1 | -1): void {
    const next = nextOf([...this.items.keys()], (key) => key === this.current, by);
    if (next !== undefined) this.choose(next);
  }
}

const wordsOf = ({ off_deg, state }: MadeBendItem): string =>
  `${off_deg > 0 ? '+' : ''}${plain(off_deg, 1)}°${state === 'open' ? ' open' : ''}`;
