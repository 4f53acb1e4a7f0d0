/**
 * A view into space that both Folded and Water use: bodies made of pieces, orbit by mouse, touch and keys, taking
 * apart, a section plane, labels. Drawn by WebGL; where there is none, painted from far to near; a picture to be saved is a drawing of the same.
 */
import { Scene } from 'three';
import { html, svg } from '../dom.js';
import type { Rect } from '../flat/crowd.js';
import { readPalette, type Palette } from '../palette.js';
import { Bodies } from './bodies.js';
import { Highlight } from './highlight.js';
import { Painter } from './paint/painter.js';
import { paintLines, paintPolygons } from './paint/painting.js';
import { CanvasPen, SvgPen, type Pen } from './paint/pens.js';
import type { SolidPiece, V3 } from './piece.js';
import { onPress, type PointerPlace } from './pointer.js';
import { makeLamp, makeRenderer, roomLights } from './renderer.js';
import type { Place } from '../around/marks.js';
import { Rule } from './rule.js';
import { Section, type Axis } from './section.js';
import { Motion, Streams, type Stream } from './streams.js';
import { Sight } from './sight.js';
import { placeLabels, type SpaceLabel } from './space-labels.js';
import { Viewpoint } from './viewpoint.js';

export interface SpaceEvents {
  picked(key: string, focus: 'text' | 'preview'): void;
  cleared(): void;
  moved(): void;
  say(words: string): void;
}

export interface SpaceOptions {
  /** Solids show cut faces in a section; sheets are seen from both sides. */
  readonly solid: boolean;
  readonly label: string;
  /** From where it is first seen. */
  readonly from: V3;
}

export class Space {
  readonly element: HTMLElement;
  readonly viewpoint: Viewpoint;
  private readonly overlay = svg('svg', { class: 'overlay', 'aria-hidden': 'true' });
  private readonly painted = html('canvas', { class: 'painted', 'aria-hidden': 'true' });
  private readonly renderer = makeRenderer();
  private readonly scene = new Scene();
  private readonly highlight = new Highlight();
  /** Goes with the eye. */
  private readonly lamp = makeLamp();
  private readonly bodies: Bodies;
  private readonly streams = new Streams();
  private readonly motion: Motion;
  private readonly section = new Section();
  private readonly sight: Sight;
  private palette: Palette = readPalette();
  private labels: readonly SpaceLabel[] = [];
  private chosen: readonly string[] = [];
  private painter: Painter | undefined;
  private drawing = false;
  private clear: readonly Rect[] = [];
  private rule: Rule | undefined;
  private readonly solid: boolean;

  constructor(
    private readonly events: SpaceEvents,
    { solid, label, from }: SpaceOptions,
  ) {
    this.solid = solid;
    this.element = html('div', {
      class: 'space picture',
      tabindex: 0,
      role: 'application',
      'aria-roledescription': 'drawing',
      'aria-label': label,
    });
    this.element.append(this.renderer ? this.renderer.domElement : this.painted, this.overlay);
    this.element.dataset.renderer = this.renderer ? 'webgl' : 'canvas';
    this.bodies = new Bodies(solid, this.palette);
    this.viewpoint = new Viewpoint(this.element, this.bodies, from, () => {
      this.draw();
      events.moved();
    });
    this.sight = new Sight(this.element, this.bodies, this.viewpoint, this.section);
    this.motion = new Motion(this.element, (time) => {
      this.streams.moveTo(time);
      this.element.dataset.moved = time.toFixed(2);
      this.renderer?.render(this.scene, this.viewpoint.camera);
    });
    this.scene.add(...roomLights(), this.bodies.root, this.highlight.root, this.streams.root, this.lamp);
    this.listen();
  }

  setPieces(pieces: readonly SolidPiece[]): void {
    this.bodies.set(pieces);
    this.changed();
    if (!this.viewpoint.isSet && pieces.length > 0) this.viewpoint.fit();
    else this.viewpoint.follow();
  }

  /** Water that runs along lines; it stands still where no motion is wanted. */
  setStreams(streams: readonly Stream[], isRunning: boolean): void {
    this.streams.set(streams);
    this.streams.recolor(this.palette);
    // Without a graphics card every frame would be a new drawing.
    this.motion.run(isRunning && this.renderer !== undefined && !this.streams.isEmpty);
    this.draw();
  }

  setLabels(labels: readonly SpaceLabel[]): void {
    this.labels = labels;
    this.draw();
  }

  select(keys: readonly string[]): void {
    this.chosen = keys;
    this.showChosen();
    this.draw();
  }

  /** 0: together; 1: bodies moved away from the middle by about their own distance. */
  takeApart(share: number): void {
    this.bodies.takeApart(share);
    this.changed();
    this.viewpoint.refit();
  }

  /**
   * Cuts away what lies beyond a plane across an axis, at a share of the extent along it; undefined: nothing is cut. Returns where
   * the plane stands on that axis, mm.
   */
  cutAt(axis: Axis | undefined, share: number): number | undefined {
    const { low, high } = this.bodies;
    const at = axis && low[axis] + share * (high[axis] - low[axis]);
    if (axis && at !== undefined) this.section.put(axis, at);
    else this.section.clear();
    if (this.renderer) this.renderer.clippingPlanes = this.section.planes;
    this.bodies.open(this.section.isOn);
    this.changed();
    return at;
  }

