/** Pan and zoom of an SVG by its viewBox: wheel, drag, keys. Lengths in the drawing's own units. */
export interface Window2 {
  /** Middle of the picture. */
  readonly x: number;
  readonly y: number;
  /** Screen pixels per unit. */
  readonly scale: number;
  /** Fitted, and not moved since: it is fitted again when the picture gets another size. */
  readonly fitted?: boolean;
}

/** Left, top, right, bottom; y down. */
type Box = readonly [number, number, number, number];

export class PanZoom {
  private window: Window2 = { x: 0, y: 0, scale: 1 };
  private box: Box = [0, 0, 100, 100];

  constructor(
    private readonly svg: SVGSVGElement,
    private readonly moved: (scale: number) => void,
  ) {
    svg.addEventListener('wheel', (event) => this.onWheel(event), { passive: false });
    svg.addEventListener('pointerdown', (event) => this.onPointerDown(event));
    new ResizeObserver(() => (this.window.fitted ? this.fit(this.box) : this.apply())).observe(svg);
  }

  get current(): Window2 {
    return this.window;
  }

  set(window: Window2): void {
    this.window = { ...window, scale: Math.min(200, Math.max(0.002, window.scale)) };
    this.apply();
  }

  /** What there is to see: fitted anew when it no longer lies well in the picture, and the builder has not moved it. */
  see(box: Box): void {
    this.box = box;
    if (this.window.fitted && !this.liesWell(box)) this.fit(box);
  }

  pan(dx: number, dy: number): void {
    const { x, y, scale } = this.window;
    this.set({ x: x + dx / scale, y: y + dy / scale, scale });
  }

  /** Zooms about a point of the screen, given from the picture's middle; the middle itself by default. */
  zoom(factor: number, dx = 0, dy = 0): void {
    const { x, y, scale } = this.window;
    const next = Math.min(200, Math.max(0.002, scale * factor));
    this.set({ x: x + dx / scale - dx / next, y: y + dy / scale - dy / next, scale: next });
  }

  /** Shows a box given as [left, top, right, bottom], y down. */
  fit(box: Box): void {
    this.box = box;
    const margin = 24;
    const { width, height } = this.size();
    const scale = Math.min(
      (width - 2 * margin) / Math.max(1, box[2] - box[0]),
      (height - 2 * margin) / Math.max(1, box[3] - box[1]),
    );
    this.set({ x: (box[0] + box[2]) / 2, y: (box[1] + box[3]) / 2, scale: Math.max(0.002, scale), fitted: true });
  }

  apply(): void {
    const { width, height } = this.size();
    const { x, y, scale } = this.window;
    this.svg.setAttribute(
      'viewBox',
      `${x - width / 2 / scale} ${y - height / 2 / scale} ${width / scale} ${height / scale}`,
    );
    this.svg.style.setProperty('--px', `${1 / scale}px`);
    this.moved(scale);
  }

  private liesWell([left, top, right, bottom]: Box): boolean {
    const { width, height } = this.size();
    const { x, y, scale } = this.window;
    const isInside =
      (x - left) * scale <= width / 2 &&
      (right - x) * scale <= width / 2 &&
      (y - top) * scale <= height / 2 &&
      (bottom - y) * scale <= height / 2;
    const isLarge = (right - left) * scale > width * 0.6 || (bottom - top) * scale > height * 0.6;
    return isInside && isLarge;
  }

  private size(): { width: number; height: number } {
    const { clientWidth, clientHeight } = this.svg;
    return { width: Math.max(50, clientWidth), height: Math.max(50, clientHeight) };
  }

  private onWheel(event: WheelEvent): void {
    event.preventDefault();
    const box = this.svg.getBoundingClientRect();
    this.zoom(
      Math.exp(-event.deltaY * 0.0015),
      event.clientX - box.left - box.width / 2,
      event.clientY - box.top - box.height / 2,
    );
  }

  private onPointerDown(event: PointerEvent): void {
    if (event.button !== 0 && event.button !== 1) return;
    let [lastX, lastY, far] = [event.clientX, event.clientY, false];
    const move = (next: PointerEvent): void => {
      // A click that trembles by a pixel or two is still a click.
      far ||= Math.hypot(next.clientX - event.clientX, next.clientY - event.clientY) > 3;
      if (!far) return;
      this.svg.setPointerCapture(event.pointerId);
      this.pan(lastX - next.clientX, lastY - next.clientY);
      [lastX, lastY] = [next.clientX, next.clientY];
    };
    const up = (): void => {
      this.svg.removeEventListener('pointermove', move);
      if (far) swallowClick(this.svg);
    };
    this.svg.addEventListener('pointermove', move);
    this.svg.addEventListener('pointerup', up, { once: true });
    this.svg.addEventListener('pointercancel', up, { once: true });
  }
}

/** The end of a drag is no click. */
const swallowClick = (element: Element): void => {
  const swallow = (event: Event): void => event.stopImmediatePropagation();
  element.addEventListener('click', swallow, { capture: true });
  setTimeout(() => element.removeEventListener('click', swallow, { capture: true }));
};
