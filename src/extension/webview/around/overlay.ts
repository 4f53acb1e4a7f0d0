import type { ShownFinding } from '../../../language/protocol.js';
import type { PreviewView } from '../view.js';
import { Legend } from './legend.js';
import { Marks, type FindingAct, type Place } from './marks.js';
import { ScaleBar } from './scale-bar.js';

export interface OverlayEvents {
  /** The view under it, if it is made already. */
  shown(): PreviewView | undefined;
  /** Something is done about a finding. */
  acted(finding: number, act: FindingAct): void;
  picked(key: string): void;
}

/** What lies over the picture and follows it: marks of findings, legend and scale. */
export class Overlay {
  private readonly legend = new Legend();
  private readonly scaleBar = new ScaleBar();
  private readonly marks: Marks;

  constructor(
    private readonly stage: HTMLElement,
    private readonly events: OverlayEvents,
  ) {
    this.marks = new Marks(
      (key) => this.placeOf(key),
      (index, act) => events.acted(index, act),
      (key) => events.picked(key),
      (places) => this.keepClear(places),
    );
    this.legend.element.addEventListener('toggle', () => this.settle());
  }

  /** Over this picture, with no finding yet. */
  lieOver(picture: Element): void {
    this.marks.set([]);
    this.stage.replaceChildren(
      picture,
      this.marks.layer,
      this.legend.element,
      this.scaleBar.element,
      this.marks.callout,
    );
  }

  mark(findings: readonly ShownFinding[]): void {
    this.marks.set(findings);
  }

  get marked(): Marks['shown'] {
    return this.marks.shown;
  }

  /** The picture has changed or moved. */
  settle(): void {
    const shown = this.events.shown();
    if (!shown) return;
    this.marks.settle();
    this.legend.set(shown.legend?.() ?? []);
    this.scaleBar.set(shown.scale?.());
  }

  /** Of an item on the stage; undefined where it lies outside. */
  private placeOf(key: string): Place | undefined {
    const place = this.events.shown()?.placeOf?.(key);
    const { clientWidth, clientHeight } = this.stage;
    const isOutside = place && (place[0] < 0 || place[1] < 0 || place[0] > clientWidth || place[1] > clientHeight);
    return isOutside ? undefined : place;
  }

  /** The views write nothing over the marks, nor under what lies over the picture. */
  private keepClear(places: readonly Place[]): void {
    const whole = this.stage.getBoundingClientRect();
    const over = [this.legend.element, this.scaleBar.element].filter(({ hidden }) => !hidden);
    this.events.shown()?.keepClear?.([
      ...places.map(([x, y]) => [x - 11, y - 11, x + 11, y + 11] as const),
      ...over.map((element) => {
        const { left, top, right, bottom } = element.getBoundingClientRect();
        return [left - whole.left, top - whole.top, right - whole.left, bottom - whole.top] as const;
      }),
    ]);
  }
}
