import { html, setAttributes, svg } from '../dom.js';

/** What a mark of the picture means. */
export interface LegendEntry {
  readonly words: string;
  /** Colour of a patch or a line, as it is drawn. */
  readonly color: string;
  readonly mark: 'patch' | 'line' | 'arrow' | 'ring' | 'cross' | 'drop';
  /** Of a line. */
  readonly dash?: string | undefined;
}

/** Says what the marks mean; folds away, and stays folded. */
export class Legend {
  readonly element = html('details', { class: 'legend', open: true, hidden: true });
  private readonly list = html('ul');
  private entries: readonly LegendEntry[] = [];

  constructor() {
    this.element.append(html('summary', {}, 'Legend'), this.list);
    // Where there is little room the picture comes first.
    if (window.innerWidth < 500) this.element.open = false;
  }

  set(entries: readonly LegendEntry[]): void {
    if (JSON.stringify(entries) === JSON.stringify(this.entries)) return;
    this.entries = entries;
    this.element.hidden = entries.length === 0;
    this.list.replaceChildren(
      ...entries.map((entry) =>
        html(
          'li',
          {},
          svg('svg', { class: 'sign', viewBox: '-9 -7 18 14', 'aria-hidden': 'true' }, signOf(entry)),
          entry.words,
        ),
      ),
    );
  }

  get shown(): readonly LegendEntry[] {
    return this.entries;
  }
}

const signs: Readonly<Record<LegendEntry['mark'], string>> = {
  patch: 'M-8-5H8V5H-8Z',
  line: 'M-8 0H8',
  arrow: 'M-8 0H8M3-4L8 0L3 4',
  ring: 'M-5 0a5 5 0 1 0 10 0a5 5 0 1 0-10 0',
  cross: 'M-5-5L5 5M-5 5L5-5',
  drop: 'M0-6C6 2 3 6 0 6S-6 2 0-6Z',
};

export const signOf = ({ mark, color, dash }: LegendEntry, edge = 'var(--faint)'): SVGElement => {
  const sign = svg('path', {
    d: signs[mark],
    fill: 'none',
    stroke: color,
    'stroke-width': 2,
    'stroke-dasharray': dash,
  });
  if (mark === 'patch') setAttributes(sign, { fill: color, 'stroke-width': 1, stroke: edge });
  return sign;
};
