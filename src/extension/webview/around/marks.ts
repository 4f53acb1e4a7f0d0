import type { ShownFinding } from '../../../language/protocol.js';
import { button, html, setAttributes, svg } from '../dom.js';

/** Place on the stage, in pixels from its top left corner. */
export type Place = readonly [x: number, y: number];

/** What a builder may do about a finding. */
export type FindingAct = 'text' | 'fix' | 'explain';

interface Marked {
  readonly place: Place;
  /** Indices of the findings at this place, the worst first. */
  readonly findings: readonly number[];
}

/** Marks nearer than this would cover one another: they are one. */
const NEAR = 16;

const WORST: readonly ShownFinding['severity'][] = ['error', 'warning', 'info'];

/** A shape for each severity, so that it is told without its colour. */
const SHAPES: Readonly<Record<ShownFinding['severity'], string>> = {
  error: 'M0-9L9 0L0 9L-9 0ZM-3.5-3.5L3.5 3.5M-3.5 3.5L3.5-3.5',
  warning: 'M0-8L9 7H-9ZM0-3.5V2.5M0 4.5V5.2',
  info: 'M-8 0a8 8 0 1 0 16 0a8 8 0 1 0-16 0M0-1V4.5M0-4.5V-3.8',
};

export const shapeOf = (severity: ShownFinding['severity']): SVGPathElement =>
  svg('path', { class: `sign ${severity}`, d: SHAPES[severity] });

/** Every finding at its place in the picture, by severity with a shape; a press tells it and offers what can be done. */
export class Marks {
  readonly layer = html('div', { class: 'marks', role: 'group', 'aria-label': 'Findings' });
  readonly callout = html('div', { class: 'callout', role: 'region', 'aria-label': 'Finding', hidden: true });
  private findings: readonly ShownFinding[] = [];
  private marked: readonly Marked[] = [];
  private waiting = false;

  constructor(
    private readonly placeOf: (key: string) => Place | undefined,
    private readonly act: (finding: number, act: FindingAct) => void,
    private readonly picked: (key: string) => void,
    private readonly placed: (places: readonly Place[]) => void,
  ) {}

  set(findings: readonly ShownFinding[]): void {
    this.findings = findings;
    this.callout.hidden = true;
    this.settle();
  }

  /** The picture moved: once for all that is asked within a frame. */
  settle(): void {
    if (this.waiting) return;
    this.waiting = true;
    requestAnimationFrame(() => {
      this.waiting = false;
      this.placeAll();
    });
  }

  get shown(): readonly { readonly place: Place; readonly severity: ShownFinding['severity'] }[] {
    return this.marked.map(({ place, findings: [worst] }) => ({ place, severity: this.findings[worst].severity }));
  }

  private placeAll(): void {
    this.marked = gathered(this.findings, this.placeOf);
    this.placed(this.marked.map(({ place }) => place));
    const there = [...this.layer.children] as HTMLButtonElement[];
    for (const extra of there.slice(this.marked.length)) extra.remove();
    this.marked.forEach(({ place: [x, y], findings }, i) => {
      const mark = there[i] ?? this.layer.appendChild(this.newMark(i));
      const { severity, message } = this.findings[findings[0]];
      const words = `${findings.length > 1 ? `${findings.length} findings, the worst is an ` : ''}${severity}: ${message}`;
      if (mark.title !== words) {
        mark.title = words;
        mark.setAttribute('aria-label', words);
        mark.replaceChildren(
          svg('svg', { viewBox: '-11 -11 22 22', 'aria-hidden': 'true' }, shapeOf(severity)),
          ...(findings.length > 1 ? [html('span', { 'aria-hidden': 'true' }, String(findings.length))] : []),
        );
      }
      mark.style.transform = `translate(${x.toFixed(1)}px, ${y.toFixed(1)}px)`;
    });
  }

  private newMark(i: number): HTMLButtonElement {
    const mark = html('button', { type: 'button', class: 'finding' });
    mark.addEventListener('click', () => this.tell(this.marked[i].findings));
    return mark;
  }

  private tell(findings: readonly number[]): void {
    const [key] = this.findings[findings[0]].keys;
    if (key !== undefined) this.picked(key);
    this.callout.replaceChildren(
      button('×', 'Close', () => this.close()),
      ...findings.map((index) => {
        const { severity, code, message } = this.findings[index];
        return html(
          'div',
          { class: 'told' },
          svg('svg', { viewBox: '-11 -11 22 22', 'aria-hidden': 'true' }, shapeOf(severity)),
          html('p', {}, message, html('small', {}, ` ${severity}, ${code}`)),
          button('Go There', 'Go to where it stands', () => this.act(index, 'text')),
          button('Fix…', 'Offer what puts it right', () => this.act(index, 'fix')),
          button('Explain', 'Open the page of this check', () => this.act(index, 'explain')),
        );
      }),
    );
    this.callout.hidden = false;
    setAttributes(this.callout, { tabindex: -1 });
    this.callout.focus();
  }

  close(): void {
    this.callout.hidden = true;
  }
}

/** Findings by place; those that lie on one another together. O(n m) in findings and places. */
const gathered = (
  findings: readonly ShownFinding[],
  placeOf: (key: string) => Place | undefined,
): readonly Marked[] => {
  const marked: { place: Place; findings: number[] }[] = [];
  const order = findings.map((_, i) => i).sort((a, b) => rank(findings[a]) - rank(findings[b]) || a - b);
  for (const index of order) {
    const place = findings[index].keys.map(placeOf).find((each) => each !== undefined);
    if (!place) continue;
    const there = marked.find(({ place: [x, y] }) => Math.hypot(x - place[0], y - place[1]) < NEAR);
    if (there) there.findings.push(index);
    else marked.push({ place, findings: [index] });
  }
  return marked;
};

const rank = ({ severity }: ShownFinding): number => WORST.indexOf(severity);
