/**
 * A view into space that both Folded and Water use: bodies made of pieces, orbit by mouse, touch and keys, taking
 * apart, a section plane, labels. Drawn by WebGL; where there is none, as an SVG drawing of the same scene.
 */
import {
  AmbientLight,
  BufferAttribute,
  BufferGeometry,
  Color,
  DirectionalLight,
  DoubleSide,
  Group,
  HemisphereLight,
  LineBasicMaterial,
  LineSegments,
  Mesh,
  MeshBasicMaterial,
  Plane,
  Raycaster,
  Scene,
  Vector2,
  Vector3,
  WebGLRenderer,
  type Intersection,
} from 'three';
import { html, svg } from '../dom.js';
import type { Rect } from '../flat/crowd.js';
import { mix, readPalette, type Palette } from '../palette.js';
import { Bodies, clearGroup } from './bodies.js';
import { drawLines, drawPolygons } from './paint-svg.js';
import { cut, Painter } from './painter.js';
import { WATER, type SolidPiece, type Polygon3, type V3 } from './pieces.js';
import type { Place } from '../marks.js';
import { Rule } from './rule.js';
import { Motion, Streams, type Stream } from './streams.js';
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
  private readonly painted = svg('svg', { class: 'painted', 'aria-hidden': 'true' });
  private readonly renderer = makeRenderer();
  private readonly scene = new Scene();
  private readonly highlight = new Group();
  /** Goes with the eye. */
  private readonly lamp = new Group();
  private readonly bodies: Bodies;
  private readonly streams = new Streams();
  private readonly motion: Motion;
  private readonly section = new Plane(new Vector3(0, -1, 0), 0);
  private sectionOn = false;
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
    this.element.dataset.renderer = this.renderer ? 'webgl' : 'svg';
    this.bodies = new Bodies(solid, this.palette);
    this.viewpoint = new Viewpoint(this.element, this.bodies, from, () => {
      this.draw();
      events.moved();
    });
    this.motion = new Motion(this.element, (time) => {
      this.streams.moveTo(time);
      this.element.dataset.moved = time.toFixed(2);
      this.renderer?.render(this.scene, this.viewpoint.camera);
    });
    this.light();
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
    this.streams.recolor(mix(this.palette.water, this.palette.paper, 0.1), mix(this.palette.water, '#ffffff', 0.6));
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
  cutAt(axis: 'x' | 'y' | 'z' | undefined, share: number): number | undefined {
    this.sectionOn = axis !== undefined;
    let at: number | undefined;
    if (axis) {
      const normal = new Vector3(axis === 'x' ? -1 : 0, axis === 'y' ? 1 : 0, axis === 'z' ? -1 : 0);
      const { low, high } = this.bodies;
      at = low[axis] + share * (high[axis] - low[axis]);
      this.section.setComponents(normal.x, normal.y, normal.z, -normal[axis] * at);
    }
    if (this.renderer) this.renderer.clippingPlanes = this.sectionOn ? [this.section] : [];
    this.bodies.open(this.sectionOn);
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
    const at = new Vector3(...point).project(this.viewpoint.camera);
    const { clientWidth, clientHeight } = this.element;
    return at.z > 1 ? undefined : [((at.x + 1) / 2) * clientWidth, ((1 - at.y) / 2) * clientHeight];
  }

  /** Of a piece, at the middle of it. */
  placeOfPiece(key: string): Place | undefined {
    const [found] = this.bodies.find(key);
    if (!found) return undefined;
    const { middle } = found.piece;
    const { x, y, z } = found.at;
    const place = this.placeOf([middle[0] + x, middle[1] + y, middle[2] + z]);
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
    drawing.append(...this.paint(), ...this.labelsInSight(width, height));
    return drawing;
  }

  private light(): void {
    const lamp = new DirectionalLight(0xffffff, 1.1);
    lamp.position.set(0.3, 0.8, 0.5);
    this.lamp.add(lamp);
    this.scene.add(
      new HemisphereLight(0xffffff, 0x8a8f96, 1.5),
      new AmbientLight(0xffffff, 0.55),
      this.bodies.root,
      this.highlight,
      this.streams.root,
      this.lamp,
    );
  }

  private changed(): void {
    this.painter = undefined;
    this.showChosen();
    this.draw();
  }

  private showChosen(): void {
    clearGroup(this.highlight);
    const color = new Color(this.palette.chosen);
    for (const { piece, at } of this.chosen.flatMap((key) => this.bodies.find(key))) {
      const [faces, edges] = [new BufferGeometry(), new BufferGeometry()];
      faces.setAttribute('position', new BufferAttribute(new Float32Array(piece.positions), 3));
      edges.setAttribute('position', new BufferAttribute(new Float32Array(piece.lines), 3));
      const glow = new Mesh(
        faces,
        new MeshBasicMaterial({ color, transparent: true, opacity: 0.45, side: DoubleSide, depthWrite: false }),
      );
      const rim = new LineSegments(edges, new LineBasicMaterial({ color, depthTest: false }));
      for (const object of [glow, rim]) {
        object.position.copy(at);
        object.renderOrder = 2;
        this.highlight.add(object);
      }
    }
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
    else this.painted.replaceChildren(...this.paint());
    this.overlay.replaceChildren(...this.labelsInSight(width, height));
    this.element.dataset.eye = this.viewpoint.eye.map((x) => x.toFixed(1)).join(' ');
  }

  private paint(): SVGElement[] {
    const { camera } = this.viewpoint;
    camera.updateMatrixWorld();
    this.painter ??= new Painter(this.polygons());
    const { clientWidth: width, clientHeight: height } = this.element;
    return [
      ...drawPolygons(
        this.painter.fromFarToNear(this.viewpoint.seenFrom),
        this.viewpoint,
        width,
        height,
        this.palette,
        new Set(this.chosen),
        this.solid,
      ),
      ...drawLines(this.bodies.bareLines(), camera, width, height, this.palette),
    ];
  }

  private polygons(): Polygon3[] {
    const all = this.bodies.polygons();
    if (!this.sectionOn) return all;
    const { normal, constant } = this.section;
    return all
      .map((polygon) => cut(polygon, (p) => normal.x * p[0] + normal.y * p[1] + normal.z * p[2] + constant))
      .filter((p) => p.points.length > 2);
  }

  /** Labels that nothing stands in front of. */
  private labelsInSight(width: number, height: number): SVGElement[] {
    const isHidden = this.renderer ? (point: V3): boolean => this.isHidden(point) : (): boolean => false;
    return [
      ...placeLabels(this.labels, this.viewpoint.camera, width, height, this.palette, isHidden, this.clear),
      ...(this.rule?.drawn((point) => this.placeOf(point), this.palette) ?? []),
    ];
  }

  private isHidden(point: V3): boolean {
    const towards = new Vector3(...this.viewpoint.towardsEye(point));
    const { radius } = this.bodies;
    const far =
      this.viewpoint.sight === 'parallel'
        ? 4 * radius
        : this.viewpoint.camera.position.distanceTo(new Vector3(...point));
    const ray = new Raycaster(new Vector3(...point), towards, radius * 0.01, far);
    return ray.intersectObjects(this.bodies.surfaces(WATER), false).length > 0;
  }

  private resize(): void {
    const { clientWidth: width, clientHeight: height } = this.element;
    if (width === 0 || height === 0) return;
    this.viewpoint.resize(width, height);
    this.renderer?.setPixelRatio(window.devicePixelRatio);
    this.renderer?.setSize(width, height, false);
    for (const layer of [this.overlay, this.painted]) layer.setAttribute('viewBox', `0 0 ${width} ${height}`);
    // At once: an emptied canvas must not be shown.
    this.drawNow();
  }

  private listen(): void {
    new ResizeObserver(() => this.resize()).observe(this.element);
    let down: { readonly x: number; readonly y: number } | undefined;
    this.element.addEventListener('pointerdown', (event) => (down = { x: event.clientX, y: event.clientY }));
    this.element.addEventListener('click', (event) => {
      if (!down || Math.hypot(event.clientX - down.x, event.clientY - down.y) > 3) return;
      if (this.rule) this.measureAt(event);
      else this.pick(event, 'preview');
    });
    this.element.addEventListener('dblclick', (event) => this.rule ?? this.pick(event, 'text'));
    this.element.addEventListener('keydown', (event) => {
      const act = event.ctrlKey || event.metaKey || event.altKey ? undefined : this.viewpoint.keys[event.key];
      if (!act) return;
      event.preventDefault();
      act();
    });
  }

  private pick(event: MouseEvent, focus: 'text' | 'preview'): void {
    const key = this.keyAt(event);
    if (key) this.events.picked(key, focus);
    else if (focus === 'preview') this.events.cleared();
  }

  private keyAt(event: MouseEvent): string | undefined {
    // Not the event's target: whoever turns the view has captured the pointer.
    if (!this.renderer)
      return document.elementFromPoint(event.clientX, event.clientY)?.closest<SVGElement>('[data-key]')?.dataset.key;
    const hit = this.hitAt(event);
    return hit && this.bodies.keyOf(hit.object, hit.faceIndex ?? 0);
  }

  /** What of the bodies is seen at the pointer. */
  private hitAt(event: MouseEvent): Intersection | undefined {
    const box = this.element.getBoundingClientRect();
    const at = new Vector2(
      ((event.clientX - box.left) / box.width) * 2 - 1,
      1 - ((event.clientY - box.top) / box.height) * 2,
    );
    const ray = new Raycaster();
    ray.setFromCamera(at, this.viewpoint.camera);
    this.scene.updateMatrixWorld();
    return ray
      .intersectObjects(this.bodies.surfaces(), false)
      .find(({ point }) => !this.sectionOn || this.section.distanceToPoint(point) >= 0);
  }

  /** The place under the pointer, or the corner next to it. */
  private measureAt(event: MouseEvent): void {
    const hit = this.hitAt(event);
    if (!hit) return;
    const box = this.element.getBoundingClientRect();
    const corner = this.bodies.cornerNear(hit.object, hit.faceIndex ?? 0, (point) => {
      const place = this.placeOf(point);
      return place ? Math.hypot(place[0] - event.clientX + box.left, place[1] - event.clientY + box.top) : Infinity;
    });
    this.rule?.take(corner ?? hit.point.toArray());
    this.draw();
  }
}

const makeRenderer = (): WebGLRenderer | undefined => {
  const canvas = document.createElement('canvas');
  const context = canvas.getContext('webgl2', { antialias: true, alpha: true });
  if (!context) return undefined;
  const renderer = new WebGLRenderer({ canvas, context, antialias: true, alpha: true });
  renderer.setClearColor(0x000000, 0);
  return renderer;
};