  /** From here on clicks measure instead of choosing, or choose again. */
  measure(isOn: boolean): void {
    this.rule = isOn ? new Rule((words) => this.events.say(words)) : undefined;
    this.draw();
  }

  /** Nothing is written in these boxes of the picture. */
  keepClear(boxes: readonly Rect[]): void {
    if (boxes.join() === this.clear.join()) return;
    this.clear = boxes;
    this.draw();
  }

  /** Of a place in space on the picture; undefined behind the eye. */
  placeOf(point: V3): Place | undefined {
    return this.sight.placeOf(point);
  }

  /** Of a piece, at the middle of it. */
  placeOfPiece(key: string): Place | undefined {
    const [found] = this.bodies.find(key);
    if (!found) return undefined;
    const { middle } = found.piece;
    const { x, y, z } = found.at;
    const place = this.sight.placeOf([middle[0] + x, middle[1] + y, middle[2] + z]);
    // Over the middle, where its name or number stands.
    return place && [place[0], place[1] - 20];
  }

  /** The theme or the size of the picture changed. */
  refresh(): void {
    this.palette = readPalette();
    this.bodies.recolor(this.palette);
    this.showChosen();
    this.resize();
    this.draw();
  }

  /** The picture as a drawing with its own colours: polygons, then lines and labels. */
  toSvg(): SVGSVGElement {
    const { clientWidth: width, clientHeight: height } = this.element;
    const drawing = svg('svg', {
      xmlns: 'http://www.w3.org/2000/svg',
      viewBox: `0 0 ${width} ${height}`,
      width,
      height,
    });
    const pen = new SvgPen();
    this.paint(pen);
    drawing.append(...pen.drawn, ...this.labelsInSight(width, height));
    return drawing;
  }

  private changed(): void {
    this.painter = undefined;
    this.showChosen();
    this.draw();
  }

  private showChosen(): void {
    this.highlight.show(this.chosen, this.bodies, this.palette.chosen);
  }

  private draw(): void {
    if (this.drawing) return;
    this.drawing = true;
    requestAnimationFrame(() => {
      this.drawing = false;
      this.drawNow();
    });
  }

  private drawNow(): void {
    const { clientWidth: width, clientHeight: height } = this.element;
    if (width === 0 || height === 0) return;
    const { camera } = this.viewpoint;
    camera.updateMatrixWorld();
    this.lamp.position.copy(camera.position);
    this.lamp.quaternion.copy(camera.quaternion);
    if (this.renderer) this.renderer.render(this.scene, camera);
    else this.paintOnScreen(width, height);
    this.overlay.replaceChildren(...this.labelsInSight(width, height));
    this.element.dataset.eye = this.viewpoint.eye.map((x) => x.toFixed(1)).join(' ');
  }

  private paintOnScreen(width: number, height: number): void {
    const context = this.painted.getContext('2d');
    if (!context) return;
    const { devicePixelRatio: ratio } = window;
    // A new size also empties it.
    [this.painted.width, this.painted.height] = [Math.round(width * ratio), Math.round(height * ratio)];
    context.scale(ratio, ratio);
    this.paint(new CanvasPen(context));
  }

  private paint(pen: Pen): void {
    const { camera, seenFrom } = this.viewpoint;
    camera.updateMatrixWorld();
    this.painter ??= new Painter(this.section.applyTo(this.bodies.polygons()));
    const seen = { camera, eye: seenFrom, size: [this.element.clientWidth, this.element.clientHeight] } as const;
    const look = { palette: this.palette, chosen: new Set(this.chosen), shaded: this.solid };
    paintPolygons(pen, this.painter.fromFarToNear(seenFrom), seen, look);
    paintLines(pen, this.bodies.bareLines(), seen, this.palette);
  }

  /** Labels that nothing stands in front of. */
  private labelsInSight(width: number, height: number): SVGElement[] {
    const isHidden = (point: V3): boolean => this.sight.isHidden(point);
    return [
      ...placeLabels(this.labels, this.viewpoint.camera, width, height, this.palette, isHidden, this.clear),
      ...(this.rule?.drawn((point) => this.sight.placeOf(point), this.palette) ?? []),
    ];
  }

  private resize(): void {
    const { clientWidth: width, clientHeight: height } = this.element;
    if (width === 0 || height === 0) return;
    this.viewpoint.resize(width, height);
    this.renderer?.setPixelRatio(window.devicePixelRatio);
    this.renderer?.setSize(width, height, false);
    this.overlay.setAttribute('viewBox', `0 0 ${width} ${height}`);
    // At once: an emptied canvas must not be shown.
    this.drawNow();
  }

  private listen(): void {
    new ResizeObserver(() => this.resize()).observe(this.element);
    onPress(this.element, (at, times) => {
      if (this.rule) this.measureAt(at);
      else this.pick(at, times === 1 ? 'preview' : 'text');
    });
    this.element.addEventListener('keydown', (event) => {
      const act = event.ctrlKey || event.metaKey || event.altKey ? undefined : this.viewpoint.keys[event.key];
      if (!act) return;
      event.preventDefault();
      act();
    });
  }

  private pick(at: PointerPlace, focus: 'text' | 'preview'): void {
    const key = this.sight.keyAt(at);
    if (key) this.events.picked(key, focus);
    else if (focus === 'preview') this.events.cleared();
  }

  private measureAt(at: PointerPlace): void {
    const point = this.sight.pointAt(at);
    if (!point) return;
    this.rule?.take(point);
    this.draw();
  }
}
