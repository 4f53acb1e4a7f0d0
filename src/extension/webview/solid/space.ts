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
} from 'three';
import { html, svg } from '../dom.js';
import { readPalette, type Palette } from '../palette.js';
import { Bodies, clearGroup } from './bodies.js';
import { drawLines, drawPolygons } from './paint-svg.js';
import { cut, Painter } from './painter.js';
import { WATER, type SolidPiece, type Polygon3, type V3 } from './pieces.js';
import { placeLabels, type SpaceLabel } from './space-labels.js';
import { Viewpoint } from './viewpoint.js';

export interface SpaceEvents {
  picked(key: string, focus: 'text' | 'preview'): void;
  cleared(): void;
  moved(): void;
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
  private readonly bodies: Bodies;
  private readonly section = new Plane(new Vector3(0, -1, 0), 0);
  private sectionOn = false;
  private palette: Palette = readPalette();
  private labels: readonly SpaceLabel[] = [];
  private chosen: readonly string[] = [];
  private painter: Painter | undefined;
  private drawing = false;
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
    this.light();
    this.listen();
  }

  setPieces(pieces: readonly SolidPiece[]): void {
    this.bodies.set(pieces);
    this.changed();
    if (!this.viewpoint.isSet && pieces.length > 0) this.viewpoint.fit();
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

  /** Cuts away what lies beyond a plane across an axis, at a share of the extent; undefined: nothing is cut. */
  cutAt(axis: 'x' | 'y' | 'z' | undefined, share: number): void {
    this.sectionOn = axis !== undefined;
    if (axis) {
      const normal = new Vector3(axis === 'x' ? -1 : 0, axis === 'y' ? 1 : 0, axis === 'z' ? -1 : 0);
      const at = this.bodies.center[axis] + (share * 2 - 1) * this.bodies.radius * 1.02;
      this.section.setComponents(normal.x, normal.y, normal.z, -normal[axis] * at);
    }
    if (this.renderer) this.renderer.clippingPlanes = this.sectionOn ? [this.section] : [];
    this.bodies.open(this.sectionOn);
    this.changed();
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
    const { camera } = this.viewpoint;
    const lamp = new DirectionalLight(0xffffff, 1.1);
    lamp.position.set(0.3, 0.8, 0.5);
    camera.add(lamp);
    this.scene.add(
      new HemisphereLight(0xffffff, 0x8a8f96, 1.5),
      new AmbientLight(0xffffff, 0.55),
      this.bodies.root,
      this.highlight,
      camera,
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
        this.painter.fromFarToNear(this.viewpoint.eye),
        camera,
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
    return placeLabels(this.labels, this.viewpoint.camera, width, height, this.palette, isHidden);
  }

  private isHidden(point: V3): boolean {
    const eye = this.viewpoint.camera.position;
    const toPoint = new Vector3(...point).sub(eye);
    const far = toPoint.length() - this.bodies.radius * 0.01;
    return (
      new Raycaster(eye, toPoint.normalize(), 0, far).intersectObjects(this.bodies.surfaces(WATER), false).length > 0
    );
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
      if (down && Math.hypot(event.clientX - down.x, event.clientY - down.y) <= 3) this.pick(event, 'preview');
    });
    this.element.addEventListener('dblclick', (event) => this.pick(event, 'text'));
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
    const box = this.element.getBoundingClientRect();
    const at = new Vector2(
      ((event.clientX - box.left) / box.width) * 2 - 1,
      1 - ((event.clientY - box.top) / box.height) * 2,
    );
    const ray = new Raycaster();
    ray.setFromCamera(at, this.viewpoint.camera);
    const hit = ray
      .intersectObjects(this.bodies.surfaces(), false)
      .find(({ point }) => !this.sectionOn || this.section.distanceToPoint(point) >= 0);
    return hit && this.bodies.keyOf(hit.object, hit.faceIndex ?? 0);
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
